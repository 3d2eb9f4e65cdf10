"""The laws of a comparison, on random pairs of plans: nothing from a plan to itself, what is applied gives the other, and so on."""

import random
from functools import cache
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from compare.edits import edited
from firstfix.build.model import Build
from firstfix.compare.changes import Changes, compare
from firstfix.compare.delta import applied, composed, delta, inverse
from firstfix.compare.records import records
from laws.corpus import EXAMPLES, compiled, name_of, read
from repo.editing import PLANS

SMALL = [path for path in PLANS if path.stem in ("honey-farm", "rowing-club")]
_SEEDS = st.tuples(st.sampled_from(SMALL), st.integers(0, 10_000), st.integers(1, 4))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("laws")


@cache
def _plain(path: Path, folder: Path) -> Build:
    build = compiled(read(path), folder).build
    assert build is not None
    return build


def _edited(path: Path, seed: int, count: int, folder: Path) -> Build:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    build = compiled(edited(read(path), chance, count), folder).build
    assert build is not None
    return build


@pytest.mark.parametrize("path", EXAMPLES, ids=name_of)
def test_nothing_changes_from_a_plan_to_itself(path: Path, folder: Path) -> None:
    changes = compare(_plain(path, folder), _plain(path, folder))
    assert changes.is_empty
    assert changes.delta.is_empty


@pytest.mark.parametrize("path", PLANS, ids=name_of)
@pytest.mark.parametrize("other", SMALL, ids=name_of)
def test_applied_to_the_old_gives_the_new_however_different(path: Path, other: Path, folder: Path) -> None:
    old, new = _plain(path, folder), _plain(other, folder)
    change = compare(old, new).delta
    assert applied(change, records(old)) == records(new)
    assert applied(inverse(change), records(new)) == records(old)


@settings(derandomize=True, deadline=None, max_examples=25)
@given(_SEEDS, _SEEDS)
def test_applied_to_the_old_gives_the_new(
    folder: Path, first: tuple[Path, int, int], second: tuple[Path, int, int]
) -> None:
    path, seed, count = first
    old, new = _edited(path, seed, count, folder), _edited(path, *second[1:], folder)
    changes = compare(old, new)
    _holds(changes, old, new)
    assert (changes.delta.is_empty) == (records(old) == records(new))


def _holds(changes: Changes, old: Build, new: Build) -> None:
    assert applied(changes.delta, records(old)) == records(new)
    back = inverse(changes.delta)
    assert applied(back, records(new)) == records(old)
    assert inverse(back) == changes.delta


@settings(derandomize=True, deadline=None, max_examples=25)
@given(_SEEDS, st.integers(0, 10_000), st.integers(0, 10_000))
def test_one_after_the_other_is_as_good_as_at_once(
    folder: Path, first: tuple[Path, int, int], second: int, third: int
) -> None:
    path, seed, count = first
    builds = [_edited(path, each, count, folder) for each in (seed, second, third)]
    a, b, c = map(records, builds)
    ab, bc = (compare(*pair).delta for pair in pairwise(builds))
    ac = composed(ab, bc)
    assert applied(ac, a) == c
    assert ac == delta(a, c, ac.names)
    assert applied(composed(ab, inverse(ab)), a) == a
    assert composed(delta(a, a), ab) == ab == composed(ab, delta(b, b))


def test_what_was_not_found_on_these_records_cannot_be_applied(folder: Path) -> None:
    farm, club = (records(_plain(path, folder)) for path in SMALL)
    with pytest.raises(ValueError, match=r"is there already|no such"):
        applied(delta(farm, club), club)
