"""The sheets of ways name every way, room and cable; what they say of fill is what the rule reckons."""

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from documents.drawing.reading import SVG, overlapping, parse, texts
from documents.drawing.sample_build import estate, farm, school
from documents.drawing.sketch import SMALL_COMPUTER, Sketch, fact, switch
from documents.drawing.test_drawing_network import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.wiring import shown_jack
from firstfix.documents.drawing.ways import way_drawings
from firstfix.documents.drawing.ways.graph import way_graph
from firstfix.documents.drawing.ways.passages import passages
from firstfix.parts.facts import Unknown
from firstfix.pipeline import compile_plan
from repo.editing import ROOT

PLANS = sorted(path.stem for path in (ROOT / "plans").glob("*.yaml") if path.name.count(".") == 1)
SAMPLES = {"farm": farm, "estate": estate, "school-sample": school}


@cache
def built(name: str) -> Build:
    if name in SAMPLES:
        return SAMPLES[name]()
    build = compile_plan(ROOT / "plans" / f"{name}.yaml", name).build
    assert build is not None
    return build


@cache
def drawn(name: str) -> tuple[Drawing, ...]:
    return way_drawings(built(name))


ALL = [*SAMPLES, *PLANS]


def _shown(name: str) -> list[str]:
    return [box.words for drawing in drawn(name) for box in texts(drawing.svg)]


@pytest.mark.parametrize("name", ALL)
def test_every_way_is_in_the_graph_and_in_the_list(name: str) -> None:
    shown = _shown(name)
    for way in built(name).ways.values():
        assert shown.count(way.name) >= 2, way.name


@pytest.mark.parametrize("name", ALL)
def test_every_cable_is_named_on_the_list_of_each_way_it_takes(name: str) -> None:
    build = built(name)
    shown = " ".join(_shown(name))
    for piece in build.pieces.values():
        if piece.route:
            said = " to ".join(shown_jack(build, end) for end in piece.ends)
            assert shown.count(said) >= len(set(piece.route)), said


@pytest.mark.parametrize("name", ALL)
def test_every_room_of_a_way_is_drawn_in_its_building(name: str) -> None:
    build = built(name)
    shown = _shown(name)
    for room in {end for way in build.ways.values() for end in way.ends}:
        assert build.rooms[room].name in shown


@pytest.mark.parametrize("name", ALL)
def test_no_text_lies_on_another_and_sheets_print_on_a4_and_letter(name: str) -> None:
    for drawing in drawn(name):
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == [], drawing.name
        assert all(box.size >= palette.SMALLEST_SIZE for box in boxes)
        assert all(box.left >= 0 and box.right <= drawing.width + 0.1 for box in boxes)
        assert drawing.width <= palette.SHEET_LONG + 0.1
        assert drawing.height <= palette.SHEET_SHORT + 0.1


@pytest.mark.parametrize("name", ALL)
def test_sheets_point_only_to_sheets_that_are_there(name: str) -> None:
    names = {drawing.name for drawing in drawn(name)}
    for drawing in drawn(name):
        assert set(drawing.onward) <= names
        assert not drawing.onward or drawing.onward[0] != drawing.name


def _two_rooms(cables: int, bore: float, kind: str = "conduit") -> Build:
    sketch = Sketch()
    attic, hall = sketch.room("home", "house", "attic"), sketch.room("home", "house", "hall")
    way = sketch.way("pipe", attic, hall, 7, kind)
    sketch.ways[way] = sketch.ways[way]._replace(bore=fact(bore))
    sketch.device("core", switch(8), attic)
    for number in range(1, cables + 1):
        sketch.device(f"desk-{number}", SMALL_COMPUTER, hall)
        sketch.wire(f"desk-{number}", f"core/{number}", route=(way,), lengths=(9,))
    build = sketch.build()
    part = build.library["cat6-indoor"]
    assert part.cable is not None
    thick = replace(part, cable=part.cable._replace(diameter=fact(0.006)))
    return replace(build, library={**build.library, part.name: thick})


@pytest.mark.parametrize(
    ("cables", "bore", "words", "is_over"),
    [
        # n d^2 / D^2 by hand: 3 x 36 / 400, 4 x 36 / 324, 1 x 36 / 625.
        (3, 0.020, "27 % full, limit 40 %", False),
        (4, 0.018, "44.4 % full, limit 40 %", True),
        (1, 0.025, "5.8 % full, limit 53 %", False),
    ],
)
def test_fill_is_said_with_its_limit(cables: int, bore: float, words: str, is_over: bool) -> None:
    build = _two_rooms(cables, bore)
    (passage,) = passages(build)
    assert (passage.full, passage.is_over) == (words, is_over)
    drawing, *_ = way_drawings(build)
    said = " ".join(box.words for box in texts(drawing.svg))
    assert words in said
    alarms = [box.words for box in texts(drawing.svg) if box.colour == "#a3123a"]
    assert bool(alarms) == is_over


