"""Rules on mains: adaptors against every arrangement there is, loads against a second sum, and laws of both."""

import itertools
import json
import math
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.model import Build
from firstfix.finding.model import Finding
from firstfix.graphs.backup_time import backup_times
from firstfix.graphs.mains_load import mains_loads
from firstfix.physics.mains import backup_time_between, outlets_needed
from firstfix.physics.range import OutOfRange
from firstfix.pipeline import compile_plan
from firstfix.rules.mains_loads import circuit_load, earth_leakage, strip_load
from firstfix.rules.rule import Rule

law = settings(derandomize=True, deadline=None, max_examples=40)
BADNESS = {"note": 1, "warning": 2, "error": 3}


@cache
def fits(blocks: tuple[int, ...], outlets: int, can_turn: bool) -> bool:
    """Whether some arrangement in one row is free of collisions: all places, all orders, all ways round.

    A body covers whole outlets; one that covers an odd number reaches further to one side, which turning swaps.
    """
    for places in itertools.permutations(range(outlets), len(blocks)):
        ways = [(False, True) if can_turn and each % 2 else (False,) for each in blocks]
        for turned in itertools.product(*ways):
            taken: set[int] = set()
            clash = False
            for place, each, is_turned in zip(places, blocks, turned, strict=True):
                near, far = each // 2, (each + 1) // 2
                left, right = (far, near) if is_turned else (near, far)
                body = set(range(place - left, place + right + 1))
                clash = clash or bool(taken & body)
                taken |= body
            if not clash:
                return True
    return not blocks


@pytest.mark.parametrize("can_turn", [True, False])
@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_outlets_needed_against_all_arrangements(count: int, can_turn: bool) -> None:
    for blocks in itertools.combinations_with_replacement((0, 1, 2, 3), count):
        needed = outlets_needed(blocks, can_turn)
        for outlets in (needed - 1, needed):
            if count <= outlets <= 8:
                assert fits(blocks, outlets, can_turn) == (outlets >= needed), (blocks, outlets)


def test_points_of_a_data_sheet_and_between() -> None:
    points = ((100.0, 1620.0), (225.0, 540.0), (450.0, 180.0))
    for watts, seconds in points:
        assert backup_time_between(points, watts) == pytest.approx(seconds)
    middle = math.sqrt(100 * 225)
    assert backup_time_between(points, middle) == pytest.approx(math.sqrt(1620 * 540))
    with pytest.raises(OutOfRange):
        backup_time_between(points, 451)


def test_between_points_a_battery_follows_peukert() -> None:
    """With points that obey t = C / P^1.2 exactly, all between them does."""
    points = tuple((watts, 1e6 / watts**1.2) for watts in (50.0, 130.0, 400.0))
    for watts in (60.0, 130.0, 250.0, 399.0):
        assert backup_time_between(points, watts) == pytest.approx(1e6 / watts**1.2)


@law
@given(st.floats(100, 450), st.floats(100, 450))
def test_a_greater_load_never_lasts_longer(one: float, other: float) -> None:
    points = ((100.0, 1620.0), (225.0, 540.0), (450.0, 180.0))
    low, high = sorted((one, other))
    assert backup_time_between(points, low) >= backup_time_between(points, high)


def plan(draws: list[tuple[int, int, int]], leaks: list[int], through_ups: int = 0) -> dict[str, Any]:
    """Things on a strip, the first `through_ups` of them on a UPS, all on one circuit of 10 A and 230 V."""
    parts: dict[str, Any] = {
        "bar-part": {"like": "power-strip-1u-8", "mains": {"outlets": 16, "rating": "1000 W"}},
        "reserve-part": {"like": "ups-desktop", "mains": {"outlets": 16, "rating": "1000 W"}},
    }
    devices: dict[str, Any] = {
        "bar": {"part": "bar-part", "room": "cellar"},
        "reserve": {"part": "reserve-part", "room": "cellar"},
    }
    for number, ((least, more, most), leak) in enumerate(zip(draws, leaks, strict=True)):
        draw = {"least": f"{least} W", "typical": f"{least + more} W", "most": f"{least + more + most} W"}
        parts[f"part-{number}"] = {
            "like": "switch-16-managed", "draw": draw, "mains": {"leakage": f"{leak / 10} mA"},
        }  # fmt: skip
        power = "reserve" if number < through_ups else "bar"
        devices[f"thing-{number}"] = {"part": f"part-{number}", "room": "cellar", "power": power}
    return {
        "circuits": {"ring": {"rating": "10 A", "volts": "230 V"}},
        "sites": {"mill": {"rooms": {"cellar": {"mains": 9, "circuit": "ring", "ambient": "20 °C"}}}},
        "parts": parts,
        "devices": devices,
    }


