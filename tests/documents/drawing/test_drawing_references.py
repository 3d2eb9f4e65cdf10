"""A reference from one network sheet to another leads to the sheet that shows that very jack, also of a table in parts."""

import re

import pytest

from documents.drawing.plans_drawn import NAMES, drawn
from documents.drawing.reading import SVG, parse
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.drawings import network_drawings

_ON = re.compile(r"\bon (network-[0-9]+)")
_FLAG = re.compile(r"continues on (network-[0-9]+)$")


@pytest.mark.parametrize("name", NAMES)
def test_each_reference_leads_to_the_sheet_with_the_jack_at_the_far_end(name: str) -> None:
    """A row's words begin `NEAR to FAR`; on the sheet that it names a row begins with them the other way round."""
    sheets = drawn(network_drawings, name)
    rows = {sheet.name: {_ends(words): on for words, on in _rows(sheet)} for sheet in sheets}
    for sheet in sheets:
        for (near, far), on in rows[sheet.name].items():
            assert not on or (far, near) in rows[on], f"{sheet.name}: {near} to {far}, on {on}"


def test_a_table_in_parts_is_referred_to_by_the_part_that_has_the_jack() -> None:
    """In the school the jacks that join block-1 to others are on the second of its two sheets."""
    sheets = {sheet.name: sheet for sheet in drawn(network_drawings, "school")}
    holding = [name for name, sheet in sheets.items() if ("block-1/sfp2", "block-2/sfp1") in _all_ends(sheet)]
    first = [name for name, sheet in sheets.items() if "block-1, part 1 of 2" in sheet.svg]
    assert holding
    assert holding != first
    other = next(sheet for sheet in sheets.values() if ("block-2/sfp1", "block-1/sfp2") in _all_ends(sheet))
    assert f"block-1 continues on {holding[0]}" in other.svg


@pytest.mark.parametrize("name", NAMES)
def test_each_flag_about_a_trunk_agrees_with_a_row(name: str) -> None:
    """Besides flags of the rows there are those for what follows: the next part, and what is on no network."""
    for number, sheet in enumerate(sheets := drawn(network_drawings, name)):
        named = {on for _, on in _rows(sheet) if on}
        following = {each.name for each in sheets[number + 1 : number + 2]}
        if named:
            assert set(_flags(sheet)) <= named | following


def test_what_stands_below_a_name_is_told_whole_in_two_lines() -> None:
    """On the sheet of the school's core: phases, spares and every panel on the way."""
    said = "\n".join(
        text.text or ""
        for sheet in drawn(network_drawings, "school")
        for text in parse(sheet.svg).iter(f"{SVG}text")
    )
    assert "spare for core/sfp5" in said
    assert "phase autumn" in said
    assert "phase a…" not in said
    assert "spare…" not in said


def _rows(sheet: Drawing) -> list[tuple[str, str]]:
    """The words of each row, and the sheet that it names, or ""."""
    found = []
    for group in parse(sheet.svg).iter(f"{SVG}g"):
        title = group.find(f"{SVG}title")
        if title is None or " to " not in (title.text or "") or group.find(f".//{SVG}g") is not None:
            continue
        said = [text.text or "" for text in group.iter(f"{SVG}text")]
        on = [match.group(1) for words in said if (match := _ON.search(words))]
        found.append((title.text or "", on[0] if on else ""))
    return found


def _ends(words: str) -> tuple[str, str]:
    near, _, far = words.partition(" through ")[0].partition(": ")[0].partition(" to ")
    return near, far


def _all_ends(sheet: Drawing) -> set[tuple[str, str]]:
    return {_ends(words) for words, _ in _rows(sheet)}


def _flags(sheet: Drawing) -> list[str]:
    said = (text.text or "" for text in parse(sheet.svg).iter(f"{SVG}text"))
    return [match.group(1) for words in said if (match := _FLAG.search(words))]
