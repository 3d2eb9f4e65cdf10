"""What does not fit, does not hold, or gets too warm: cabinets, shelves, pipes, rooms."""

from seeded.kind import fault
from seeded.page import NotHere, Page, Row


def _mounted(page: Page) -> tuple[str, str]:
    row = page.pick("cabinets", r"^ +\d+: [a-z0-9-]+$")
    return row.key, row.text.strip().partition(": ")[2]


def _on_a_shelf(page: Page) -> Row:
    row = page.device(r"part: (storage-[24]-bay|small-computer)\b(?!-)")
    if "carries" not in page.stands(row.key).text:
        raise NotHere
    return row


@fault("cabinet-overlap")
def two_things_in_one_unit(page: Page) -> None:
    row = page.pick(
        "cabinets", r"^ +\d+: (panel|gateway|core|router|fibre-club|boat-switch|panel-boats|panel-club)$"
    )
    unit = int(row.key)
    other = page.pick("cabinets", r"^ +\d+: \{fit: (blank-panel|brush-panel)-1u")
    other.swap(r"\d+:", f"{unit - 1}-{unit}:").swap(r"blank-panel-1u|brush-panel-1u", "blank-panel-2u")
    row.touch()
    for below in page.having("cabinets", rf"^ +{unit - 1}: "):
        below.touch()


@fault("cabinet-overlap", "cabinet-height")
def unit_above_the_top(page: Page) -> None:
    page.pick("cabinets", r"^ +\d+: \{fit: brush-panel-1u").swap(r"\d+:", "44:")


@fault("cabinet-height")
def gear_of_two_units_in_one(page: Page) -> None:
    _, name = _mounted(page)
    page.own_part(page.the("devices", name), "height: 2U")
    page.stands(name)


@fault("cabinet-height")
def desk_switch_on_the_rails(page: Page) -> None:
    row = page.device(r"part: gateway-1u\b")
    page.stands(row.key)
    row.set("part", "gateway-desktop")


@fault("cabinet-depth")
def deeper_gear(page: Page) -> None:
    _, name = _mounted(page)
    page.own_part(page.the("devices", name), f"depth: {page.rng.randrange(520, 700)} mm")
    page.stands(name)


@fault("cabinet-front", level="warning")
def plugs_that_touch_the_door(page: Page) -> None:
    page.own_part(page.the("devices", "core"), "front-depth: 260 mm")
    page.stands("core")


@fault("half-width", "cabinet-height", level="error|warning")
def half_width_gear_alone(page: Page) -> None:
    row = page.the("devices", "core")
    page.own_part(row, "width: half")
    page.stands("core")


@fault("shelf-space")
def taller_neighbour(page: Page) -> None:
    row = _on_a_shelf(page)
    page.own_part(row, "size: {width: 100 mm, height: 390 mm}")


@fault("shelf-space")
def wider_gear_on_a_shelf(page: Page) -> None:
    row = _on_a_shelf(page)
    page.own_part(row, "size: {width: 620 mm, height: 40 mm}")


@fault("shelf-load")
def heavier_gear_on_a_shelf(page: Page) -> None:
    row = _on_a_shelf(page)
    page.own_part(row, "weight: 34 kg")


@fault("cabinet-load")
def heavier_gear_on_the_rails(page: Page) -> None:
    _, name = _mounted(page)
    page.own_part(page.the("devices", name), "weight: 120 kg")
    page.stands(name)
    for row in page.having("cabinets", r"^  [a-z]+:$"):
        row.touch()


@fault("shelf-carries")
def device_on_a_cover_panel(page: Page) -> None:
    page.pick("cabinets", r"fit: shelf-[12]u, (?:owned: true, )?carries").swap(
        r"shelf-[12]u", "blank-panel-1u"
    )


@fault("fastener-unknown")
def no_fastener_for_the_rails(page: Page) -> None:
    row = page.pick("cabinets", r"part: wall-cabinet")
    like = row.text.partition("part: ")[2]
    row.swap(r"part: .*", "part: odd-cabinet")
    page.add("parts", f"odd-cabinet: {{like: {like}, thread: M8}}")
    for head in page.having("cabinets", r"^  [a-z]+:$"):
        head.touch()


@fault("fastener-suits", level="warning|error")
def fasteners_for_other_rails(page: Page) -> None:
    page.own_part(page.the("devices", "core"), "needs: {cage-nut-set-m5: 1}")
    page.stands("core")


