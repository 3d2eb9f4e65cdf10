"""A switch with more rows than a sheet has room for is cut into parts: nothing is lost, nothing twice, and each says where it goes on."""

from documents.drawing.reading import texts
from documents.drawing.sketch import CAMERA, GATEWAY, Sketch, switch
from firstfix.build.model import Build
from firstfix.documents.drawing import network_drawings
from firstfix.documents.drawing.kit import palette


def _tall(jacks: int, name: str = "camera-in-the-workshop") -> Build:
    sketch = Sketch("tall")
    room, yard = sketch.room("home", "house", "office"), sketch.room("home", "house", "yard")
    sketch.way("wall", room, yard, 20, "wall")
    sketch.device("core", switch(jacks), room)
    sketch.device("gateway", GATEWAY, room)
    sketch.wire("gateway/1", "core/sfp1")
    for number in range(1, jacks + 1):
        sketch.device(f"{name}-{number}", CAMERA, yard)
        sketch.wire(f"{name}-{number}", f"core/{number}", lengths=(20,), route=("way:wall",), watts=6)
    return sketch.build()


def test_every_row_is_on_one_sheet_and_every_sheet_prints() -> None:
    build = _tall(96)
    sheets = network_drawings(build)
    shown = [box.words for drawing in sheets for box in texts(drawing.svg)]
    for device in build.devices.values():
        if device.part.kind == "camera":
            assert shown.count(device.name) == 1
    assert all(
        drawing.width <= palette.SHEET_LONG and drawing.height <= palette.SHEET_SHORT for drawing in sheets
    )


def test_a_part_says_which_it_is_where_it_goes_on_and_describes_its_own_rows() -> None:
    sheets = network_drawings(_tall(96))
    parts = [drawing for drawing in sheets if "core, part" in drawing.svg]
    assert len(parts) >= 2
    for index, drawing in enumerate(parts, 1):
        words = " ".join(box.words for box in texts(drawing.svg))
        assert f"core, part {index} of {len(parts)}" in words
        following = f"core continues on network-{sheets.index(drawing) + 2}"
        assert (following in words) == (index < len(parts))
    first, last = parts[0].alt, parts[-1].alt
    assert "camera-in-the-workshop-1:" in first
    assert "camera-in-the-workshop-96" in last
    assert "camera-in-the-workshop-96" not in first


def test_the_overview_names_all_parts() -> None:
    sheets = network_drawings(_tall(96))
    parts = [drawing.name for drawing in sheets if "core, part" in drawing.svg]
    assert f"{parts[0]} to {parts[-1]}" in " ".join(box.words for box in texts(sheets[0].svg))


def test_a_switch_that_fits_is_not_cut() -> None:
    assert not any("part 1 of" in drawing.svg for drawing in network_drawings(_tall(24)))
