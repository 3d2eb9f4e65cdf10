"""Rows of outlets against exhaustive search, and against the count that the rule on covered outlets goes by."""

from itertools import permutations, product

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.outlet_row import Plug, outlet_row
from firstfix.physics.mains import outlets_needed


def _is_free_of_covers(plugs: list[Plug], places: tuple[int, ...], can_turn: bool) -> bool:
    """By trying every way round of every adaptor: each outlet of the row is used or covered once at the most."""
    ways = product((0, 1), repeat=len(plugs)) if can_turn else ((0,) * len(plugs), (1,) * len(plugs))
    for way in ways:
        taken: list[int] = []
        for plug, place, turned in zip(plugs, places, way, strict=True):
            wide, narrow = (plug.blocks + 1) // 2, plug.blocks // 2
            before, after = (wide, narrow) if turned else (narrow, wide)
            taken += range(place - before, place + after + 1)
        if len(taken) == len(set(taken)):
            return True
    return False


_plugs = st.lists(st.integers(0, 3).map(Plug), min_size=1, max_size=5)


@given(_plugs, st.integers(1, 7), st.booleans())
@settings(derandomize=True, deadline=None, max_examples=250)
def test_a_row_is_found_exactly_where_there_is_one(plugs: list[Plug], outlets: int, can_turn: bool) -> None:
    found = outlet_row(plugs, outlets, can_turn)
    there_is_one = any(
        _is_free_of_covers(plugs, places, can_turn)
        for places in permutations(range(1, outlets + 1), len(plugs))
    )
    assert (found is not None) == there_is_one
    assert there_is_one == (outlets_needed([each.blocks for each in plugs], can_turn) <= outlets)
    if found is not None:
        assert set(found) <= set(range(1, outlets + 1))
        assert _is_free_of_covers(plugs, found, can_turn)


@given(_plugs, st.integers(3, 7), st.booleans(), st.data())
@settings(derandomize=True, deadline=None, max_examples=250)
def test_what_stays_stays(plugs: list[Plug], outlets: int, can_turn: bool, data: st.DataObject) -> None:
    fixed = data.draw(st.permutations(range(1, outlets + 1)))
    count = data.draw(st.integers(1, min(2, len(plugs))))
    held = [each._replace(fixed=fixed[index]) if index < count else each for index, each in enumerate(plugs)]
    found = outlet_row(held, outlets, can_turn)
    possible = [
        places
        for places in permutations(range(1, outlets + 1), len(plugs))
        if all(not each.fixed or each.fixed == at for each, at in zip(held, places, strict=True))
        and _is_free_of_covers(plugs, places, can_turn)
    ]
    assert (found in possible) if possible else (found is None)


def test_plain_plugs_take_the_first_outlets_in_their_order() -> None:
    assert outlet_row([Plug(0)] * 3, 8, True) == (1, 2, 3)


def test_two_adaptors_stand_over_the_ends_of_a_row_of_four() -> None:
    assert outlet_row([Plug(0), Plug(0), Plug(1), Plug(1)], 4, True) == (2, 3, 1, 4)


def test_a_made_up_row_of_hundreds_ends_soon() -> None:
    plugs = [Plug(index % 37) for index in range(300)]
    assert outlet_row(plugs, 2000, True) is None
