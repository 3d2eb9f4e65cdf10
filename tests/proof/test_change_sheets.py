"""The sheets of a change, looked at by the same reader and the same checks as those of a plan; in every theme, and of hostile texts."""

import copy
from collections.abc import Sequence
from dataclasses import replace
from itertools import combinations

import pytest

from proof.changes import PAIRS, Pair, drawn, pair_of, the_loft_is_let
from proof.crossings import Line, crossings, laid_out_by_graphviz, same_graph, wires
from proof.faults import CHECKS, OF_COLOUR, Check
from proof.hostile_names import TEXTS, plan_with
from proof.reading import read
from proof.sheets import THEMES

_SHOWN = 30


def _faults(pair: Pair, check: Check, themes: tuple[str, ...]) -> list[str]:
    return [
        f"{each.name} ({theme}): {fault}"
        for each in pair.drawings
        for theme in themes
        for fault in check(read(replace(each, theme=theme).svg))
    ]


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize("name", PAIRS)
def test_no_sheet_of_a_change_has_a_fault(name: str, check: Check) -> None:
    assert drawn(name).drawings
    found = _faults(drawn(name), check, THEMES if check in OF_COLOUR else THEMES[:1])
    assert not found, "\n".join([f"{len(found)} faults", *found[:_SHOWN]])


@pytest.mark.parametrize("name", PAIRS)
def test_wires_cross_no_oftener_than_graphviz_lets_them(name: str) -> None:
    for each in drawn(name).drawings:
        sheet = read(each.svg)
        if wires(sheet):
            assert _crossings(wires(sheet)) <= crossings(laid_out_by_graphviz(same_graph(sheet))), each.name


def _crossings(lines: Sequence[Line]) -> int:
    """Lines that end at the same place run into each other before it, and may touch there."""
    return sum(
        crossings([one, other])
        for one, other in combinations(lines, 2)
        if not {one[0], one[-1]} & {other[0], other[-1]}
    )


@pytest.mark.parametrize("kind", TEXTS)
def test_a_hostile_text_is_harmless(kind: str) -> None:
    new = plan_with(TEXTS[kind])
    the_loft_is_let(new)
    for part in new["parts"].values():
        part["title"] += "!"
    pair = pair_of(plan_with(TEXTS[kind]), copy.deepcopy(new))
    found = [
        fault for check in CHECKS if check not in OF_COLOUR for fault in _faults(pair, check, ("light",))
    ]
    assert not found, "\n".join(found[:_SHOWN])
