"""The build without some of its things: total, the whole when nothing is absent, and less the more is absent."""

from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.model import Build
from firstfix.build.presence import EVERYTHING, Presence, as_of, closed
from firstfix.build.restrict import restricted
from firstfix.pipeline import compile_plan
from firstfix.rules.run import examine
from repo.editing import HONEY_FARM, ROOT
from resolve.planning import build_of, one_room

PHASED = (
    ROOT / "plans" / "school.yaml",
    *(ROOT / "tests" / "plan" / "plans" / name for name in ("nursery.yaml", "workshop.yaml")),
    ROOT / "tests" / "plan" / "plans" / "school" / "plan.yaml",
)
SMALL = (HONEY_FARM, *PHASED[1:])
TABLES = ("ways", "cabinets", "devices", "fittings", "jacks", "links", "pieces", "channels", "power_runs")


@cache
def built(path: Path) -> Build:
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


def texts(value: Any) -> Iterator[str]:
    """Every text in a build's value, keys of tables included, however deep."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for key, each in value.items():
            yield from texts(key)
            yield from texts(each)
    elif isinstance(value, (tuple, frozenset)):
        for each in value:
            yield from texts(each)


def dangling(build: Build, absent: frozenset[str]) -> set[tuple[str, str]]:
    """What still names an absent thing: field and id."""
    beside = ("library", "provenance")
    named = ((field.name, getattr(build, field.name)) for field in fields(build) if field.name not in beside)
    return {(name, each) for name, value in named for each in texts(value) if each in absent}


def ids_of(build: Build) -> frozenset[str]:
    found = {id_ for table in TABLES for id_ in getattr(build, table)}
    return frozenset(found | {item.id for item in build.items})


@pytest.mark.parametrize("path", PHASED, ids=lambda path: path.stem)
def test_without_anything_absent_it_is_the_whole(path: Path) -> None:
    assert restricted(built(path), EVERYTHING) == built(path)
    assert as_of(built(path), built(path).phases[-1].name) == EVERYTHING


@pytest.mark.parametrize("path", PHASED, ids=lambda path: path.stem)
def test_each_phase_is_total_and_has_all_of_those_before_it(path: Path) -> None:
    build = built(path)
    had: frozenset[str] = frozenset()
    for phase in ("", *(each.name for each in build.phases)):
        presence = as_of(build, phase)
        then = restricted(build, presence)
        assert not dangling(then, presence.absent)
        assert had <= ids_of(then)
        had = ids_of(then)
    assert had == ids_of(build)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.sampled_from(SMALL), st.data())
def test_whatever_is_absent_nothing_points_to_it_and_every_rule_copes(
    path: Path, data: st.DataObject
) -> None:
    build = built(path)
    things = sorted(id_ for table in ("ways", "cabinets", "devices", "fittings", "links") for id_ in getattr(build, table))  # fmt: skip
    gone = frozenset(data.draw(st.lists(st.sampled_from(things), max_size=6)))
    presence = closed(build, Presence(gone))
    then = restricted(build, Presence(gone))
    assert not dangling(then, presence.absent)
    assert ids_of(then) == ids_of(build) - presence.absent
    # Closing again adds nothing, and more absent leaves less.
    assert closed(build, presence) == presence
    further = Presence(gone | set(data.draw(st.lists(st.sampled_from(things), max_size=2))))
    assert ids_of(restricted(build, further)) <= ids_of(then)
    examine(then)


def test_what_stands_in_a_cabinet_that_is_not_there_stands_in_its_room() -> None:
    build = built(HONEY_FARM)
    then = restricted(build, Presence(frozenset({"cabinet:main"})))
    core = then.devices["device:core"]
    assert (core.cabinet, core.carried_by, core.room) == ("", "", build.devices["device:core"].room)
    assert not [each for each in then.fittings.values() if each.cabinet == "cabinet:main"]
    assert {each.cabinet for each in then.occupancy} == {"cabinet:barn"}


def test_what_is_taken_from_stock_for_later_lies_there_until_then(tmp_path: Path) -> None:
    devices: dict[str, Any] = {"a": "switch-8", "b": "switch-8"}
    plan = one_room(devices, [{"run": ["a", "b"]}], phases={"spring": {}}, stock={"switch-8": 3})
    plan["devices"]["b"]["phase"] = "spring"
    build = build_of(tmp_path, plan)
    then = restricted(build, as_of(build, ""))
    lots = [next(lot for lot in each.stock if lot.part == "switch-8") for each in (build, then)]
    assert [(lot.had, len(lot.taken), lot.left) for lot in lots] == [(3, 2, 1), (3, 1, 2)]
