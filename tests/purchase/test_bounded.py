"""A market that is made to be hard ends by its work, never by a clock, with an order that does and with what none can cost less than."""

from functools import cache

import pytest

from firstfix.purchase.least import Answer, least
from firstfix.purchase.market import Market, sums
from firstfix.purchase.plain_order import plain_order
from firstfix.purchase.whole_numbers import Work
from purchase.markets import hostile, ours, small

_WORK = 100_000
# Ended at the first look after the work is over; a question gets so many looks whatever is left, at so many figures of its model.
_OVER = 25 * 12_000


@cache
def market(cables: int) -> Market:
    return hostile(1, 10, 40, 6, 5, cables)


@cache
def ended(cables: int) -> tuple[Answer, Work]:
    work = Work(_WORK)
    found = least(market(cables), work=work)
    assert found is not None
    return found, work


@pytest.mark.parametrize("cables", [0, 1])
def test_the_search_ends_by_its_work(cables: int) -> None:
    _, work = ended(cables)
    assert work.is_over()
    assert _WORK <= work.done <= _WORK + (1 + 2 * cables) * _OVER


@pytest.mark.parametrize("cables", [0, 1])
def test_what_was_found_does_and_says_how_good_it_is(cables: int) -> None:
    found, asked = ended(cables)[0], market(cables)
    assert not found.is_least
    assert 0 < found.bound < found.cost < 1.1 * found.bound
    _covers(asked, found.packs)
    for want, (boxes, places) in found.boxes.items():
        held = [0] * len(boxes)
        for run, place in zip(sorted(asked.wants[want].runs, reverse=True), places, strict=True):
            held[place] += run
        assert all(content <= size for content, size in zip(held, boxes, strict=True))


def test_without_any_work_a_plain_order_is_taken() -> None:
    found = least(market(0), work=Work(0))
    assert found is not None
    assert found.packs == plain_order(market(0))
    assert found.bound == 0
    assert found.cost < 1.1 * ended(0)[0].bound


@pytest.mark.parametrize("ten", range(30))
def test_a_plain_order_is_an_order_and_costs_no_less_than_the_best(ten: int) -> None:
    for seed in range(10 * ten, 10 * ten + 10):
        asked = ours(small(seed))
        packs, best = plain_order(asked), least(asked)
        if packs is None:
            continue
        assert best is not None, seed
        assert sum(each.cost for each in sums(asked, packs)) >= best.cost, seed
        _covers(asked, packs)


def _covers(asked: Market, packs: tuple[int, ...]) -> None:
    for place, want in enumerate(asked.wants):
        bought = [(deal, count) for deal, count in zip(asked.deals, packs, strict=True) if deal.want == place]
        assert sum(deal.size * count for deal, count in bought) >= max(
            want.amount, sum(want.runs) - sum(want.at_hand)
        )
        assert all(deal.most is None or count <= deal.most for deal, count in bought)
