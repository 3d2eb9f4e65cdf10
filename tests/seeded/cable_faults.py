"""Lengths, jackets, conductors, fibres, categories."""

from seeded.kind import fault
from seeded.page import NotHere, Page


@fault("channel-length", level="error", most=12)
def longer_way(page: Page) -> None:
    row = page.pick(
        "ways",
        r"^  (skirting|stair-void|bar-trunking|hall-trunking|studio-floor|gate-duct|hive-path|slip-clips):",
    )
    row.set("length", f"{page.rng.randrange(115, 190)} m")


@fault("channel-length", level="error|warning", most=8)
def thinner_cords_on_a_long_run(page: Page) -> None:
    row = page.pick("ways", r"^  (landing-run|bar-trunking|studio-floor):")
    row.set("length", "72 m")
    link = page.link(r"run: \[(desk|till-1|bench|chair-laptop), ")
    name = link.text.partition("[")[2].partition(",")[0]
    if page.the("devices", name).value("room") not in row.value("between"):
        raise NotHere
    link.set("cord", "long-thin-cord")
    page.add(
        "parts",
        "long-thin-cord: {like: cord-cat6-thin, cable: {medium: copper, category: 6, gauge: 28, conductor: copper, rating: indoor, lengths: [15 m]}}",
    )


@fault("conductor-material", most=8)
def aluminium_cable(page: Page) -> None:
    page.link(r"out-[a-z]+/\d").set("cable", "cat5e-cca-indoor")


@fault("cable-exposure", level="error|warning")
def indoor_cable_outdoors(page: Page) -> None:
    page.device(r"part: (camera-outdoor|yard-camera|access-point-outdoor|slip-camera|sensor-poe)\b").touch()
    row = page.device(
        r"part: (camera-outdoor|yard-camera|access-point-outdoor|slip-camera|sensor-poe)\b.*plugs-into: "
    )
    into = row.value("plugs-into").strip("[]")
    row.unset("plugs-into")
    page.add("links", f"- {{run: [{row.key}, {into}], cable: cat6-indoor}}")


@fault("outdoor-jacket-indoors", level="note")
def outdoor_cable_far_indoors(page: Page) -> None:
    link = page.link(r"out-(workroom|training|studio|committee)/\d")
    link.set("cable", "cat6-outdoor")
    for row in page.having("ways", r"^  (landing-run|upper-run|studio-floor|club-riser):"):
        row.set("length", "21 m")


@fault("link-rate")
def rate_that_the_jacks_do_not_reach(page: Page) -> None:
    page.link(r"out-[a-z]+/\d").set("rate", "10 Gb/s")


@fault("channel-length", level="error|warning")
def category_too_low_for_the_rate(page: Page) -> None:
    """Both ends get jacks of 10 Gb/s, and the run between them a cable of category 5."""
    link = page.link(r"run: \[(desk|chair-laptop|bench|ergo-screen), ")
    name = link.text.partition("[")[2].partition(",")[0]
    page.own_part(page.the("devices", name), "jacks: {1: {family: rj45, rate: 10 Gb/s}}")
    core = page.the("devices", "core")
    if "16-poe}" not in core.text and "switch-" not in core.text:
        raise NotHere
    count = 24 if "24" in core.value("part") else 8 if "switch-8" in core.value("part") else 16
    sockets = f"1-{count}: {{family: rj45, rate: 10 Gb/s}}"
    if count == 24:
        sockets += ", sfp1-sfp4: {family: sfp, rate: 1 Gb/s}"
    page.own_part(core, f"jacks: {{{sockets}}}")
    link.set("cable", "cat5-old")
    page.add(
        "parts",
        "cat5-old: {like: cat5e-indoor, cable: {medium: copper, category: 5, gauge: 24, conductor: copper, rating: indoor, lengths: [100 m]}}",
    )


@fault("jack-family", "transceiver-unknown", "channel-length", level="error|warning")
def fibre_of_another_grade(page: Page) -> None:
    page.link(r"sfp1, fibre-club/1").set("cable", "old-fibre")
    page.add(
        "parts",
        "old-fibre: {like: fibre-os2-buried, cable: {medium: fibre, category: om1, conductor: glass, rating: buried, family: lc, lengths: [100 m]}}",
    )


@fault("channel-length", "jack-family", level="error|warning", most=4)
def cords_of_another_fibre_grade(page: Page) -> None:
    page.link(r"sfp1, fibre-club/1").set("cord", "cord-lc-om4")


@fault("module-fits", "part-kind", most=8)
def modules_that_do_not_click_in(page: Page) -> None:
    page.whole("cabling").set("jacks", "odd-module")
    page.add("parts", "odd-module: {like: jack-cat6, fits: lc}")
    for row in page.having("devices", r"part: (keystone|wall-outlet|surface-outlet|full-panel)"):
        row.touch()


@fault("module-category", level="note", most=8)
def modules_of_a_lower_category(page: Page) -> None:
    page.whole("cabling").set("jacks", "jack-cat5e")
    for row in page.having("devices", r"part: (keystone|wall-outlet|surface-outlet|full-panel)"):
        row.touch()


@fault("channel-connections", level="error|warning")
def couplers_in_a_row(page: Page) -> None:
    link = page.link(r"run: \[(desk|till-1|bench|ergo-screen), ")
    names = [f"join-{number}" for number in range(1, 5)]
    panel = r"(, core\])"
    link.swap(panel, rf", {', '.join(names)}\1")
    for name in names:
        page.add(
            "devices",
            f"{name}: {{part: coupler-rj45, room: {page.pick('sites', r'^ +(study|office|pantry): ').key}}}",
        )


@fault("length-unplaced")
def length_of_which_run(page: Page) -> None:
    link = page.link(r"run: \[(names-2|names-1|gateway|router), core\]\}")
    link.swap(", core", ", join, core").set("length", "2 m")
    page.add(
        "devices",
        f"join: {{part: coupler-rj45, room: {page.pick('sites', r'^ +(study|office|pantry): ').key}}}",
    )


@fault("cord-length")
def cord_longer_than_any(page: Page) -> None:
    page.link(r"run: \[(line-box|store), [a-z/]+\]\}").set("length", "80 m")


@fault("cord-reach", level="error|warning")
def cord_too_short_for_its_cabinet(page: Page) -> None:
    link = page.link(r"run: \[(gateway|router|store|names-1), core\]")
    page.stands("core")
    link.set("length", "0.25 m")


@fault("copper-joins-earths", level="warning")
def copper_between_earths_that_nobody_accepted(page: Page) -> None:
    rows = [
        row
        for row in page.section("exceptions")
        if "subject" in row.text or "copper-joins-earths" in row.text
    ]
    if not rows:
        raise NotHere
    link = page.link(r"surge-[a-z]+, surge-[a-z]+").touch()
    for row in [*page.section("exceptions")]:
        page.drop(row)
    assert link.touched


@fault("poe-reach", "channel-length", level="error|warning|cannot tell")
def thin_wires_for_a_far_camera(page: Page) -> None:
    page.link(r"surge-[a-z]+, surge-[a-z]+, injector").set("cable", "thin-buried")
    page.add(
        "parts",
        "thin-buried: {like: cat6-buried, cable: {medium: copper, category: 6, gauge: 28, conductor: copper, rating: buried, lengths: [100 m]}}",
    )