def built(made: dict[str, Any]) -> Build:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(json.dumps(made), encoding="utf-8")
        build = compile_plan(path, "plan.yaml").build
    assert build is not None
    return build


things = st.lists(
    st.tuples(st.integers(0, 300), st.integers(0, 200), st.integers(0, 300)), min_size=1, max_size=6
)


@law
@given(things, st.integers(0, 3))
def test_loads_by_a_second_sum(draws: list[tuple[int, int, int]], through_ups: int) -> None:
    build = built(plan(draws, [5] * len(draws), through_ups))
    ends = [(a, a + b, a + b + c) for a, b, c in draws]
    on_ups, on_bar = ends[:through_ups], ends[through_ups:]
    loads = mains_loads(build)
    assert loads.behind("device:bar").total == pytest.approx(
        [sum(each[end] for each in on_bar) for end in range(3)]
    )
    reserve = [sum(each[end] for each in on_ups) for end in range(3)]
    assert loads.behind("device:reserve").total == pytest.approx(reserve)
    own = (4, 6, 18)
    circuit = loads.of_circuit(build.circuits["circuit:ring"]).total
    assert circuit == pytest.approx([sum(each[end] for each in ends) + own[end] for end in range(3)])


def bad(rule: Rule, build: Build) -> int:
    found = [BADNESS[each.level.value] for each in rule.check(build) if isinstance(each, Finding)]
    return max(found, default=0)


@law
@given(things, st.integers(1, 300), st.integers(1, 40))
def test_more_load_or_leakage_is_never_better(
    draws: list[tuple[int, int, int]], more: int, leak: int
) -> None:
    before = built(plan(draws, [leak] * len(draws)))
    after = built(plan([(a + more, b, c) for a, b, c in draws], [leak + 1] * len(draws)))
    for rule in (strip_load, circuit_load, earth_leakage):
        assert bad(rule, after) >= bad(rule, before)


def test_every_finding_on_mains_leaves_it_to_an_electrician_and_its_terms_add_up() -> None:
    build = built(plan([(900, 0, 0), (900, 0, 0), (900, 0, 0)], [35, 35, 35]))
    for rule in (strip_load, circuit_load, earth_leakage):
        found = [each for each in rule.check(build) if isinstance(each, Finding)]
        assert found
        for each in found:
            assert any("licensed electrician" in label.text for label in each.related)
            assert each.measurement is not None
            assert sum(term.value for term in each.measurement.terms) == pytest.approx(
                each.measurement.figure
            )


def test_a_lead_of_two_counts_whole_at_the_most_and_not_at_the_least() -> None:
    made = plan([(100, 0, 0)], [5])
    made["parts"]["part-0"]["mains"]["inlets"] = 2
    made["devices"]["thing-0"]["power"] = ["bar", "reserve"]
    loads = mains_loads(built(made))
    assert loads.behind("device:bar").total == (0, 50, 100)
    assert loads.behind("room:mill/cellar").total.least == pytest.approx(104)


def test_how_long_a_backup_lasts() -> None:
    """100 W on a small one: 20 minutes by its data sheet."""
    (time,) = backup_times(built(plan([(100, 0, 0)], [5], 1)))
    assert time.lasts == pytest.approx((1200, 1200, 1200))


def test_below_its_least_point_a_backup_lasts_at_least_as_long_as_there() -> None:
    (time,) = backup_times(built(plan([(10, 0, 0)], [5], 1)))
    assert time.lasts == pytest.approx((2700, 2700, 2700))
