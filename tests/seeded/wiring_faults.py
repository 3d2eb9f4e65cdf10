"""What is plugged wrongly or not at all."""

from seeded.kind import fault
from seeded.page import NotHere, Page


@fault("jack-used-twice")
def two_cords_in_one_jack(page: Page) -> None:
    first, second = page.rng.sample(page.having("links", r"out-[a-z]+/\d"), 2)
    taken = first.text.partition("out-")[2].partition(",")[0]
    first.touch()
    second.swap(r"out-[a-z]+/\d", f"out-{taken}")


@fault("mounted-twice")
def device_mounted_twice(page: Page) -> None:
    row = page.pick("cabinets", r"^ +\d+: (gateway|router|core)$").touch()
    page.pick("cabinets", r"^ +(8|7|1[25]): \{fit: (blank|brush)-panel-1u").swap(
        r"\{.*\}", row.text.partition(": ")[2]
    )


@fault("layer2-loop", level="error|warning|note|cannot tell")
def second_cord_to_the_router(page: Page) -> None:
    row = page.link(r"run: \[(gateway|router), core\]\}").touch()
    page.add("links", row.text.strip())


@fault("layer2-loop", level="error|warning|note")
def second_path_between_switches(page: Page) -> None:
    page.link(r"sfp1, fibre-club/1").touch()
    page.add("links", "- {run: [core/sfp2, fibre-club/2, fibre-boats/2, boat-switch/sfp2]}")


@fault("layer2-loop", level="error|warning|note")
def ring_that_is_no_spare(page: Page) -> None:
    page.link(r"spare-for").unset("spare-for")
    page.link(r"core/sfp1").touch()


@fault("run-to-nowhere", most=5)
def run_ends_at_a_protector(page: Page) -> None:
    page.link(r"surge-[a-z]+, injector, core").swap(r", injector, core", "")


@fault("device-cut-off")
def device_without_a_cord(page: Page) -> None:
    link = page.link(r"run: \[(store|names-2|radio|ap-gym|desk-shed|names-1), ")
    name = link.text.partition("[")[2].partition(",")[0]
    page.drop(link)
    page.the("devices", name).touch()


@fault("device-cut-off")
def access_point_without_a_run(page: Page) -> None:
    page.device(r"plugs-into: ").unset("plugs-into")


@fault("panel-jack-half-wired", level="warning")
def run_that_ends_at_the_panel(page: Page) -> None:
    page.link(r"panel[a-z/0-9-]*, core").swap(r"(panel[a-z/0-9-]*), core", r"\1")


@fault("outlet-unpatched", "device-cut-off", level="note|error")
def outlet_with_nothing_behind(page: Page) -> None:
    link = page.link(r"out-(committee|training|workshop|parlour|workroom)")
    name = link.text.partition("[")[2].partition(",")[0]
    outlet = link.text.partition("out-")[2].partition("/")[0]
    page.drop(link)
    page.the("devices", name).touch()
    page.the("devices", f"out-{outlet}").touch()


@fault("jack-family", most=4)
def twinax_into_copper_jacks(page: Page) -> None:
    page.link(r"run: \[(store|names-2|names-1|gateway|router|line-box), [a-z/]+\]\}").set(
        "cord", "direct-attach-sfp-plus"
    )


@fault("jack-family", "jacks-exhausted")
def copper_cord_into_a_cage(page: Page) -> None:
    page.link(r"run: \[(store|names-1|names-2), (core|boat-switch)\]").swap(
        r", (core|boat-switch)\]", r", \1/sfp2]"
    )
    if "sfp" not in page.the("devices", "core").text and "24" not in page.the("devices", "core").text:
        raise NotHere
    if page.having("links", "spare-for"):
        raise NotHere


@fault("no-way", most=6)
def way_taken_away(page: Page) -> None:
    way = page.pick(
        "ways",
        r"^  (skirting|landing-run|hall-trunking|upper-run|chimney|studio-floor|gym-riser|loft-riser):",
    )
    ends = way.value("between").strip("[]").split(", ")
    page.drop(way)
    runs = {row.key for row in page.having("devices", rf"\broom: ({'|'.join(ends)})\b")}
    for row in [*page.section("devices"), *page.section("links")]:
        if row.key in runs or any(f"{name}," in row.text or f"{name}/" in row.text for name in runs):
            row.touch()


@fault("jacks-exhausted", most=30)
def switch_with_too_few_jacks(page: Page) -> None:
    row = page.the("devices", "core")
    if "switch-24" not in row.text:
        raise NotHere
    page.own_part(row, "jacks: {1-8: {family: rj45, rate: 1 Gb/s}}, gives-poe: {jacks: 1-8}")
    for link in page.having("links", r", core\]"):
        link.touch()
    for device in page.having("devices", r", core\]"):
        device.touch()


@fault("jacks-exhausted")
def more_lanes_than_jacks(page: Page) -> None:
    page.link(r"run: \[(gateway|router), core").set("lanes", "8")
