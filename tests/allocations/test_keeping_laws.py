"""What is kept stays: whatever is added, taken away and brought back, or written in another order."""

import copy
import random
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from allocations.keeping import (
    Plan,
    compiled,
    devices,
    kept_after,
    lines,
    names,
    plans,
    said,
    with_device,
    without_device,
)
from firstfix.pipeline import Compiled
from repo.editing import GOOD_PLANS, PLANS, read

relaxed = settings(derandomize=True, deadline=None, max_examples=25)


@pytest.fixture(scope="module")
def folder() -> Iterator[Path]:
    """One folder for all examples of a law: each writes both files anew."""
    with TemporaryDirectory() as name:
        yield Path(name)


def choices_of(folder: Path, plan: Plan, kept: str | None = None) -> str:
    return kept_after(compiled(folder, plan, kept))


def network(result: Compiled) -> list[object]:
    """All that is built: pieces with their ends, addresses, feeds, port settings."""
    build = result.build
    assert build is not None
    return [build.pieces, build.addresses, build.mains_feeds, build.port_setups, build.links]


@pytest.mark.parametrize("path", [*PLANS, *GOOD_PLANS], ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_a_second_build_of_a_shipped_plan_is_the_first(path: Path, folder: Path) -> None:
    plan = read(path)
    first = compiled(folder, plan)
    text = kept_after(first)
    second = compiled(folder, plan, text)
    assert said(second) == []
    assert kept_after(second) == text
    assert network(second) == network(first)


@relaxed
@given(plan=plans())
def test_a_second_build_is_the_first(folder: Path, plan: Plan) -> None:
    first = compiled(folder, plan)
    text = kept_after(first)
    second = compiled(folder, plan, text)
    assert said(second) == []
    assert kept_after(second) == text
    assert network(second) == network(first)


@relaxed
@given(plan=plans(), name=names, data=st.data())
def test_adding_any_device_changes_no_other_choice(
    folder: Path, plan: Plan, name: str, data: st.DataObject
) -> None:
    text = choices_of(folder, without_device(plan, name) if name in plan["devices"] else plan)
    plan = without_device(plan, name) if name in plan["devices"] else plan
    device, links = data.draw(devices(name))
    assert lines(text) <= lines(choices_of(folder, with_device(plan, name, device, links), text))


@pytest.mark.parametrize("name", ["aaa", "m-middle", "zzz"])
@pytest.mark.parametrize("part", ["camera", "computer-desktop", "switch-8", "gateway-1u", "power-strip-1u-8"])
@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_adding_a_device_to_a_shipped_plan_changes_no_other_choice(
    path: Path, part: str, name: str, folder: Path
) -> None:
    plan = read(path)
    text = choices_of(folder, plan)
    switch = next(each for each, spec in plan["devices"].items() if "switch" in spec["part"])
    room = next(spec["room"] for spec in plan["cabinets"].values())
    links = [] if part == "power-strip-1u-8" else [{"run": [name, switch]}]
    more = with_device(plan, name, {"part": part, "room": room}, links)
    assert lines(text) <= lines(choices_of(folder, more, text))


@relaxed
@given(plan=plans(), data=st.data())
def test_a_device_that_goes_and_comes_back_has_its_choices_again(
    folder: Path, plan: Plan, data: st.DataObject
) -> None:
    """While no build comes between: the file still holds what is kept for it, and says so."""
    text = choices_of(folder, plan)
    gone = data.draw(st.sampled_from(sorted(plan["devices"])))
    missing = compiled(folder, without_device(plan, gone), text)
    about = [
        line for line in lines(text) if f" {gone}," in line or f"{gone}/" in line or f" {gone}}}" in line
    ]
    assert ("kept-idle" in said(missing)) == bool(about)
    assert kept_after(compiled(folder, plan, text)) == text


@relaxed
@given(plan=plans(), data=st.data())
def test_also_after_a_build_if_all_was_chosen_at_once(folder: Path, plan: Plan, data: st.DataObject) -> None:
    """The build drops it, and choosing is a function of what is free: what it had is free again."""
    text = choices_of(folder, plan)
    candidates = sorted(set(plan["devices"]) - {"core", "gateway", "panel", "strip"})
    if candidates:
        gone = data.draw(st.sampled_from(candidates))
        dropped = choices_of(folder, without_device(plan, gone), text)
        assert lines(dropped) <= lines(text)
        assert choices_of(folder, plan, dropped) == text


@relaxed
@given(plan=plans(), chance=st.randoms(use_true_random=False))
def test_the_order_of_the_plan_changes_nothing(folder: Path, plan: Plan, chance: random.Random) -> None:
    text = choices_of(folder, plan)
    other = copy.deepcopy(plan)
    items = list(other["devices"].items())
    chance.shuffle(items)
    other["devices"] = dict(items)
    chance.shuffle(other["links"])
    assert choices_of(folder, other) == text
    assert choices_of(folder, other, text) == text


@relaxed
@given(plan=plans(), chance=st.randoms(use_true_random=False))
def test_the_order_of_the_file_changes_nothing(folder: Path, plan: Plan, chance: random.Random) -> None:
    text = choices_of(folder, plan)
    shuffled = text.splitlines(keepends=True)
    chance.shuffle(shuffled)
    assert choices_of(folder, plan, "".join([*shuffled, *shuffled])) == text


@relaxed
@given(plan=plans(), data=st.data())
def test_a_run_written_the_other_way_round_keeps_its_jacks(
    folder: Path, plan: Plan, data: st.DataObject
) -> None:
    text = choices_of(folder, plan)
    other = copy.deepcopy(plan)
    for link in other["links"]:
        if data.draw(st.booleans()):
            link["run"].reverse()
    assert choices_of(folder, other, text) == text


@relaxed
@given(plan=plans(), data=st.data())
def test_what_the_plan_says_comes_first(folder: Path, plan: Plan, data: st.DataObject) -> None:
    """Any one jack of the core written for any one run: it has that jack, and nobody else moves who need not."""
    before = compiled(folder, plan)
    text = kept_after(before)
    # A build of a plan with errors keeps nothing: a camera that stays dark may well move to a jack that becomes free.
    if len(plan["links"]) < 2 or before.report.has_errors:
        return
    other = copy.deepcopy(plan)
    which = data.draw(st.integers(1, len(other["links"]) - 1))
    jack = data.draw(st.integers(1, 15))
    other["links"][which]["run"][-1] = f"core/{jack}"
    result = compiled(folder, other, text)
    device = other["links"][which]["run"][0]
    ours = [line for line in lines(kept_after(result)) if f", {device}/" in line or f"[{device}/" in line]
    taken = f"core/{jack}"
    assert all(f"{taken}," in line or f"{taken}]" in line for line in ours if "jacks" in line)
    moved = lines(text) - lines(kept_after(result))
    assert all(f"{device}/" in line or f"{taken}," in line or f"{taken}]" in line for line in moved)
