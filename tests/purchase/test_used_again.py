"""What comes free, and what of it is bought no more because it is used again."""

import copy
import random
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compare.edits import edited
from firstfix.build.model import Build
from firstfix.compare.changes import compare
from firstfix.purchase.ask import typed
from firstfix.purchase.difference import Purchases, purchases
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import needs
from repo.editing import PLANS, read
from resolve.planning import build_of

SMALL = [path for path in PLANS if path.stem in ("honey-farm", "rowing-club")]

PLAN: dict[str, Any] = {
    "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {"mains": 9}}}},
    "ways": {"shaft": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"}},
    "vlans": {"all": {"id": 5, "subnet": "10.1.5.0/24"}},
    "devices": {
        "core": {"part": "switch-16-poe", "room": "den", "vlan": "all"},
        "ap-den": {"part": "access-point", "room": "den", "vlan": "all", "plugs-into": "core"},
        "pc": {"part": "computer-desktop", "room": "loft", "vlan": "all", "plugs-into": "core"},
    },
}


def _bought(
    tmp_path: Path, old: dict[str, Any], new: dict[str, Any], laid: frozenset[str] = frozenset()
) -> Purchases:
    before, after = build_of(tmp_path, old), build_of(tmp_path, new)
    return purchases(before, after, compare(before, after).delta.names, laid)


def _parts(found: Any) -> dict[str, int]:
    return {each.part: each.count for each in found}


def _packs(bought: Purchases, part: str) -> list[tuple[int, float]]:
    return [(pack.number, pack.size) for each in bought.to_buy if each.part == part for pack in each.packs]


def _elsewhere(is_owned: bool) -> tuple[dict[str, Any], dict[str, Any]]:
    """An access point of the den goes, and another of the same part comes in the loft, at another jack, under another name."""
    old, new = copy.deepcopy(PLAN), copy.deepcopy(PLAN)
    if is_owned:
        old["devices"]["ap-den"]["owned"] = True
    del new["devices"]["ap-den"]
    new["devices"]["ap-loft"] = {
        "part": "access-point",
        "room": "loft",
        "vlan": "all",
        "plugs-into": "core/12",
    }
    return old, new


@pytest.mark.parametrize("is_owned", [True, False])
def test_what_comes_free_is_used_again_and_not_bought(is_owned: bool, tmp_path: Path) -> None:
    """Whether it was on the old list or in the house before it."""
    bought = _bought(tmp_path, *_elsewhere(is_owned))
    (again,) = [each for each in bought.free.again if each.part == "access-point"]
    assert (again.was_for, again.now_for, again.count) == (("device:ap-den",), ("device:ap-loft",), 1)
    assert _packs(bought, "access-point") == []
    assert "access-point" not in _parts(bought.free.stock)


def test_one_that_comes_free_does_not_serve_two(tmp_path: Path) -> None:
    old, new = _elsewhere(is_owned=True)
    new["devices"]["ap-loft-2"] = {
        "part": "access-point",
        "room": "loft",
        "vlan": "all",
        "plugs-into": "core/13",
    }
    bought = _bought(tmp_path, old, new)
    assert _parts(bought.free.again)["access-point"] == 1
    assert _packs(bought, "access-point") == [(1, 1)]


def test_what_nobody_needs_goes_into_stock(tmp_path: Path) -> None:
    new = copy.deepcopy(PLAN)
    del new["devices"]["ap-den"]
    bought = _bought(tmp_path, PLAN, new)
    assert _parts(bought.free.stock)["access-point"] == 1
    assert bought.free.again == ()
    assert any(each.part == "access-point" for each in bought.left_over)


def test_cable_pulled_out_is_not_laid_again(tmp_path: Path) -> None:
    new = copy.deepcopy(PLAN)
    del new["devices"]["pc"]
    bought = _bought(tmp_path, PLAN, new)
    ((part, length),) = bought.free.given_up
    assert part.startswith("cat6")
    assert length > 9
    assert not any("cable" in each.title for each in (*bought.free.again, *bought.free.stock))


def _coil(build: Build) -> float:
    return sum(item.length for item in build.items if item.part == "cat6-indoor")


def test_of_what_is_laid_the_rest_of_its_coil_serves_and_no_more(tmp_path: Path) -> None:
    """A run made twice as long: nothing is bought while the coil is whole, and a second coil once the first was cut for it."""
    new = copy.deepcopy(PLAN)
    new["ways"]["shaft"]["length"] = "36 m"
    old_build = build_of(tmp_path, PLAN)
    (run,) = [item.for_id for item in old_build.items if item.part == "cat6-indoor"]
    whole, cut_off = _bought(tmp_path, PLAN, new), _bought(tmp_path, PLAN, new, frozenset((run,)))
    assert _coil(old_build) < 36
    assert _packs(whole, "cat6-indoor") == []
    assert len(_packs(cut_off, "cat6-indoor")) == 1
    assert _bought(tmp_path, PLAN, PLAN, frozenset((run,))).to_buy == ()


def test_the_shops_of_the_new_plan_say_what_it_costs(tmp_path: Path) -> None:
    """Two things at 3.00 and postage of 5.00, as anybody adds up; what no shop has is said."""
    old, new = copy.deepcopy(PLAN), copy.deepcopy(PLAN)
    for name in ("lamp-1", "lamp-2"):
        new["devices"][name] = {"part": "sensor-poe", "room": "den", "vlan": "all", "plugs-into": "core"}
    new["shops"] = {"north": {"postage": 5.00, "tax": "included", "offers": {"sensor-poe": {"price": 3.00}}}}
    bought = _bought(tmp_path, old, new)
    assert bought.order is not None
    assert bought.order.paid == 2 * 300 + 500
    held = {each.line for each in bought.order.held}
    assert held == {each.line for each in bought.to_buy} - {"sensor-poe"}
    assert all(each.why for each in bought.order.held)


_SEEDS = st.tuples(st.sampled_from(SMALL), st.integers(0, 10_000), st.integers(0, 10_000), st.integers(1, 4))


@settings(derandomize=True, deadline=None, max_examples=20)
@given(_SEEDS)
def test_what_was_there_and_what_is_bought_is_enough_and_no_pack_too_many(
    tmp_path_factory: pytest.TempPathFactory, given_: tuple[Path, int, int, int]
) -> None:
    """Counted by items and packs, on random pairs of plans, and by a way of its own: lot by lot."""
    path, seed, other, count = given_
    folder = tmp_path_factory.getbasetemp()
    old, new = (
        build_of(folder, edited(read(path), random.Random(each), count))  # noqa: S311 - repeatable
        for each in (seed, other)
    )
    bought = purchases(old, new, compare(old, new).delta.names)
    before, more = {each.id: each.amount for each in needs(old)}, {each.line: each for each in bought.to_buy}
    again = Counter[tuple[str, float, str]]()
    for each in bought.free.again:
        again[each.lot] += each.count - each.bought
    for need in needs(new):
        if need.amount.unit == METRES or need.amount.unsettled:
            continue
        had = (before[need.id].bought if need.id in before else 0) + again[
            need.part, need.length, need.colour
        ]
        packs = [pack for each in [more.get(typed(need))] if each is not None for pack in each.packs]
        got = sum(pack.number * pack.size for pack in packs)
        wanted = need.amount.needed + need.amount.spares
        assert had + got >= wanted, need.id
        assert all(had + got - pack.size < wanted for pack in packs), need.id


@settings(derandomize=True, deadline=None, max_examples=20)
@given(_SEEDS)
def test_nothing_comes_free_twice_and_nothing_is_lost(
    tmp_path_factory: pytest.TempPathFactory, given_: tuple[Path, int, int, int]
) -> None:
    """Of each part that can be used again: as many as before are still in place, used elsewhere, or in stock."""
    path, seed, other, count = given_
    folder = tmp_path_factory.getbasetemp()
    old, new = (
        build_of(folder, edited(read(path), random.Random(each), count))  # noqa: S311 - repeatable
        for each in (seed, other)
    )
    free = purchases(old, new, compare(old, new).delta.names).free
    before, after = (Counter[str]() for _ in range(2))
    for build, counted in ((old, before), (new, after)):
        for item in build.items:
            counted[item.part] += item.count
    gone = Counter[str]()
    for each in (*free.again, *free.stock):
        gone[each.part] += each.count
        assert 0 <= each.bought <= each.count
    for part, number in gone.items():
        assert number <= before[part]
    for each in free.stock:
        assert sum(other_.count for other_ in free.stock if other_.part == each.part) <= before[each.part]
    for part in {each.part for each in free.stock}:
        stayed = before[part] - gone[part]
        reused = sum(each.count for each in free.again if each.part == part)
        assert stayed + reused <= after[part]
