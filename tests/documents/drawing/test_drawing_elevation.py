from dataclasses import replace
from functools import cache

import pytest

from documents.drawing.reading import SVG, everything_said, ids, overlapping, parse, texts
from documents.drawing.sample_build import farm, school
from documents.drawing.sketch import Sketch, panel, switch
from documents.drawing.test_drawing_network import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.drawing import cabinet_elevation
from firstfix.documents.drawing.cabinet import cabinet_drawings
from firstfix.documents.drawing.cabinet.faces import Scale
from firstfix.documents.drawing.cabinet.front import side_size
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.svg import Drawing

CASES = {"farm": farm(), "school": school()}
NAMES = {"farm": "cabinet-main", "school": "cabinet-tall"}


@cache
def drawn(case: str) -> tuple[Drawing, ...]:
    return cabinet_drawings(CASES[case])


def fronts(case: str) -> list[Drawing]:
    return [drawing for drawing in drawn(case) if "-rear" not in drawing.name]


@pytest.mark.parametrize("case", CASES)
def test_every_mount_is_named_in_front_and_in_the_list(case: str) -> None:
    build = CASES[case]
    shown = [box.words for drawing in fronts(case) for box in texts(drawing.svg)]
    for mount in build.mounts:
        if mount.is_kept_free:
            assert sum("kept free" in words for words in shown) == 2
            continue
        device, fitting = build.devices.get(mount.item), build.fittings.get(mount.item)
        name = device.name if device else fitting.part.title if fitting else ""
        is_hidden = mount.face == "rear"
        assert sum(name in words for words in shown) >= (1 if is_hidden else 2), name


@pytest.mark.parametrize("case", CASES)
def test_no_text_lies_on_another_and_all_are_on_the_sheet(case: str) -> None:
    for drawing in drawn(case):
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == [], drawing.name
        assert all(box.size >= palette.SMALLEST_SIZE for box in boxes)
        assert all(
            box.left >= 0 and box.right <= drawing.width + 0.1 and box.bottom <= drawing.height
            for box in boxes
        )


@pytest.mark.parametrize("case", CASES)
def test_it_prints_lying_on_a4_and_letter_and_tall_cabinets_are_split(case: str) -> None:
    for drawing in drawn(case):
        assert drawing.width <= palette.SHEET_LONG + 0.1
        assert drawing.height <= palette.SHEET_SHORT + 0.1
    scales = {word for drawing in drawn(case) for word in texts_with(drawing, "scale 1 : ")}
    assert all("scale 1 : 4" in word for word in scales)


def texts_with(drawing: Drawing, words: str) -> list[str]:
    return [box.words for box in texts(drawing.svg) if words in box.words]


@pytest.mark.parametrize("side", ["", "-rear"])
@pytest.mark.parametrize("case", CASES)
def test_every_unit_is_drawn_once_counted_from_the_bottom(case: str, side: str) -> None:
    units = next(iter(CASES[case].cabinets.values())).units
    seen: list[int] = []
    for drawing in drawn(case):
        if ("-rear" in drawing.name) != bool(side) or not texts_with(drawing, "scale"):
            continue
        # The numbers at the left of the frame, which the frame keeps all others away from.
        left = [box for box in texts(drawing.svg) if box.words.isdigit() and box.right < 30]
        here = [int(box.words) for box in sorted(left, key=lambda each: each.top)]
        assert here == sorted(here, reverse=True)
        seen += here
    assert seen == list(range(units, 0, -1))


@pytest.mark.parametrize("case", CASES)
def test_sheets_say_where_they_continue_and_those_are_there(case: str) -> None:
    names = [drawing.name for drawing in drawn(case)]
    assert len(set(names)) == len(names)
    for drawing in drawn(case):
        assert set(drawing.onward) <= set(names)
    rest = [name for name in names if name not in (NAMES[case], f"{NAMES[case]}-rear")]
    assert set(rest) <= {name for drawing in drawn(case) for name in drawing.onward}


def test_the_front_is_to_scale() -> None:
    """482.6 mm and 44.45 mm to a unit (IEC 60297-3-100), 1 : 4, against the rails' own rectangle in the drawing."""
    build = farm()
    drawing = cabinet_elevation(build, "cabinet:main")
    assert "scale 1 : 4 at full size" in everything_said(drawing.svg)
    # The rails are the two tall and narrow strips.
    rails = [
        each
        for each in parse(drawing.svg).iter(f"{SVG}rect")
        if float(each.get("height", "0")) > 300 and float(each.get("width", "0")) < 20
    ]
    left, right = sorted(rails, key=lambda each: float(each.attrib["x"]))
    wide = float(right.attrib["x"]) + float(right.attrib["width"]) - float(left.attrib["x"])
    assert wide / 72 * 25.4 * 4 == pytest.approx(482.6, abs=0.4)
    assert float(left.attrib["height"]) / 72 * 25.4 * 4 == pytest.approx(12 * 44.45, abs=0.4)


def test_a_narrow_cabinet_is_drawn_narrow() -> None:
    build = farm()
    full = build.cabinets["cabinet:main"]
    half = full._replace(part=replace(full.part, rail_width="half"))
    assert side_size(half, 12, Scale(4))[0] < 0.6 * side_size(full, 12, Scale(4))[0]
    assert cabinet_elevation(replace(build, cabinets={half.id: half}), half.id).svg


def test_jacks_show_whether_they_are_wired_and_powered() -> None:
    said = everything_said(cabinet_elevation(farm(), "cabinet:main").svg)
    assert "wired: 1–5, 9, 14–16" in said
    assert "wired: 1–5, 16" in said
    assert "jack that gives or takes PoE" in said


