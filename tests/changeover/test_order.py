"""The order that is found against all orders there are, and states half-way against plans that somebody could have written."""

import random
from pathlib import Path

import pytest

from changeover.edits import EDITS, base, edited
from changeover.networks import build
from firstfix.algorithms.cheapest_order import Cost, plus
from firstfix.build.model import Build
from firstfix.changeover.bundles import bundles_of
from firstfix.changeover.jobs import jobs_between
from firstfix.changeover.limits import loads, uncut_loops
from firstfix.changeover.network import Network
from firstfix.changeover.order import Course, best_order
from firstfix.changeover.sides import side_of
from firstfix.changeover.view import View
from firstfix.graphs.islands import islands
from firstfix.graphs.layer2 import layer2
from firstfix.pipeline import compile_plan

NAMES = sorted(EDITS)
AT_ONE_DEVICE = ["another place", "desk to another jack", "no printer", "uplink to another jack"]
PLANS = Path(__file__).parents[2] / "plans"


def course(old: Build, new: Build) -> Course:
    before, after = side_of(old, {}), side_of(new, {})
    bundles = bundles_of(jobs_between(before, after))
    return Course(Network(before, after, bundles, "device:gateway"), bundles)


def cheapest_of_all(course: Course, done: int, seen: dict[int, Cost]) -> Cost:
    """Every bundle, and every cord drawn and plugged in elsewhere at once, next: with no bound, and nothing put first or last."""
    if done == course.network.all_done:
        return (0, 0, 0, 0)
    if done not in seen:
        seen[done] = min(
            plus(course.cost(done, number), cheapest_of_all(course, done | option.does, seen))
            for number, option in enumerate(course.options)
            if not option.does & done and not option.needs & ~done
        )
    return seen[done]


@pytest.mark.parametrize("seed", range(24))
def test_no_order_at_all_costs_less(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    one, other = (edited(tuple(chance.sample(NAMES, chance.randint(0, 2)))) for _ in range(2))
    found = course(build(tmp_path, one), build(tmp_path, other))
    order, steps = best_order(found)
    assert order.is_proven
    assert order.cost == cheapest_of_all(found, 0, {})
    total: Cost = (0, 0, 0, 0)
    done = 0
    number = {option.does: at for at, option in enumerate(found.options)}
    for does in steps:
        total = plus(total, found.cost(done, number[does]))
        done |= does
    assert (total, done) == (order.cost, found.network.all_done)


@pytest.mark.parametrize("seed", range(24))
def test_half_way_it_is_as_a_plan_with_half_of_the_edits(seed: int, tmp_path: Path) -> None:
    """The network that a plan with only some of the edits describes, against both plans laid over each other."""
    chance = random.Random(seed)  # noqa: S311 - repeatable
    # Settings of one device's jacks that come or go are made in one go: at most one of the edits does that.
    apart = [name for name in NAMES if name not in AT_ONE_DEVICE]
    one = chance.choice(AT_ONE_DEVICE)
    apart.remove("store in its own VLAN" if one.startswith("uplink") else chance.choice(apart))
    some = tuple(chance.sample([*apart, one], 4))
    old, half, new = (build(tmp_path, edited(some[:count])) for count in (0, 2, 4))
    found = course(old, new)
    ids = {job.id for job in jobs_between(side_of(old, {}), side_of(half, {}))}
    done = sum(
        1 << bit for bit, each in enumerate(found.bundles) if ids.issuperset(job.id for job in each.jobs)
    )
    assert ids == {job.id for bit, each in enumerate(found.bundles) if done >> bit & 1 for job in each.jobs}
    told = course(half, half)
    mine, theirs = found.network.look(done), told.network.look(0)
    both = frozenset(found.network.union.counted) & frozenset(told.network.union.counted)
    assert both & set(found.network.names_of(mine.served)) == both & set(told.network.names_of(theirs.served))
    assert _managed(found, mine.managed) == _managed(told, theirs.managed)
    views = [View(each.network.union, at, at, frozenset()) for each, at in ((found, done), (told, 0))]
    assert loads(views[0]).keys() == loads(views[1]).keys()
    assert [uncut_loops(view) for view in views] == [[], []]


def _managed(course: Course, bits: int) -> set[str]:
    return set(course.network.names_of(bits)) - {"device:b-far"}


@pytest.mark.parametrize("plan", ["honey-farm", "rowing-club"])
def test_who_is_served_is_who_is_in_its_vlans_main_part(plan: str) -> None:
    """graphs.islands finds the parts of each VLAN by itself."""
    found = compile_plan(PLANS / f"{plan}.yaml", plan).build
    assert found is not None
    told = course(found, found)
    served = set(told.network.names_of(told.network.look(0).served))
    main = {
        each.vlan: set(each.main.members) if each.main else set() for each in islands(found, layer2(found))
    }
    mine = {device for device in told.network.union.counted if found.memberships[device][0]}
    assert mine & served == {device for device in mine if device in main[found.memberships[device][0]]}
    assert mine & served


def test_the_bound_is_never_above_what_is_left(tmp_path: Path) -> None:
    """At each state on the way of a few edits, the least cost from there on is the exact one or below."""
    from firstfix.changeover.bounds import Bounds

    found = course(build(tmp_path, base()), build(tmp_path, edited(("far switch replaced", "till moves"))))
    bounds = Bounds(found.bundles, found.at_least, (0, 0, 0, 0))
    seen: dict[int, Cost] = {}
    cheapest_of_all(found, 0, seen)
    assert len(seen) > 5
    goal = found.network.all_done
    assert all(bounds.still(done, goal) <= cost for done, cost in seen.items())
    assert any(bounds.still(done, goal) > (0, 0, 0, 0) for done in seen)
