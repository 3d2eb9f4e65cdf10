from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.drawing.plans_drawn import example
from documents.drawing.reading import everything_said, ids, overlapping, parse, texts
from documents.drawing.sample_build import estate, farm, school
from documents.drawing.sketch import CAMERA, SMALL_COMPUTER, Sketch, switch
from firstfix.build.model import Build
from firstfix.documents.drawing import Drawing, network_drawing, network_drawings
from firstfix.documents.drawing.kit import palette
from firstfix.parts.part import Part
from firstfix.pipeline import compile_plan

PLAN = Path(__file__).parents[3] / "plans" / "honey-farm.yaml"
BUILDS = {"farm": farm(), "estate": estate(), "school": school(), "nothing": Sketch("empty").build()}
SHEETS = {name: network_drawings(build) for name, build in BUILDS.items()}
ALL = [
    pytest.param(drawing, id=f"{name}-{drawing.name}")
    for name, drawings in SHEETS.items()
    for drawing in drawings
]


@pytest.mark.parametrize("drawing", ALL)
def test_root_says_what_the_drawing_is(drawing: Drawing) -> None:
    root = parse(drawing.svg)
    title, description = list(root)[:2]
    assert root.attrib["role"] == "img"
    assert root.attrib["aria-labelledby"].split() == [title.attrib["id"], description.attrib["id"]]
    assert title.text == drawing.title
    assert description.text


@pytest.mark.parametrize("drawing", ALL)
def test_no_text_lies_on_another(drawing: Drawing) -> None:
    assert overlapping(texts(drawing.svg)) == []


@pytest.mark.parametrize("drawing", ALL)
def test_every_text_is_as_wide_as_it_says_large_enough_and_on_the_sheet(drawing: Drawing) -> None:
    for box in texts(drawing.svg):
        assert box.said_width == pytest.approx(box.true_width, abs=0.06)
        assert box.size >= palette.SMALLEST_SIZE
        assert box.left >= 0
        assert box.top >= 0
        assert box.right <= drawing.width + 0.1
        assert box.bottom <= drawing.height + 0.1


@pytest.mark.parametrize("drawing", ALL)
def test_it_prints_on_a4_lying(drawing: Drawing) -> None:
    assert drawing.width <= palette.SHEET_LONG
    assert drawing.height <= palette.SHEET_SHORT


@pytest.mark.parametrize("drawing", ALL)
def test_nothing_reaches_out_of_the_file(drawing: Drawing) -> None:
    tags = {element.tag.rpartition("}")[2] for element in parse(drawing.svg).iter()}
    assert tags <= {"svg", "title", "desc", "g", "rect", "path", "text"}
    assert "href" not in drawing.svg


@pytest.mark.parametrize("name", BUILDS)
def test_every_device_is_named_somewhere(name: str) -> None:
    said = "\n".join(everything_said(drawing.svg) for drawing in SHEETS[name])
    missing = [device.name for device in BUILDS[name].devices.values() if device.name not in said]
    assert missing == []


@pytest.mark.parametrize("name", BUILDS)
def test_the_same_bytes_twice(name: str) -> None:
    assert network_drawings(BUILDS[name]) == SHEETS[name]


def test_a_home_is_one_sheet_and_an_estate_an_overview_with_a_sheet_a_building() -> None:
    assert [drawing.name for drawing in SHEETS["farm"]] == ["network"]
    assert len(SHEETS["estate"]) == 1 + 9
    assert "sheet 10 of 10" in everything_said(SHEETS["estate"][-1].svg)


def test_a_row_names_the_device_its_way_its_length_and_its_power() -> None:
    shown = {box.words for box in texts(SHEETS["farm"][0].svg)}
    assert {"ap-loft", "loft", "panel/3 · out-loft/1", "15.7 m", "PoE 12.5 W"} <= shown


def test_a_trunk_between_buildings_tells_its_way_and_what_stands_in_line() -> None:
    shown = [box.words for box in texts(SHEETS["farm"][0].svg)]
    assert "yard-duct, buried duct, 41 m" in " ".join(shown), "over two lines, where the sheet is narrow"
    assert "category 6, 55.9 m" in shown
    assert "PoE 22 W from injector" in shown
    assert any(words.startswith("via injector, panel/16") for words in shown)


def test_what_is_not_known_is_said() -> None:
    boxes = {box.words: box for box in texts(SHEETS["farm"][0].svg)}
    assert boxes["? m"].top == boxes["cam-yard"].top


def test_the_rest_says_what_is_not_connected_and_what_feeds_what() -> None:
    said = everything_said(SHEETS["farm"][0].svg)
    assert "old-printer: Small computer · parlour" in said
    assert "strip: feeds core, gateway" in said


def test_a_device_with_a_faulty_link_is_not_said_to_be_unconnected_without_a_word() -> None:
    build = replace(BUILDS["farm"], unsettled=frozenset({"device:old-printer"}))
    assert "old-printer: a link of it has a fault" in everything_said(network_drawing(build).svg)


def test_what_is_not_connected_is_told_in_whole_words_with_its_place() -> None:
    """Read off the lines, of which none is cut short."""
    last = network_drawings(example("school"))[-1]
    said = [box.words for box in texts(last.svg)]
    assert "net-room · main U1" in said
    assert "feeds main-1 · Power strip for a cabinet, 1 unit, 8 sockets, lead with plug" in said
    assert not any("…" in words for words in said)