def test_what_is_in_front_behind_at_the_rear_or_in_anothers_place_is_marked() -> None:
    farm_words = [box.words for drawing in fronts("farm") for box in texts(drawing.svg)]
    school_words = [box.words for drawing in fronts("school") for box in texts(drawing.svg)]
    assert {"(in front)", "(behind)"} <= set(farm_words)
    assert school_words.count("(clash)") == 2
    # It stands behind another thing, so that the front only lists it.
    assert "strip-rear" in school_words
    assert "rear" in school_words


def test_a_thing_at_the_rear_shows_from_the_front_where_nothing_stands_before_it() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    cabinet = sketch.cabinet("c", room, 6)
    sketch.device("behind", switch(8), room, cabinet)
    sketch.mount(cabinet, "device:behind", 3, face="rear")
    front, *_ = cabinet_drawings(sketch.build())
    assert "(rear)" in [box.words for box in texts(front.svg)]


def _pair(left: str, right: str, face: str = "front") -> Build:
    """Two of half the width; either may be left out."""
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    cabinet = sketch.cabinet("c", room, 6)
    part = panel(12)
    assert part.rack is not None
    half = replace(part, rack=part.rack._replace(width="half"))
    for name, side in ((left, "left"), (right, "right")):
        if name:
            sketch.device(name, half, room, cabinet)
            sketch.mount(cabinet, f"device:{name}", 3, face=face)
            sketch.mounts[-1] = sketch.mounts[-1]._replace(side=side)
    return sketch.build()


def _middle(drawing: Drawing, name: str) -> float:
    box = min((box for box in texts(drawing.svg) if box.words == name), key=lambda each: each.left)
    return box.left


@pytest.mark.parametrize("face", ["front", "rear"])
def test_halves_keep_to_their_sides_and_change_them_from_behind(face: str) -> None:
    front, rear = cabinet_drawings(_pair("this", "that", face))
    # The order is that of who stands before the face that they are mounted at.
    own, other = (front, rear) if face == "front" else (rear, front)
    assert _middle(own, "this") < 120 < 200 < _middle(own, "that")
    assert _middle(other, "that") < 120 < 200 < _middle(other, "this")


def test_a_right_half_alone_stays_at_the_right() -> None:
    alone, *_ = cabinet_drawings(_pair("", "that"))
    both, *_ = cabinet_drawings(_pair("this", "that"))
    assert _middle(alone, "that") == _middle(both, "that")


def test_the_list_gives_depth_weight_and_what_is_not_known() -> None:
    shown = [box.words for box in texts(cabinet_elevation(farm(), "cabinet:main").svg)]
    assert "230 of 400 mm" in shown
    assert "2.4 kg" in shown
    assert "? of 400 mm" in shown


def test_shelves_carry() -> None:
    drawing = cabinet_elevation(farm(), "cabinet:main")
    boxes = {box.words: box for box in texts(drawing.svg) if box.words in ("storage", "Shelf, 1U", "6", "4")}
    assert {"storage", "Shelf, 1U"} <= set(boxes)
    assert "on it, storage" in drawing.alt


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_clipped_and_harmless(name: str) -> None:
    build = farm()
    build = replace(
        build,
        cabinets={id_: each._replace(name=name) for id_, each in build.cabinets.items()},
        rooms={id_: each._replace(name=name) for id_, each in build.rooms.items()},
        ways={id_: each._replace(name=name, kind=name) for id_, each in build.ways.items()},
        mounts=tuple(each._replace(what=name) for each in build.mounts),
        jacks={id_: each._replace(name=name) for id_, each in build.jacks.items()},
        pieces={id_: each._replace(colour=name) for id_, each in build.pieces.items()},
        devices={
            id_: each._replace(name=name, part=replace(each.part, title=name))
            for id_, each in build.devices.items()
        },
    )
    for drawing in cabinet_drawings(build):
        tags = {element.tag.rpartition("}")[2] for element in parse(drawing.svg).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "path", "text", "defs", "pattern"}
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.left >= 0 and box.right <= drawing.width + 0.1 for box in boxes)
        assert "/" not in drawing.name
        assert "." not in drawing.name


def test_two_cabinets_whose_names_come_out_the_same_keep_apart() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    drawings = [cabinet_elevation(sketch_build(sketch, room), f"cabinet:{name}") for name in ("a b", "a-b")]
    assert len({drawing.name for drawing in drawings}) == 2
    found = [id_ for drawing in drawings for id_ in ids(drawing.svg)]
    assert len(found) == len(set(found))


def sketch_build(sketch: Sketch, room: str) -> Build:
    for name in ("a b", "a-b"):
        sketch.cabinet(name, room, 6)
    return sketch.build()


def test_a_cabinet_named_like_anothers_sheet_keeps_apart_from_it() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    for name in ("a", "a-rear"):
        sketch.cabinet(name, room, 6)
    names = [drawing.name for drawing in cabinet_drawings(sketch.build())]
    assert len(set(names)) == len(names) == 4


def test_hatch_is_found_under_its_prefixed_id() -> None:
    svg = cabinet_elevation(farm(), "cabinet:main", "old-").svg
    (hatch,) = [id_ for id_ in ids(svg) if "kept-free" in id_]
    assert hatch.startswith("old-cabinet-main-")
    assert f'fill="url(#{hatch})"' in svg


@pytest.mark.parametrize("case", CASES)
def test_the_same_bytes_twice(case: str) -> None:
    assert cabinet_drawings(CASES[case]) == drawn(case)


def test_an_unknown_cabinet_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        cabinet_elevation(farm(), "cabinet:none")
