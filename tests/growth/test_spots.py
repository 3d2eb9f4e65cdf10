"""Of what there could be more, and what counts as a limit."""

from collections.abc import Callable
from pathlib import Path

import pytest

from firstfix.growth.model import ACCESS_POINTS, CAMERAS, HEIGHT, KINDS, PLACES, STORAGE, Spot
from firstfix.growth.more import marker, original, with_more
from firstfix.growth.spots import asked_for, one_of_each, spots
from firstfix.pipeline import room_to_grow
from growth.networks import Data, clean, grown, home, shipped
from resolve.planning import compiled


def _spots(name: str) -> tuple[Spot, ...]:
    made = shipped(name)
    assert made.plan is not None
    assert made.build is not None
    return spots(made.plan, made.build)


def test_each_kind_has_its_spots() -> None:
    found = [(each.kind, each.name, each.room, each.switch) for each in _spots("honey-farm")]
    assert sorted(found) == sorted(
        [
            # Two cameras of one part in one room are one spot.
            (CAMERAS, "cam-door", "farm/barn-eaves", "barn-switch"),
            (ACCESS_POINTS, "ap-house", "farm/landing", "core"),
            (ACCESS_POINTS, "ap-barn", "farm/barn-store", "barn-switch"),
            (PLACES, "out-parlour", "farm/parlour", "core"),
            (PLACES, "out-workroom", "farm/workroom", "core"),
            (STORAGE, "store", "farm/study", "core"),
            (HEIGHT, "main", "farm/study", ""),
            (HEIGHT, "barn", "farm/extraction", ""),
        ]
    )


def test_one_of_each_comes_before_the_second_of_any() -> None:
    found = _spots("rowing-club")
    first = one_of_each(found)
    assert first == found[: len(first)]
    assert {each.kind for each in first} == set(KINDS)


@pytest.mark.parametrize(
    ("what", "names"),
    [
        ("access-points", ["ap-barn", "ap-house"]),
        ("wired places", ["out-parlour", "out-workroom"]),
        ("barn-switch", ["ap-barn", "cam-door"]),
        ("landing", ["ap-house"]),
        ("farm/landing", ["ap-house"]),
        ("main", ["main"]),
        ("kitchen", []),
    ],
)
def test_asked_for_by_name(what: str, names: list[str]) -> None:
    assert sorted(each.name for each in asked_for(_spots("honey-farm"), what)) == names


def test_no_name_is_taken_twice(tmp_path: Path) -> None:
    """A plan may use the word that copies are marked by."""

    def change(plan: Data) -> None:
        plan["devices"]["cam-more-1"] = dict(plan["devices"]["cam"])
        plan["links"].append({"run": ["cam-more-1", "panel", "core"]})

    made = clean(tmp_path, home(change))
    assert made.plan is not None
    assert made.build is not None
    (spot,) = asked_for(spots(made.plan, made.build), "cameras")
    names = [each.name for each in with_more(made.plan, made.build, spot, 3).devices]
    assert len(names) == len(set(names))
    assert marker(made.plan) not in "".join(each.name for each in made.plan.devices)


@pytest.mark.parametrize(
    ("subject", "common"),
    [
        ("link:cam-more-2--core/7", "link:cam--core"),
        # Ends are sorted: of the copy they may stand the other way round.
        ("link:core--cam-more-2#2", "link:cam--core"),
        ("device:cam-more-12", "device:cam"),
        ("cabinet:main/8", "cabinet:main/8"),
        ("power-run:cam-more-1/1", "power-run:cam"),
        ("", ":"),
    ],
)
def test_what_copies_have_in_common(subject: str, common: str) -> None:
    assert original(subject, "-more-") == common


def test_what_is_wrong_with_the_like_thing_already_is_no_limit(tmp_path: Path) -> None:
    """The camera is not made for outdoors, where it hangs; more of them are no worse, and end elsewhere."""

    def change(plan: Data) -> None:
        plan["sites"]["home"]["rooms"]["gate"]["outdoors"] = True

    made = compiled(tmp_path, home(change))
    already = {each.rule for each in made.report.findings if each.level.value == "error"}
    assert "device-exposure" in already
    found = grown(made, "cameras")
    assert found.more == 19
    assert found.first[0].rule == "jacks-exhausted"


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        # 45.4 W are taken by class.
        (lambda plan: plan["parts"]["by-class"]["gives-poe"].update(budget="40 W"), "poe-budget"),
        # A cable of 6.1 mm takes 58 % of a bore of 8 mm, and 53 % may be filled.
        (lambda plan: plan["ways"]["duct"].update(bore="8 mm"), "way-fill"),
    ],
)
def test_what_is_over_a_limit_already_takes_no_more(
    change: Callable[[Data], None], rule: str, tmp_path: Path
) -> None:
    made = compiled(tmp_path, home(change))
    assert rule in {each.rule for each in made.report.findings}
    found = grown(made, "cameras")
    assert (found.more, found.first[0].rule) == (0, rule)


def test_what_cannot_be_told_with_one_more_is_a_limit(tmp_path: Path) -> None:
    """Within what the switch gives at the least it fits for sure; past that it depends on what its data sheet leaves open."""

    def change(plan: Data) -> None:
        plan["parts"]["by-class"]["gives-poe"]["budget"] = {"least": "60 W", "most": "100 W"}

    found = grown(clean(tmp_path, home(change)), "cameras")
    # 45.4 W are taken by class, and 15.4 W more are 60.8 W.
    assert found.more == 0
    assert found.first[0].level == "cannot tell"


def test_large_plans_are_reckoned_only() -> None:
    made = shipped("rowing-club")
    found = room_to_grow(made, one_of_each, most_devices=10)
    assert found
    assert not any(each.is_exact for each in found)
    assert all(each.spot.switch for each in found)


def test_same_plan_same_answer() -> None:
    made = shipped("honey-farm")
    assert room_to_grow(made, one_of_each) == room_to_grow(made, one_of_each)
