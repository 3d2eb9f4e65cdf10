"""The sheets of a change read back: whatever comes, goes or moves stands on one of them beside its word, and nothing else has a heavy box."""

import random
import shutil
from pathlib import Path

import pytest

from compare.comparing import build_in, compared
from compare.edits import edited
from documents.drawing.reading import Box, texts
from documents.drawing.rows_read import lines
from firstfix.build import ids
from firstfix.compare.changes import GONE, MOVED, NEW, compare
from firstfix.documents.changes_markdown import changes_markdown
from firstfix.documents.drawing.change import change_drawings
from firstfix.documents.drawing.change.files import change_files
from firstfix.documents.drawing.kit import font
from firstfix.documents.drawing.kit.palette import SHEET_LONG, SHEET_SHORT
from firstfix.pipeline import compile_plan
from proof.changes import ROWING_CLUB, Pair, a_camera_more, drawn, pair_of
from repo.editing import HONEY_FARM, read
from resolve.planning import compiled

# A card, or the plate of a cabinet's thing, is no wider than a cabinet.
_CARD = 290.0


def _stands_beside(boxes: list[Box], name: str, word: str) -> bool:
    """Whether `word` stands on the line of `name`, not far to the right of it, or on the next line."""
    return any(
        one.words.startswith(name[:12])
        and other.words.strip("()+ ").startswith(word)
        and -1 < other.bottom - one.bottom < 14
        and -1 < other.left - one.left < _CARD
        for one in boxes
        for other in boxes
    )


def _tells(pair: Pair, id_: str, name: str, word: str) -> bool:
    return any(_stands_beside(texts(each.svg), name, word) for each in pair.drawings)


def _missing(pair: Pair) -> list[str]:
    """Devices that come, go or move and of which no sheet says so."""
    found = []
    for state in pair.changes.states:
        id_ = state.new or state.old
        if ids.kind(id_) != "device":
            continue
        build = pair.new if state.new else pair.old
        words = {NEW: ("new",), GONE: ("gone",), MOVED: ("moved", "was here")}.get(state.state, ())
        name = font.clean(build.devices[id_].name)
        if state.state == MOVED and not _moves_in_sight(pair, state.old, state.new):
            words = ()
        found += [f"{name} {word}" for word in words[:1] if not _tells(pair, id_, name, word)]
    return found


def _moves_in_sight(pair: Pair, old: str, new: str) -> bool:
    """Between rooms, or within a cabinet; what is only set down on something else in the room is in the list."""
    was, now = pair.old.devices[old], pair.new.devices[new]
    return was.room != now.room or bool(was.cabinet and now.cabinet)


@pytest.mark.parametrize(
    "name", ["a camera more", "the loft is let", "the committee works", "the committee goes", "all another"]
)
def test_what_comes_goes_and_moves_stands_beside_its_word(name: str) -> None:
    pair = drawn(name)
    assert any(state.state in (NEW, GONE, MOVED) for state in pair.changes.states)
    assert _missing(pair) == []


@pytest.mark.parametrize("seed", range(8))
def test_so_it_does_after_any_edits(seed: int) -> None:
    plan = read((HONEY_FARM, ROWING_CLUB)[seed % 2])
    pair = pair_of(plan, edited(plan, random.Random(seed), 4))  # noqa: S311 - repeatable
    assert _missing(pair) == []
    said = " ".join(each.alt for each in pair.drawings)
    for state in pair.changes.states:
        if ids.kind(state.new or state.old) == "device" and state.state in (NEW, GONE):
            assert f"{state.state.capitalize()}: {ids.path(state.new or state.old)}," in said


def test_a_camera_a_switch_and_a_cord() -> None:
    """What one reads on the sheets: the new camera's jack and run, the switch's two places, the outlet's other jack."""
    drawings = drawn("a camera more").drawings
    rows = [" ".join(line) for each in drawings for line in lines(each.svg)]
    assert any("cam-hives new" in row for row in rows)
    assert any("core (was here)" in row.replace("PoE switch, 1 unit,… ", "") for row in rows)
    assert any("via panel/1, out-workroom/1" in each.alt for each in drawings)
    assert any("core at U7 moved from main U8" in each.alt for each in drawings)
    assert any(row.startswith("… and ") and row.endswith(" unchanged") for row in rows)


