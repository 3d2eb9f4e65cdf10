"""Packing against exhaustive search: what is found is right, what is refuted cannot be, what was given up is said."""

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.packing import Packer

_sizes = st.lists(st.integers(1, 30), min_size=1, max_size=3)
_things = st.lists(st.integers(1, 20), min_size=1, max_size=6).map(lambda some: sorted(some, reverse=True))


def _holds(things: list[int], sizes: list[int], places: tuple[int, ...]) -> bool:
    room = list(sizes)
    for thing, place in zip(things, places, strict=True):
        room[place] -= thing
    return min(room) >= 0


@given(_things, _sizes)
@settings(derandomize=True, deadline=None, max_examples=300)
def test_a_packing_is_found_exactly_where_there_is_one(things: list[int], sizes: list[int]) -> None:
    found = Packer(10_000).pack(things, sizes)
    there_is_one = any(
        _holds(things, sizes, places) for places in product(range(len(sizes)), repeat=len(things))
    )
    assert found.is_proved
    assert (found.bins is not None) == there_is_one
    if found.bins is not None:
        assert _holds(things, sizes, found.bins)


def test_bins_that_come_first_are_filled_first() -> None:
    found = Packer(100).pack([10, 5], [15, 15], first=1)
    assert found.bins == (0, 0)


def test_giving_up_is_no_proof() -> None:
    """They would fill three bins of 20 to the brim, and no sum with a 9 in it is 20; after one step that is not known yet."""
    things, sizes = [9, 9, 9, 7, 7, 7, 6, 6], [20, 20, 20]
    given_up = Packer(1).pack(things, sizes)
    assert (given_up.bins, given_up.is_proved) == (None, False)
    searched = Packer(100_000).pack(things, sizes)
    assert (searched.bins, searched.is_proved) == (None, True)


def test_a_job_too_large_for_a_search_is_not_refuted() -> None:
    things = [7] * 70
    assert Packer(100_000).pack(things, [13] * 70).bins is not None
    assert Packer(100_000).pack(things, [13] * 69).is_proved is False
