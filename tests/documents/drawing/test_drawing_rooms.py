"""Sheets of rooms: read back row by row, and held against the build itself."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from documents.drawing.plans_drawn import NAMES, drawn, example
from documents.drawing.reading import everything_said, overlapping, texts
from documents.drawing.rows_read import lines
from documents.drawing.sketch import OUTLET, SMALL_COMPUTER, Sketch, jacks, panel
from documents.hostile_texts import HOSTILE
from firstfix.build.cabling import CORD
from firstfix.build.hardware import IN_A_BOX, IN_PLACE, IN_STOCK, TO_BUY, Cabinet, Device
from firstfix.build.model import Build
from firstfix.documents.drawing.cabinet import cabinet_drawings
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.rooms import room_drawings
from firstfix.documents.drawing.rooms.cards import card
from firstfix.documents.drawing.rooms.signs import WORDS, sign
from firstfix.graphs.administration import identifiers
from firstfix.graphs.room_view import room_views
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from firstfix.units import metres

PLANS = Path(__file__).parents[3] / "plans"

each_plan = pytest.mark.parametrize("name", NAMES)


def columns(name: str) -> list[list[list[str]]]:
    """The lines of each column of the sheets: words from left to right."""
    found = []
    for drawing in drawn(room_drawings, name):
        middle = drawing.width / 2
        boxes = [box for box in texts(drawing.svg) if box.top > 30]
        for side in (0, 1):
            here = [box for box in boxes if (box.left >= middle) == bool(side)]
            rows: dict[float, list[tuple[float, str]]] = {}
            for box in here:
                base = box.bottom - 0.24 * box.size
                key = next((each for each in rows if abs(each - base) < 1), base)
                rows.setdefault(key, []).append((box.left, box.words))
            found.append([[words for _, words in sorted(rows[key])] for key in sorted(rows)])
    return found


@each_plan
def test_sheets_print_on_a4_and_letter_and_no_text_lies_on_another(name: str) -> None:
    assert drawn(room_drawings, name)
    for drawing in drawn(room_drawings, name):
        assert drawing.width <= palette.SHEET_LONG
        assert drawing.height <= palette.SHEET_SHORT
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.size >= palette.SMALLEST_SIZE and box.right <= drawing.width for box in boxes)


@each_plan
def test_every_device_and_cabinet_stands_in_one_row_that_says_whether_it_is_there(name: str) -> None:
    """In the column of names a name is the first word, after the units of what is in a cabinet."""
    build = example(name)
    rows = [row for column in columns(name) for row in column]
    words = set(WORDS.values())
    named = [row for row in rows if words & set(row) and " cord" not in row[0]]
    things: list[Device | Cabinet] = [*build.devices.values(), *build.cabinets.values()]
    standing = {item.for_id: item.standing for item in build.items if item.why.endswith(" itself")}
    for thing in things:
        own = [row for row in named if thing.name in row[:2]]
        assert len(own) == 1, (thing.name, own)
        assert WORDS[standing[thing.id]] in own[0]
        assert (WORDS[IN_PLACE] in own[0]) == thing.is_owned
    assert len(named) == len(things) + len(build.fittings)


@each_plan
def test_every_device_is_in_the_card_of_its_own_room(name: str) -> None:
    build = example(name)
    rooms = {room.name for room in build.rooms.values()}
    where: dict[str, str] = {}
    current = ""
    for column in columns(name):
        for row in column:
            shown = row[0].removesuffix(" (continued)")
            if shown in rooms and any("doors" in words for words in row[1:]):
                current = shown
            elif set(WORDS.values()) & set(row):
                where.update(dict.fromkeys(row[:2], current))
    for device in build.devices.values():
        assert where[device.name] == build.rooms[device.room].name


@each_plan
def test_an_outlets_openings_are_used_and_free_as_the_pieces_say(name: str) -> None:
    """The pieces are asked anew, by the jacks at their ends."""
    build = example(name)
    ends = {end for piece in build.pieces.values() for end in piece.ends}
    outlets = {each.name: each for each in build.devices.values() if each.part.kind == "outlet"}
    free = {
        name: [
            jack.name
            for each in build.jacks_of[device.id]
            if (jack := build.jacks[each]).face == "front" and not {each, f"{each}@rear"} & ends
        ]
        for name, device in outlets.items()
    }
    shown: dict[str, list[str]] = {name: [] for name in outlets}
    runs: dict[str, list[str]] = {name: [] for name in outlets}
    current = ""
    for column in columns(name):
        for row in column:
            current = row[0] if set(WORDS.values()) & set(row) else current
            if "free, no run behind" in row:
                shown[current] += row[: row.index("free, no run behind")]
            elif len(row) > 1 and row[1].startswith("run from "):
                runs[current].append(row[1].removeprefix("run from ").partition(",")[0])
    assert shown == free
    for outlet, device in outlets.items():
        behind = {
            (set(piece.ends) - {f"{jack}@rear"}).pop()
            for piece in build.pieces.values()
            for jack in build.jacks_of[device.id]
            if f"{jack}@rear" in piece.ends
        }
        far = {f"{build.devices[build.jacks[each].device].name}/{build.jacks[each].name}" for each in behind}
        assert set(runs[outlet]) == far


@each_plan
def test_all_cords_are_counted_once_with_colour_and_length(name: str) -> None:
    build = example(name)
    expected: Counter[tuple[str, str]] = Counter()
    for piece in build.pieces.values():
        if piece.kind == CORD:
            assert isinstance(piece.length.figure, Fact)
            expected[piece.colour or "any colour", metres(piece.length.figure.high)] += 1
    shown: Counter[tuple[str, str]] = Counter()
    for column in columns(name):
        for row in column:
            count, _, rest = row[0].partition(" cord")
            if count.isdigit() and ", " in rest:
                shown[row[1], rest.partition(", ")[2]] += int(count)
    assert shown == expected


@each_plan
def test_mains_outlets_used_and_how_many_there_are(name: str) -> None:
    build = example(name)
    rows = [row for column in columns(name) for row in column if row[0] == "Mains outlets"]
    used = sum(feed.source in build.rooms for feed in build.mains_feeds)
    assert used
    assert sum(int(row[1].partition(" ")[0]) for row in rows) == used


def test_what_the_school_has_at_hand_is_told_from_what_is_bought() -> None:
    build = example("school")
    taken = sum(
        item.count
        for item in build.items
        if item.standing == IN_STOCK and item.for_id in build.pieces and item.part.startswith("cord")
    )
    rows = [row for column in columns("school") for row in column if WORDS[IN_STOCK] in row]
    assert taken
    assert sum(int(row[0].partition(" ")[0]) for row in rows) == taken


def test_an_outlet_in_the_floor_says_so() -> None:
    said = "\n".join(everything_said(each.svg) for each in drawn(room_drawings, "school"))
    assert "Floor outlet with 4 openings for jack modules · in: Box set into a floor, four openings" in said
    assert "Wall outlet with 4 openings for jack modules · in: Box set into a wall, one gang" in said


def test_each_standing_has_a_sign_of_its_own() -> None:
    assert len({sign(each, 0, 0) for each in (TO_BUY, IN_PLACE, IN_STOCK, IN_A_BOX)}) == 4
    assert len(set(WORDS.values())) == 4


@each_plan
def test_each_sheet_says_where_it_continues(name: str) -> None:
    names = [each.name for each in drawn(room_drawings, name)]
    assert names == [f"rooms-{number}" for number in range(1, len(names) + 1)]
    for drawing, following in zip(drawn(room_drawings, name), names[1:], strict=False):
        assert drawing.onward == (following,)
        assert f"continues on {following}" in everything_said(drawing.svg)


def test_the_same_bytes_twice_and_nothing_of_nothing() -> None:
    assert room_drawings(example("rowing-club")) == drawn(room_drawings, "rowing-club")
    assert room_drawings(Sketch("empty").build()) == ()


def _crowd(openings: int) -> Build:
    """One room with a cabinet, an outlet with so many openings, and three hundred small computers."""
    sketch = Sketch("crowd")
    hall, spare = sketch.room("site", "house", "hall"), sketch.room("site", "house", "attic")
    assert spare
    cabinet = sketch.cabinet("main", hall, 42)
    for number in range(1, 43):
        sketch.mount(cabinet, sketch.device(f"panel-{number}", panel(2), hall, cabinet), number)
    wide = replace(OUTLET, jacks=jacks(*(str(number) for number in range(1, openings + 1))))
    sketch.device("outlet", wide, hall)
    sketch.device("desk", SMALL_COMPUTER, hall)
    for number in range(1, 300):
        sketch.device(f"pc-{number}", SMALL_COMPUTER, hall)
    sketch.wire("desk", "outlet/2", "panel-1/1")
    return sketch.build()


def test_a_large_room_goes_on_and_names_itself_and_its_cabinet_again() -> None:
    drawings = room_drawings(_crowd(90))
    assert len(drawings) > 3
    said = [words for drawing in drawings for row in lines(drawing.svg) for words in row]
    assert said.count("hall") == 1
    assert "hall (continued)" in said
    assert "main (continued)" in said
    assert all(said.count(f"pc-{number}") == 1 for number in range(1, 300))
    assert all(drawing.height <= palette.SHEET_SHORT for drawing in drawings)
    assert "attic" in said
    assert "Nothing of this plan stands in" in said
    assert {str(number) for number in range(1, 91)} <= set(said)
    assert "its further openings" in said


def test_a_jack_with_a_run_and_no_cord_and_one_with_a_cord_and_no_run() -> None:
    build = _crowd(4)
    run = next(piece for piece in build.pieces.values() if piece.ends[1].startswith("jack:panel-1/"))
    cord = next(piece for piece in build.pieces.values() if piece is not run)
    for gone, words in ((cord, "nothing plugged in"), (run, "no run behind")):
        left = {id_: piece for id_, piece in build.pieces.items() if piece is not gone}
        said = [everything_said(each.svg) for each in room_drawings(replace(build, pieces=left))]
        assert any(words in each.split("\n") for each in said)


def test_what_no_known_room_holds_is_still_shown() -> None:
    build = example("rowing-club")
    lost = build.devices["device:till-1"]._replace(room="room:gone")
    changed = replace(build, devices={**build.devices, lost.id: lost})
    (view,) = (each for each in room_views(changed) if each.room is None)
    assert [each.id for each in view.devices] == [lost.id]
    assert "place not known" in card(changed, view).head.words


@pytest.mark.parametrize(
    "text", [*HOSTILE, "W" * 200, "\u202egnp.exe", "Zalgo" + "\u0301" * 50, "\U0001f41d hive"]
)
def test_a_hostile_name_is_harmless(text: str) -> None:
    build = example("rowing-club")
    renamed = replace(
        build,
        name=text,
        rooms={id_: room._replace(name=text) for id_, room in build.rooms.items()},
        buildings={id_: each._replace(name=text) for id_, each in build.buildings.items()},
        cabinets={id_: each._replace(name=text, phase=text) for id_, each in build.cabinets.items()},
        devices={id_: each._replace(name=text, phase=text) for id_, each in build.devices.items()},
        jacks={id_: each._replace(name=text) for id_, each in build.jacks.items()},
    )
    for drawing in room_drawings(renamed):
        assert drawing.width <= palette.SHEET_LONG
        assert drawing.height <= palette.SHEET_SHORT
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.right <= drawing.width for box in boxes)


def test_labels_that_say_more_than_names_stand_in_rooms_and_cabinets(tmp_path: Path) -> None:
    """By the published scheme a label is a place, not a name; with the simple one nothing is said twice."""
    text = (PLANS / "honey-farm.yaml").read_text("utf-8")
    path = tmp_path / "farm.yaml"
    for scheme in ("simple", "tia-606"):
        path.write_text(f"{text}\nlabels: {{scheme: {scheme}}}\n", "utf-8")
        build = compile_plan(path, "farm.yaml").build
        assert build is not None
        shown = " ".join(
            everything_said(drawing.svg) for drawing in (*room_drawings(build), *cabinet_drawings(build))
        )
        for id_ in ("device:core", "device:panel"):
            assert (f"label {identifiers(build).devices[id_]}" in shown) == (scheme != "simple")