def test_the_key_shows_what_is_on_the_sheet_and_no_more() -> None:
    for each in drawn("the loft is let").drawings:
        words = {box.words for box in texts(each.svg)}
        assert ("new, also marked +" in words) == any(word in words for word in ("new", "(new)"))
        assert ("gone, or where it was" in words) == bool(
            [word for word in words if word.strip("()").endswith(("gone", "was here"))]
        )


def test_the_same_twice_is_the_same_to_the_byte() -> None:
    pair = drawn("the loft is let")
    again = change_drawings(pair.old, pair.new, pair.changes)
    assert [(each.svg, each.dot, each.alt) for each in again] == [
        (each.svg, each.dot, each.alt) for each in pair.drawings
    ]


def test_no_change_no_drawing() -> None:
    pair = pair_of(read(HONEY_FARM), read(HONEY_FARM))
    assert pair.drawings == ()
    assert change_files(pair.old, pair.new, pair.changes) == ({}, {})


def test_what_is_only_called_otherwise_has_no_box(tmp_path: Path) -> None:
    """With the choices kept as they were, a television of another name is the same in the same place."""
    text = HONEY_FARM.read_text("utf-8")
    now = text.replace("parlour-set:", "television:").replace("[parlour-set,", "[television,")
    now = now.replace("note: television}", "was: parlour-set}")
    builds = []
    for name, plan in (("old", text), ("new", now)):
        path = tmp_path / f"{name}.yaml"
        path.write_text(plan, "utf-8")
        shutil.copy(
            HONEY_FARM.with_name("honey-farm.allocations.yaml"), tmp_path / f"{name}.allocations.yaml"
        )
        builds.append(build_in(compile_plan(path, path.name)))
    old, new = builds
    changes = compare(old, new)
    assert [each.old for each in changes.renamed] == ["device:parlour-set"]
    (sheet,) = change_drawings(old, new, changes)
    assert [line for line in lines(sheet.svg) if line[0] in ("Re-labelled", "device parlour-set")] == [
        ["Re-labelled"],
        ["device parlour-set", "name", "parlour-set", "television"],
    ]
    assert ' stroke-width="2.2"' not in sheet.svg
    assert sheet.alt == "Re-labelled: device parlour-set name parlour-set → television;"


def test_a_large_change_goes_over_many_sheets_that_all_fit() -> None:
    drawings = drawn("all another").drawings
    assert len(drawings) > 10
    for number, each in enumerate(drawings, 1):
        assert each.name == f"change-{number}"
        # A tenth of a point is what sizes are rounded to.
        assert sorted((each.width, each.height)) <= [SHEET_SHORT + 0.1, SHEET_LONG + 0.1]
        onward = (f"change-{number + 1}",) if number < len(drawings) else ()
        assert each.onward == onward


def test_hubs_on_other_sheets_are_named() -> None:
    drawings = drawn("all another").drawings
    named = {
        word
        for each in drawings
        for box in texts(each.svg)
        for word in box.words.split()
        if word.startswith("change-") and box.words.startswith("see ")
    }
    assert named
    assert named <= {each.name for each in drawings}


def test_the_files_and_the_page_that_shows_them() -> None:
    pair = drawn("a camera more")
    files, pictures = change_files(pair.old, pair.new, pair.changes)
    stems = {f"drawings/{each.name}" for each in pair.drawings}
    assert set(files) == {f"{stem}.{end}" for stem in stems for end in ("svg", "png")} | {
        "drawings/change.dot",
        "change.pdf",
    }
    assert set(pictures) == {f"{stem}.svg" for stem in stems}
    assert b"Honey farm" in files["drawings/change-1.svg"]
    assert b"sheet change-1" in files["drawings/change-1.svg"]


def test_the_pages_pictures_are_told_in_words_that_are_no_markup(tmp_path: Path) -> None:
    old, new = read(HONEY_FARM), read(HONEY_FARM)
    a_camera_more(new)
    found = compared(compiled(tmp_path, old), compiled(tmp_path, new))
    page = changes_markdown(
        found, (), {"drawings/change-1.svg": "a](x) <b> *c*" * 99, "drawings/change-2.svg": "d"}
    )
    first = next(line for line in page.splitlines() if line.startswith("!["))
    assert first.startswith(r"![a\](x) \<b\> \*c\*")
    assert first.endswith("…](drawings/change-1.svg)")
    assert page.index("change-1.svg") < page.index("<details>") < page.index("change-2.svg")
