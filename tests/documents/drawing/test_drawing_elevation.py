from dataclasses import replace

import pytest

from documents.drawing.reading import SVG, everything_said, ids, overlapping, parse, texts
from documents.drawing.sample_build import farm, school
from documents.drawing.sketch import Sketch
from documents.drawing.test_drawing_network import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.drawing import cabinet_elevation
from firstfix.documents.drawing.cabinet.faces import Scale
from firstfix.documents.drawing.cabinet.front import front_size
from firstfix.documents.drawing.kit import palette

CASES = [("farm", farm(), "cabinet:main"), ("school", school(), "cabinet:tall")]
DRAWN = [pytest.param(build, cabinet, id=name) for name, build, cabinet in CASES]


@pytest.mark.parametrize(("build", "cabinet"), DRAWN)
def test_every_mount_is_named_in_front_and_in_the_list(build: Build, cabinet: str) -> None:
    shown = [box.words for box in texts(cabinet_elevation(build, cabinet).svg)]
    for mount in build.mounts:
        if mount.is_kept_free:
            assert sum("kept free" in words for words in shown) == 2
            continue
        device, fitting = build.devices.get(mount.item), build.fittings.get(mount.item)
        name = device.name if device else fitting.part.title if fitting else ""
        assert sum(name in words for words in shown) >= 2, name


@pytest.mark.parametrize(("build", "cabinet"), DRAWN)
def test_no_text_lies_on_another_and_all_are_on_the_sheet(build: Build, cabinet: str) -> None:
    drawing = cabinet_elevation(build, cabinet)
    boxes = texts(drawing.svg)
    assert overlapping(boxes) == []
    assert all(box.size >= palette.SMALLEST_SIZE for box in boxes)
    assert all(
        box.left >= 0 and box.right <= drawing.width + 0.1 and box.bottom <= drawing.height for box in boxes
    )


@pytest.mark.parametrize(("build", "cabinet"), DRAWN)
def test_it_prints_on_a4_lying_or_standing(build: Build, cabinet: str) -> None:
    drawing = cabinet_elevation(build, cabinet)
    long, short = sorted((drawing.width, drawing.height), reverse=True)
    assert long <= palette.A4_LONG + 0.1
    assert short <= palette.A4_SHORT + 0.1


@pytest.mark.parametrize(("build", "cabinet"), DRAWN)
def test_units_are_counted_from_the_bottom(build: Build, cabinet: str) -> None:
    drawing = cabinet_elevation(build, cabinet)
    left = min(box.right for box in texts(drawing.svg) if box.words == "1")
    tops = {
        int(box.words): box.top for box in texts(drawing.svg) if box.right <= left + 1 and box.words.isdigit()
    }
    assert sorted(tops) == list(range(1, build.cabinets[cabinet].units + 1))
    assert sorted(tops, key=tops.__getitem__, reverse=True) == sorted(tops)


def test_the_front_is_to_scale() -> None:
    """482.6 mm and 44.45 mm to a unit (IEC 60297-3-100), 1 : 4, against the rails' own rectangle in the drawing."""
    build = farm()
    drawing = cabinet_elevation(build, "cabinet:main")
    assert "scale 1 : 4 on A4" in everything_said(drawing.svg)
    rails = [each for each in parse(drawing.svg).iter(f"{SVG}rect") if each.get("fill") == palette.FIELD]
    left, right = sorted(rails, key=lambda each: float(each.attrib["x"]))
    wide = float(right.attrib["x"]) + float(right.attrib["width"]) - float(left.attrib["x"])
    assert wide / 72 * 25.4 * 4 == pytest.approx(482.6, abs=0.4)
    assert float(left.attrib["height"]) / 72 * 25.4 * 4 == pytest.approx(12 * 44.45, abs=0.4)


def test_a_narrow_cabinet_is_drawn_narrow() -> None:
    build = farm()
    full = build.cabinets["cabinet:main"]
    half = full._replace(part=replace(full.part, rail_width="half"))
    assert front_size(half, Scale(4))[0] < 0.6 * front_size(full, Scale(4))[0]
    assert cabinet_elevation(replace(build, cabinets={half.id: half}), half.id).svg


def test_jacks_show_whether_they_are_wired_and_powered() -> None:
    said = everything_said(cabinet_elevation(farm(), "cabinet:main").svg)
    assert "wired: 1–5, 9, 14–16" in said
    assert "wired: 1–5, 16" in said
    assert "jack that gives or takes PoE" in said


def test_what_is_in_front_behind_at_the_rear_or_in_anothers_place_is_marked() -> None:
    farm_words = [box.words for box in texts(cabinet_elevation(farm(), "cabinet:main").svg)]
    school_words = [box.words for box in texts(cabinet_elevation(school(), "cabinet:tall").svg)]
    assert {"(in front)", "(behind)"} <= set(farm_words)
    assert school_words.count("(clash)") == 2
    assert school_words.count("(rear)") == 1


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
        mounts=tuple(each._replace(what=name) for each in build.mounts),
        jacks={id_: each._replace(name=name) for id_, each in build.jacks.items()},
        devices={
            id_: each._replace(name=name, part=replace(each.part, title=name))
            for id_, each in build.devices.items()
        },
    )
    drawing = cabinet_elevation(build, "cabinet:main")
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


def test_hatch_is_found_under_its_prefixed_id() -> None:
    svg = cabinet_elevation(farm(), "cabinet:main", "old-").svg
    assert 'fill="url(#old-cabinet-main-kept-free)"' in svg
    assert "old-cabinet-main-kept-free" in ids(svg)


@pytest.mark.parametrize(("build", "cabinet"), DRAWN)
def test_the_same_bytes_twice(build: Build, cabinet: str) -> None:
    assert cabinet_elevation(build, cabinet) == cabinet_elevation(build, cabinet)


def test_an_unknown_cabinet_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        cabinet_elevation(farm(), "cabinet:none")
