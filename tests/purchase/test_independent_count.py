"""A count of what three plans need, made by hand, against the shopping list.

Two were made from drawings, wiring tables and checklist, the school's from the drawing set alone. Each figure says how it was counted.
Both ways: nothing that was counted is missing, and the list holds nothing that was not. Where the comparison corrected the count of
the school, `school.CORRECTED` keeps what had been counted.
"""

from collections import Counter
from pathlib import Path

import pytest

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.pipeline import compile_plan
from firstfix.purchase.needs import needs
from firstfix.purchase.not_counted import not_counted
from purchase.counts import honey_farm, rowing_club, school

_PLANS = Path(__file__).parents[2] / "plans"


def _build(plan: str) -> Build:
    build = compile_plan(_PLANS / f"{plan}.yaml", f"{plan}.yaml").build
    assert build is not None
    return build


def _listed(build: Build) -> dict[str, float]:
    return {each.id.partition(":")[2]: round(each.amount.needed, 2) for each in needs(build)}


@pytest.mark.parametrize(
    ("plan", "counted"), [("honey-farm", honey_farm.COUNT), ("rowing-club", rowing_club.COUNT)]
)
def test_the_list_is_what_was_counted(plan: str, counted: dict[str, float]) -> None:
    assert _listed(_build(plan)) == counted


def test_the_list_of_the_school_is_what_was_counted_without_what_is_at_hand() -> None:
    build = _build("school")
    coils = {
        lot.length: sum(each.amount for each in lot.taken) for lot in build.stock if lot.part == "cat6-indoor"
    }
    wanted = Counter(school.COUNT)
    wanted.subtract(school.AT_HAND)
    wanted.subtract({"cat6-indoor": sum(coils.values())})
    assert _listed(build) == {part: round(amount, 2) for part, amount in wanted.items()}
    # Which runs are cut from what is at hand is a choice; that no further run could be is not.
    assert sorted(coils) == sorted(school.COILS)
    assert all(0 <= coil - cut < school.SHORTEST_RUN for coil, cut in coils.items())


def _devices(plan: str) -> list[tuple[str, Device]]:
    return [(device.name, device) for device in _build(plan).devices.values()]


def test_what_was_counted_or_seen_and_is_not_listed_is_said_to_be_left_out() -> None:
    left_out = {" ".join(each.what.split()[:3]): len(each.names) for each in not_counted(_build("school"))}
    # What 32 ways are made of: all between rooms of a building but to-gym-hall, on ways-8 to -12. Earth leads are on the list.
    assert left_out["what these ways"] == 32
    assert "earth leads for" not in left_out
    # Clocks and door readers hang on a wall like cameras do, and no sheet shows what fixes them.
    hung = {
        name
        for each in not_counted(_build("school"))
        if each.what.startswith("what fixes these")
        for name in each.names
    }
    assert {
        name for name, device in _devices("school") if device.part.name in ("clock-poe", "door-reader-poe")
    } <= hung


def test_the_count_says_what_the_comparison_corrected() -> None:
    assert all(before != school.COUNT.get(part, 0) for part, (before, _) in school.CORRECTED.items())