def test_what_is_there_already_says_so_in_the_head_of_its_table() -> None:
    build = example("rowing-club")
    owned = build.devices["device:core"]._replace(is_owned=True)
    sheets = network_drawings(replace(build, devices={**build.devices, owned.id: owned}))
    heads = [box.words for each in sheets for box in texts(each.svg) if box.words.startswith("office · main")]
    assert "office · main U10 · there already" in heads
    assert not any("there already" in words for words in heads if "main U10" not in words)


def test_a_link_to_another_sheet_names_the_sheet() -> None:
    house = next(drawing for drawing in SHEETS["estate"][1:] if "farm-1-gateway:" in drawing.alt)
    assert "on network-2 · farm-1-barn-duct" in everything_said(house.svg)


def test_the_demo_plan_is_one_sheet() -> None:
    compiled = compile_plan(PLAN, PLAN.name)
    assert compiled.build is not None
    assert [drawing.name for drawing in network_drawings(compiled.build)] == ["network"]


def test_two_computers_on_one_cord_are_drawn_too() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    sketch.device("left", SMALL_COMPUTER, room)
    sketch.device("right", SMALL_COMPUTER, room)
    sketch.wire("left", "right")
    shown = {box.words for box in texts(network_drawing(sketch.build()).svg)}
    assert {"left", "right"} <= shown


def test_lanes_of_one_link_share_a_label() -> None:
    sketch = Sketch()
    room = sketch.room("home", "house", "attic")
    for name in ("upper", "lower"):
        sketch.device(name, switch(8), room)
    sketch.wire("upper/7", "lower/7", lanes=2)
    first = sketch.channels["channel:lower/7--upper/7"]
    second = sketch.wire("upper/8", "lower/8", lanes=2)
    sketch.channels[second] = sketch.channels[second]._replace(link=first.link)
    labels = [box.words for box in texts(network_drawing(sketch.build()).svg) if "lanes" in box.words]
    assert labels == ["2 lanes, category 6, 1 m"]


def test_ids_start_with_the_prefix_and_differ_over_all_sheets() -> None:
    found = [id_ for drawing in network_drawings(BUILDS["estate"], "now-") for id_ in ids(drawing.svg)]
    assert len(found) == len(set(found)) > 0
    assert all(id_.startswith("now-") for id_ in found)


HOSTILE = [
    "<script>alert(1)</script>",
    "\"'&]]>--><!--",
    "שלום עולם",
    "\u202egnp.live",
    "蜂🐝蜂",
    "x" * 200,
    "Z\u0334\u031b\u033a\u032a" * 30,
    "line\nbreak\x00\x1b",
    "<b>${{7*7}}</b>",
    "",
]


def hostile(name: str) -> Build:
    """The farm with every word that an author can choose replaced by `name`."""
    build = farm()
    return replace(
        build,
        name=name,
        sites={id_: each._replace(name=name) for id_, each in build.sites.items()},
        buildings={id_: each._replace(name=name) for id_, each in build.buildings.items()},
        rooms={id_: each._replace(name=name) for id_, each in build.rooms.items()},
        ways={id_: each._replace(name=name, kind=name) for id_, each in build.ways.items()},
        devices={
            id_: each._replace(name=name, phase=name, part=replace(each.part, title=name))
            for id_, each in build.devices.items()
        },
        links={id_: each._replace(spare_for=name) for id_, each in build.links.items()},
        jacks={id_: each._replace(name=name) for id_, each in build.jacks.items()},
    )


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_names_are_clipped_and_harmless(name: str) -> None:
    for drawing in network_drawings(hostile(name)):
        tags = {element.tag.rpartition("}")[2] for element in parse(drawing.svg).iter()}
        assert tags <= {"svg", "title", "desc", "g", "rect", "path", "text"}
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.left >= 0 and box.right <= drawing.width + 0.1 for box in boxes)


@pytest.mark.parametrize("name", HOSTILE)
def test_dot_source_is_read_back_with_every_name_as_text(name: str) -> None:
    import pygraphviz

    source = network_drawing(hostile(name)).dot
    graph = pygraphviz.AGraph(string=source)
    assert "label=<" not in source
    assert len(graph.nodes()) == len(pygraphviz.AGraph(string=SHEETS["farm"][0].dot).nodes())


def test_dot_source_has_a_node_for_each_device_that_is_not_passed_through() -> None:
    import pygraphviz

    build, graph = BUILDS["farm"], pygraphviz.AGraph(string=SHEETS["farm"][0].dot)
    passed = {device for channel in build.channels.values() for device in channel.through}
    assert len(graph.nodes()) == len(build.devices) - len(passed)
    assert len(graph.edges()) == len(build.channels)


@given(
    st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5)), max_size=12),
    st.lists(st.sampled_from([SMALL_COMPUTER, CAMERA, switch(8)]), min_size=6, max_size=6),
)
@settings(derandomize=True, deadline=None, max_examples=40)
def test_any_wiring_is_drawn_without_a_clash(pairs: list[tuple[int, int]], parts: list[Part]) -> None:
    sketch = Sketch()
    rooms = [sketch.room("home", building, f"{building}-room") for building in ("house", "barn")]
    for number, part in enumerate(parts):
        sketch.device(f"thing-{number}", part, rooms[number % 2])
    for ordinal, (one, other) in enumerate(pairs):
        near, far = (
            f"thing-{end}/{1 + ordinal % 8}" if parts[end].kind == "switch" else f"thing-{end}"
            for end in (one, other)
        )
        if one != other:
            sketch.wire(near, far)
    build = sketch.build()
    for drawing in network_drawings(build):
        assert overlapping(texts(drawing.svg)) == []
    said = "\n".join(everything_said(drawing.svg) for drawing in network_drawings(build))
    assert all(device.name in said for device in build.devices.values())
