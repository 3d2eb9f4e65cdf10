"""Two lists side by side, against adding them up by hand; and what there is to buy for each phase, against the list of the whole."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan, standing_after
from firstfix.purchase.in_phase import fresh_items, in_phase
from firstfix.purchase.lines import PIECES
from firstfix.purchase.needs import needs, total
from firstfix.purchase.two_lists import two_lists
from repo.editing import ROOT
from resolve.planning import build_of, one_room

PHASED = tuple(ROOT / "tests" / "plan" / "plans" / name for name in ("nursery.yaml", "workshop.yaml", "school/plan.yaml"))  # fmt: skip


def two(folder: Path, more: dict[str, Any]) -> tuple[Build, Build]:
    devices = {"core": "switch-8", "a": "computer-desktop"}
    links: list[dict[str, Any]] = [{"run": ["a", "core"]}]
    first = build_of(folder, one_room(devices, links))
    return first, build_of(folder, one_room(devices | more["devices"], links + more["links"]))


def test_one_more_computer_by_hand(tmp_path: Path) -> None:
    before, after = two(tmp_path, {"devices": {"b": "computer-desktop"}, "links": [{"run": ["b", "core"]}]})
    found = two_lists(before, after)
    by_line = {each.line: each for each in found.lines}
    computers = by_line["computer-desktop"]
    assert [sum(pack.number for pack in side.packs) for side in (computers.before, computers.after)] == [1, 2]
    price = before.library["computer-desktop"].price
    assert isinstance(price, Fact)
    assert isinstance(computers.after.price, int)
    assert isinstance(computers.before.price, int)
    assert computers.after.price - computers.before.price == round(price.typical * 100)
    assert found.more == total(needs(after)).known - total(needs(before)).known
    # A pack of labels is bought once; one more of them changes nothing.
    assert "label-cable" not in by_line


def test_of_one_build_nothing_differs_and_turned_round_the_sums_are(tmp_path: Path) -> None:
    before, after = two(tmp_path, {"devices": {"b": "camera"}, "links": []})
    assert two_lists(before, before).lines == ()
    assert two_lists(before, before).more == 0
    assert two_lists(after, before).more == -two_lists(before, after).more != 0
    assert {each.line for each in two_lists(after, before).lines} == {each.line for each in two_lists(before, after).lines}  # fmt: skip


@pytest.mark.parametrize("path", PHASED, ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_phase_by_phase_all_of_the_list_is_bought(path: Path) -> None:
    """Counted things: no more packs than for the whole at once, and none twice. Cable: at least what is laid."""
    result = compile_plan(path, path.name)
    assert result.build is not None
    bought: Counter[str] = Counter()
    items: list[str] = []
    before = None
    for phase in result.build.phases:
        then = standing_after(result, phase.name).build
        assert then is not None
        items += [item.id for item in fresh_items(before, then)]
        for need in in_phase(before, then).to_buy:
            bought[need.id] += round(need.amount.bought * 1000)
        before = then
    assert sorted(items) == sorted(item.id for item in result.build.items)
    for need in needs(result.build):
        if need.amount.unit == PIECES:
            assert bought[need.id] == round(need.amount.bought * 1000), need.id
        else:
            assert bought[need.id] >= round(need.amount.needed * 1000), need.id


def test_each_line_says_what_of_the_phase_it_is_for() -> None:
    result = compile_plan(PHASED[0], "nursery.yaml")
    first, second = (standing_after(result, name).build for name in ("frost-free", "summer"))
    assert first is not None
    assert second is not None
    fresh = {item.id for item in fresh_items(first, second)}
    later = in_phase(first, second).to_buy
    assert later
    assert all(set(need.items) <= fresh for need in later)