@fault("wall-fixings", level="warning")
def wall_cabinet_without_fixings(page: Page) -> None:
    row = page.pick("cabinets", r"part: wall-cabinet")
    like = row.text.partition("part: ")[2]
    row.swap(r"part: .*", "part: bare-cabinet")
    page.add("parts", f"bare-cabinet: {{like: {like}, needs: {{}}}}")
    for head in page.having("cabinets", r"^  [a-z]+:$"):
        head.touch()


@fault("cabinet-heat", level="error|warning")
def closed_cabinet_with_a_heater(page: Page) -> None:
    row = page.the("devices", "core")
    page.stands("core")
    page.own_part(row, "draw: 600 W")
    for head in page.having("cabinets", r"^  [a-z]+:$"):
        head.touch()


@fault("ambient-range", "cabinet-heat", level="error|warning", most=20)
def room_that_gets_too_hot(page: Page) -> None:
    room = page.pick("sites", r"^ +(study|office|pantry): ").set("ambient", "12 °C to 52 °C")
    for row in page.having("devices", rf"\broom: {room.key}\b"):
        row.touch()
    for row in page.having("cabinets", r"^  [a-z]+:$|^ +[\d-]+: "):
        row.touch()


@fault("ambient-range", level="error|warning|cannot tell")
def device_for_warm_rooms_only(page: Page) -> None:
    row = page.device(r"part: (access-point|camera|end-device|computer-desktop)\b.*\broom: ")
    page.own_part(row, "exposure: {coldest: 24 °C, warmest: 25 °C}")


@fault("cabinet-heat", level="error|warning|note")
def gear_that_bears_no_warmth(page: Page) -> None:
    row = page.the("devices", "core")
    page.stands("core")
    page.own_part(row, "exposure: {warmest: 22 °C}")
    for head in page.having("cabinets", r"^  [a-z]+:$"):
        head.touch()


@fault("cabinet-heat", level="cannot tell")
def nobody_knows_how_warm_it_gets(page: Page) -> None:
    # Behind a meshed door it stays cool enough in any room: then the missing fact cannot matter.
    if page.having("cabinets", r"^ +cooling: meshed"):
        raise NotHere
    room = page.pick("sites", r"^ +(study|office): .*ambient").unset("ambient")
    for head in page.having("cabinets", r"^  main:$"):
        head.touch()
    room.touch()


@fault("clear-space", level="warning")
def no_air_above(page: Page) -> None:
    row = _on_a_shelf(page)
    page.own_part(row, "cooling: {above: 300 mm}")


@fault("way-fill", level="error|warning")
def pipe_too_thin(page: Page) -> None:
    page.pick("ways", r"bore: (25|50|63) mm").set("bore", "5 mm")


@fault("way-fill", level="error|warning")
def pipe_overfull(page: Page) -> None:
    row = page.pick("ways", r"^  (gate-duct|hive-path):")
    row.set("bore", "8 mm")


@fault("unpowered", "mains-outlets")
def room_without_mains(page: Page) -> None:
    room = page.pick("sites", r"^ +(parlour|workroom|gym|kitchen|training|workshop): .*mains: \d+")
    if room.key == "workshop":
        raise NotHere
    room.set("mains", "0")
    for row in page.having("devices", rf"\broom: {room.key}\b"):
        row.touch()


@fault("mains-outlets")
def strip_with_too_few_outlets(page: Page) -> None:
    row = page.device(r"part: power-strip-1u-8")
    page.own_part(row, "mains: {outlets: 1}")
    for other in page.having("devices", rf"power: \[?{row.key}|part: "):
        other.touch()
    for other in page.having("cabinets", r"^ +[\d-]+: "):
        other.touch()


@fault("device-exposure")
def indoor_gear_outdoors(page: Page) -> None:
    page.device(r"part: (camera-outdoor|yard-camera|access-point-outdoor|slip-camera)\b").swap(
        r"part: (camera-outdoor|yard-camera|access-point-outdoor|slip-camera)\b", "part: camera"
    )


@fault("door-opens")
def door_that_meets_a_wall(page: Page) -> None:
    page.after(page.pick("cabinets", r"part: wall-cabinet").touch(), "    clear-in-front: 200 mm")


@fault("hinged-front")
def front_that_does_not_open(page: Page) -> None:
    page.stands("core").swap(r": core", ": {fit: blank-panel-1u, over: core}")


@fault("shelf-ties", level="note")
def shelf_without_slots_for_ties(page: Page) -> None:
    row = page.pick("cabinets", r"fit: shelf-[12]u, (?:owned: true, )?carries")
    shelf = row.value("fit")
    row.set("fit", "bare-shelf")
    page.add("parts", f"bare-shelf: {{like: {shelf}, shelf: {{tie-slots: false}}}}")
    for name in row.value("carries").strip("[]").split(", "):
        page.the("devices", name).touch()
