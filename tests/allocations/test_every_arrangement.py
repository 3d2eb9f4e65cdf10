"""Small cases against exhaustive search: what is written and kept is fixed, and of the arrangements that respect it the best is found."""

import itertools
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from allocations.keeping import compiled
from firstfix.pipeline import Compiled
from resolve.planning import one_room

JACKS = (1, 2, 3, 4, 5)


class Asking(NamedTuple):
    """One desk at a switch of five jacks: what it may have (one jack: written), and what is kept for it, or 0."""

    may_have: tuple[int, ...]
    kept: int


@st.composite
def asking(draw: st.DrawFn) -> Asking:
    low = draw(st.integers(1, 5))
    high = draw(st.integers(low, min(5, low + 3)))
    return Asking(tuple(range(low, high + 1)), draw(st.integers(0, 6)))


def most_served(fixed: dict[int, int], wishes: list[Asking]) -> int:
    """By trying everything: how many are served when each of `fixed` (desk to jack) has that jack."""
    options = [
        [fixed[number]] if number in fixed else [0, *each.may_have] for number, each in enumerate(wishes)
    ]
    return max(
        sum(jack > 0 for jack in choice)
        for choice in itertools.product(*options)
        if len({jack for jack in choice if jack}) == sum(jack > 0 for jack in choice)
    )


def run_of(desk: int, each: Asking) -> str:
    """The run's name, by which it is decided who keeps a jack that is kept twice."""
    low, high = each.may_have[0], each.may_have[-1]
    return f"core/{low}-{high}--desk-{desk}" if low < high else f"core/{low}--desk-{desk}"


def fixed_by(wishes: list[Asking]) -> tuple[dict[int, int], dict[int, int]]:
    """What is written, and what of the kept can stay beside it: in order of the runs' names, each jack once."""
    written = {desk: each.may_have[0] for desk, each in enumerate(wishes) if len(each.may_have) == 1}
    kept: dict[int, int] = {}
    for desk, each in sorted(enumerate(wishes), key=lambda pair: run_of(*pair)):
        free = each.kept not in (*written.values(), *kept.values())
        if desk not in written and each.kept in each.may_have and free:
            kept[desk] = each.kept
    return written, kept


def jack_of(result: Compiled, desk: int) -> int:
    assert result.build is not None
    for piece in result.build.pieces.values():
        ends = sorted(
            result.build.jacks[end].device + "/" + result.build.jacks[end].name for end in piece.ends
        )
        if f"device:desk-{desk}/1" in ends:
            return int(ends[0].rpartition("/")[2])
    return 0


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    with TemporaryDirectory() as name:
        yield Path(name)


@settings(derandomize=True, deadline=None, max_examples=120)
@given(wishes=st.lists(asking(), min_size=1, max_size=6))
def test_the_best_arrangement_is_found_and_what_is_kept_is_blamed_only_with_reason(
    folder: Path, wishes: list[Asking]
) -> None:
    # Two desks that write the same jack are at fault themselves.
    written_once = [each.may_have for each in wishes if len(each.may_have) == 1]
    if len(set(written_once)) < len(written_once):
        return
    parts = {"core": "switch-5", **{f"desk-{n}": "computer-desktop" for n in range(len(wishes))}}
    links = [{"run": run_of(desk, each).split("--")} for desk, each in enumerate(wishes)]
    kept = "".join(
        f"- {{run: core--desk-{n}, jacks: [core/{each.kept}, desk-{n}/1]}}\n"
        for n, each in enumerate(wishes)
        if each.kept
    )
    result = compiled(folder, one_room(parts, links), kept)
    written, staying = fixed_by(wishes)
    for desk, jack in {**written, **staying}.items():
        assert jack_of(result, desk) == jack
    served = sum(jack_of(result, desk) > 0 for desk in range(len(wishes)))
    assert served == most_served({**written, **staying}, wishes)
    rules = {each.rule for each in result.report.findings}
    could_be = most_served(written, wishes)
    assert ("kept-in-the-way" in rules) == (served < could_be)
    if served < could_be:
        cures = [
            cure.title
            for each in result.report.findings
            if each.rule == "kept-in-the-way"
            for cure in each.cures
        ]
        assert cures
        assert all("--choose-anew core" in cure for cure in cures)
    assert ("jacks-exhausted" in rules or "kept-in-the-way" in rules) == (served < len(wishes))