def test_what_is_not_known_is_said() -> None:
    build = _two_rooms(2, 0.02)
    way = build.ways["way:pipe"]
    (boreless,) = passages(replace(build, ways={way.id: way._replace(bore=Unknown(""))}))
    assert (boreless.full, boreless.shares, boreless.bore) == ("not known: no bore said", None, "? mm")
    part = build.library["cat6-indoor"]
    assert part.cable is not None
    thin = replace(part, cable=part.cable._replace(diameter=Unknown("")))
    (nameless,) = passages(replace(build, library={**build.library, part.name: thin}))
    assert nameless.full == "not known: no cable says how thick it is"
    (empty,) = passages(replace(build, pieces={}))
    assert (empty.cables, empty.full) == ("nothing in it", "empty")
    assert "nothing in it" in [
        box.words for each in way_drawings(replace(build, pieces={})) for box in texts(each.svg)
    ]


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({}, ""),
        ({"is_owned": True}, "there already"),
        ({"material": "cat6-indoor", "bends": fact(2)}, "made of: Category 6 cable, indoors; 2 bends"),
        ({"is_owned": True, "bends": fact(1)}, "there already; 1 bend"),
    ],
)
def test_what_a_way_is_made_of_is_said_where_it_is_known(changed: dict[str, Any], words: str) -> None:
    build = _two_rooms(1, 0.02)
    part = replace(build.library["cat6-indoor"], title="Category 6 cable, indoors")
    way = build.ways["way:pipe"]._replace(**changed)
    build = replace(build, ways={way.id: way}, library={**build.library, part.name: part})
    (passage,) = passages(build)
    assert passage.made == words
    shown = [box.words for each in way_drawings(build) for box in texts(each.svg)]
    assert not words or words in shown


def test_lines_tell_indoors_outdoors_and_buried_apart_without_colour() -> None:
    build = _two_rooms(1, 0.02)
    way = build.ways["way:pipe"]
    dashes = set()
    for exposure, words in (("indoor", "way indoors"), ("outdoor", "way outdoors"), ("buried", "way buried")):
        drawing, *_ = way_drawings(replace(build, ways={way.id: way._replace(exposure=exposure)}))
        assert words in [box.words for box in texts(drawing.svg)]
        pipes = [each for each in parse(drawing.svg).iter(f"{SVG}path") if each.get("stroke-width") == "4.4"]
        (dash,) = {each.get("stroke-dasharray") for each in pipes}
        dashes.add(dash)
    assert len(dashes) == 3


def test_a_plan_without_ways_has_no_sheet() -> None:
    build = _two_rooms(1, 0.02)
    pieces = {id_: each._replace(route=()) for id_, each in build.pieces.items()}
    assert way_drawings(replace(build, ways={}, pieces=pieces)) == ()


def test_a_room_with_many_ways_is_split_and_every_sheet_fits() -> None:
    sketch = Sketch()
    hub = sketch.room("home", "house", "hub")
    for number in range(40):
        sketch.way(f"way-{number}", hub, sketch.room("home", "house", f"room-{number}"), 5, "trunking")
    sheets = way_drawings(sketch.build())
    shown = [box.words for drawing in sheets for box in texts(drawing.svg)]
    assert all(shown.count(f"way-{number}") >= 2 for number in range(40))
    assert all(drawing.height <= palette.SHEET_SHORT + 0.1 for drawing in sheets)


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_clipped_and_harmless(name: str) -> None:
    build = farm()
    build = replace(
        build,
        name=name,
        ways={id_: each._replace(name=name, kind=name) for id_, each in build.ways.items()},
        rooms={id_: each._replace(name=name) for id_, each in build.rooms.items()},
        buildings={id_: each._replace(name=name) for id_, each in build.buildings.items()},
        cabinets={id_: each._replace(name=name) for id_, each in build.cabinets.items()},
        devices={id_: each._replace(name=name) for id_, each in build.devices.items()},
        library={key: replace(part, title=name) for key, part in build.library.items()},
    )
    for drawing in way_drawings(build):
        tags = {element.tag.rpartition("}")[2] for element in parse(drawing.svg).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "path", "text"}
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.left >= 0 and box.right <= drawing.width + 0.1 for box in boxes)


@pytest.mark.parametrize("name", HOSTILE)
def test_dot_source_is_read_back_whatever_the_names(name: str) -> None:
    import pygraphviz

    build = farm()
    build = replace(build, ways={id_: each._replace(name=name) for id_, each in build.ways.items()})
    source = way_drawings(build)[0].dot
    assert "label=<" not in source
    graph = pygraphviz.AGraph(string=source)
    assert len(graph.edges()) == len(build.ways)
    assert len(graph.nodes()) == len({end for way in build.ways.values() for end in way.ends})


@pytest.mark.parametrize("name", ALL)
def test_the_same_bytes_twice(name: str) -> None:
    assert way_drawings(built(name)) == drawn(name)


def test_a_room_of_another_sheet_stands_in_the_frame_of_its_own_building() -> None:
    build = built("school")
    closet, hall, net_room = (
        next(each for each, room in build.rooms.items() if room.name == name)
        for name in ("closet", "lower-hall", "net-room")
    )
    graph = way_graph(build, frozenset({closet}), passages(build), {hall: "ways-2", net_room: "ways-4"})
    (frame,) = graph.placed.frames.values()
    inside = {
        box.room
        for box, (x, y) in zip(graph.boxes, graph.placed.boxes, strict=True)
        if frame[0] < x < x + box.width < frame[2] and frame[1] < y < y + box.height < frame[3]
    }
    assert {closet, hall} <= inside
    assert net_room not in inside


def test_a_way_that_comes_out_through_a_wall_is_not_just_indoors() -> None:
    out = [each for each in passages(built("rowing-club")) if each.name in ("front-wall", "terrace-wall")]
    assert [each.lies for each in out] == ["indoors, then out"] * 2
    assert "way indoors, or out through the wall" in _shown("rowing-club")
    assert "indoors, then out" in " ".join(drawing.alt for drawing in drawn("rowing-club"))
