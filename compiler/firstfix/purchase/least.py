"""The best order for a market, proven: HiGHS over deals, price steps, postage, least orders, packs and the cutting of cable at once.

Packs that cover a want and packs bought beside it, to reach a better price, free postage or a least order, are columns apart:
only so is the relaxation near the truth. How many boxes of cable do is asked in turn: the model proposes boxes, `boxes` cuts the
runs from them, and what cannot be cut becomes a row that forbids it.

A market that is too large for all that is searched as far as the work goes that is given; then the best order that was found is taken, or a
plain one, with what no order can cost less than.
"""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.algorithms.packing import first_fit
from firstfix.purchase.boxes import Cut, cut_from, fewest_by_quick_method
from firstfix.purchase.market import Deal, Market, Step, Sum, Want, sums
from firstfix.purchase.plain_order import plain_order
from firstfix.purchase.whole_numbers import Column, Row, Solved, Unproved, WholeNumbers, Work

LEAST_COST = "least-cost"
FEWEST_PARCELS = "fewest-parcels"
LEAST_CHANGE = "least-change"

# Proposals of boxes looked at before boxes of one length, which certainly do, are taken.
_MOST_PROPOSALS = 120
# Thereafter, questions in which the boxes that certainly do of one cable may upset those of another.
_MOST_LAST = 2
# Rows that say how many long runs a box can hold, for so many of the different lengths.
_MOST_BOUNDS = 40


class Answer(NamedTuple):
    """`packs` per deal, `sums` per seller. `boxes`: for each want with runs the boxes (at hand first) and for each run, longest first, its box.

    `bound`: below which no order can cost, or `cost` where that is proven. For another aim than the cost it is that of the aim's best.
    """

    packs: tuple[int, ...]
    sums: tuple[Sum, ...]
    boxes: Mapping[int, tuple[tuple[int, ...], tuple[int, ...]]]
    bound: int

    @property
    def cost(self) -> int:
        return sum(each.cost for each in self.sums)

    @property
    def parcels(self) -> int:
        return sum(each.written > 0 or each.goods > 0 for each in self.sums)

    @property
    def is_least(self) -> bool:
        return self.bound >= self.cost


def least(
    market: Market, aim: str = LEAST_COST, before: tuple[int, ...] = (), work: Work | None = None
) -> Answer | None:
    """The order that is best for `aim` and, among those, the cheapest with the fewest parcels. None where no order covers every want.

    `before`: packs of each deal in an earlier order, which the aim least-change keeps to as far as it can. Raises Unproved where `work` is
    over before an order is found; for the least cost, only where no plain order does either.
    """
    work = work if work is not None else Work()
    if aim != LEAST_COST:
        return _Question(market, aim, before, work).answer()
    if work.is_over():
        return _plain(market, 0)
    try:
        found = _Question(market, aim, before, work).answer()
    except Unproved:
        return _plain(market, 0)
    if found is None or found.is_least or not work.is_over():
        return found
    return min(found, _plain(market, found.bound, found), key=lambda each: each.cost)


def _plain(market: Market, bound: int, otherwise: Answer | None = None) -> Answer:
    packs = plain_order(market)
    if packs is None:
        if otherwise is None:
            raise Unproved("no order was found within the work that was given")
        return otherwise
    boxes = {place: _one_by_one(market, place, packs) for place, want in enumerate(market.wants) if want.runs}
    return Answer(packs, sums(market, packs), boxes, bound)


def _one_by_one(market: Market, want: int, packs: tuple[int, ...]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """The boxes of one size that a plain order takes, each run in the first that has room."""
    runs = sorted(market.wants[want].runs, reverse=True)
    boxes = [
        deal.size
        for deal, count in zip(market.deals, packs, strict=True)
        for _ in range(count)
        if deal.want == want
    ]
    places = first_fit(runs, boxes, range(len(boxes)))
    assert places is not None
    at_hand = sorted(market.wants[want].at_hand)
    return (*at_hand, *boxes), tuple(len(at_hand) + place for place in places)


@dataclass(frozen=True, slots=True)
class _Block:
    """One price step of a deal: columns for packs that cover and packs beside, and whether it is this step."""

    deal: int
    step: Step
    covering: Column
    beside: Column | None

    def terms(self, factor: int) -> list[tuple[Column, int]]:
        return [(column, factor) for column in (self.covering, self.beside) if column is not None and factor]


class _Question:
    def __init__(self, market: Market, aim: str, before: tuple[int, ...], work: Work) -> None:
        self._market = market
        self._work = work
        self._model = WholeNumbers()
        self._blocks: list[_Block] = []
        self._used = [self._model.column(1) for _ in market.sellers]
        self._free = [
            None if seller.free_from is None else self._model.column(1) for seller in market.sellers
        ]
        self._runs = {
            place: tuple(sorted(want.runs, reverse=True))
            for place, want in enumerate(market.wants)
            if want.runs
        }
        for place in range(len(market.deals)):
            self._add_deal(place)
        for place, want in enumerate(market.wants):
            self._cover(place, want)
        for place in range(len(market.sellers)):
            self._add_seller(place)
        self._stages = self._stages_of(aim, before)

    def _add_deal(self, place: int) -> None:
        """One block for each price step; at most one of them is used, and only if the seller is."""
        deal = self._market.deals[place]
        used = self._used[deal.seller]
        if len(deal.steps) == 1:
            self._add_step(place, deal.steps[0], None, used)
            return
        chosen = []
        for step, following in zip(deal.steps, (*deal.steps[1:], None), strict=True):
            is_this = self._model.column(1)
            block = self._add_step(place, step, following, is_this)
            self._model.at_least([*block.terms(1), (is_this, -step.least)], 0)
            chosen.append((is_this, 1))
        self._model.at_most([*chosen, (used, -1)], 0)

    def _add_step(self, place: int, step: Step, following: Step | None, is_this: Column) -> _Block:
        """Columns of one step, which hold nothing unless `is_this` is 1."""
        deal = self._market.deals[place]
        covering, beside = self._enough(deal), self._beside(deal, step)
        limits = [covering + beside]
        if following is not None:
            limits.append(following.least - 1)
        if deal.most is not None:
            limits.append(deal.most)
        limit = min(limits)
        block = _Block(
            place,
            step,
            self._model.column(min(covering, limit)),
            self._model.column(min(beside, limit)) if beside else None,
        )
        self._blocks.append(block)
        self._model.at_most([(block.covering, 1), (is_this, -min(covering, limit))], 0)
        if block.beside is not None:
            self._model.at_most([*block.terms(1), (is_this, -limit)], 0)
        return block

    def _beside(self, deal: Deal, step: Step) -> int:
        """Packs that could be worth their money although no want needs them: up to this step, and up to the seller's thresholds."""
        seller = self._market.sellers[deal.seller]
        reach = max(seller.least, seller.free_from or 0)
        return max(-(-reach // step.written) if step.written else 0, step.least if step.least > 1 else 0)

    def _enough(self, deal: Deal) -> int:
        """Packs of this deal alone that cover its want, or as much of it as fits into such boxes."""
        want = self._market.wants[deal.want]
        runs = self._runs.get(deal.want)
        return fewest_by_quick_method(runs, deal.size) if runs else -(-want.amount // deal.size)

    def _cover(self, place: int, want: Want) -> None:
        found = self._covering(place)
        runs = self._runs.get(place)
        if runs is None:
            self._model.at_least(((column, deal.size) for deal, column in found), want.amount)
            return
        self._model.at_least(((column, deal.size) for deal, column in found), sum(runs) - sum(want.at_hand))
        lengths = sorted(set(runs), reverse=True)
        for shortest in lengths[:_MOST_BOUNDS]:
            # A box holds so many runs that are at least this long, and no more.
            number = sum(run >= shortest for run in runs) - sum(coil // shortest for coil in want.at_hand)
            self._model.at_least(((column, deal.size // shortest) for deal, column in found), number)

    def _covering(self, want: int) -> list[tuple[Deal, Column]]:
        deals = self._market.deals
        return [
            (deals[block.deal], block.covering) for block in self._blocks if deals[block.deal].want == want
        ]

    def _add_seller(self, place: int) -> None:
        seller, used, free = self._market.sellers[place], self._used[place], self._free[place]
        goods = [term for block in self._of(place) for term in block.terms(block.step.written)]
        if seller.least:
            self._model.at_least([*goods, (used, -seller.least)], 0)
        if free is not None and seller.free_from is not None:
            self._model.at_least([*goods, (free, -seller.free_from)], 0)
            self._model.at_most([(free, 1), (used, -1)], 0)

    def _of(self, seller: int) -> Iterable[_Block]:
        return (block for block in self._blocks if self._market.deals[block.deal].seller == seller)

    def _stages_of(self, aim: str, before: tuple[int, ...]) -> list[list[tuple[Column, int]]]:
        """Objectives, each made least in turn; the last is the cost."""
        cost = [term for block in self._blocks for term in block.terms(block.step.cost)]
        for used, free, seller in zip(self._used, self._free, self._market.sellers, strict=True):
            cost += [(used, seller.postage), *([(free, -seller.postage)] if free is not None else [])]
        parcels = [(used, 1) for used in self._used]
        # Of equally cheap orders the one with the fewest parcels, asked in one question.
        weighed = [(column, factor * (len(self._used) + 1)) for column, factor in cost] + parcels
        if aim == FEWEST_PARCELS:
            return [parcels, weighed]
        if aim == LEAST_CHANGE:
            return [self._changes(before), weighed]
        return [weighed]

    def _changes(self, before: tuple[int, ...]) -> list[tuple[Column, int]]:
        """Packs more or less than before, over all deals."""
        found = []
        for place, packs in enumerate(before):
            now = [term for block in self._blocks if block.deal == place for term in block.terms(1)]
            more, less = self._model.column(1_000_000), self._model.column(1_000_000)
            self._model.at_least([(more, 1), *((column, -factor) for column, factor in now)], -packs)
            self._model.at_least([(less, 1), *now], packs)
            found += [(more, 1), (less, 1)]
        return found

    def answer(self) -> Answer | None:
        bound: int | None = None
        last_tries = 0
        for tries in range(_MOST_PROPOSALS + _MOST_LAST):
            solved = self._solve()
            if solved is None and last_tries:
                break
            if solved is None:
                return None
            packs = self._packs(solved)
            cuts = self._cuts(packs)
            bad = [(place, cut) for place, cut in cuts.items() if cut.places is None]
            if not bad:
                found = Answer(packs, self._sums(packs), self._laid_out(packs, cuts), 0)
                certain = self._certain(solved)
                return found._replace(
                    bound=min(found.cost, certain if bound is None else min(bound, certain))
                )
            is_last = tries >= _MOST_PROPOSALS - 1 or self._work.is_over()
            last_tries += is_last
            if last_tries > _MOST_LAST:
                break
            if bound is None and (is_last or not all(cut.is_proved for _, cut in bad)):
                bound = self._certain(solved)
            for place, _ in bad:
                self._forbid(place, self._boxes(place, packs), is_last)
        raise Unproved("no boxes were found that all runs can be cut from")

    def _solve(self) -> Solved | None:
        fixed: list[Row] = []
        solved = None
        for objective in self._stages:
            solved = self._model.least(objective, fixed, self._work)
            if solved is None:
                return None
            fixed.append(Row(tuple(objective), -float("inf"), solved.objective))
        return solved

    def _certain(self, solved: Solved) -> int:
        """What an order costs at least, of an objective that is the cost, so many times over, and the number of parcels."""
        return -(-(solved.bound - len(self._used)) // (len(self._used) + 1))

    def _sums(self, packs: tuple[int, ...]) -> tuple[Sum, ...]:
        """Reckoned anew in whole numbers, whatever the solver's tolerances were."""
        for place, want in enumerate(self._market.wants):
            got = sum(
                deal.size * count
                for deal, count in zip(self._market.deals, packs, strict=True)
                if deal.want == place
            )
            if got < want.amount:
                raise Unproved(f"{got} of {want.amount} of {want.id}")
        return sums(self._market, packs)

    def _packs(self, solved: Solved) -> tuple[int, ...]:
        packs = [0] * len(self._market.deals)
        for block in self._blocks:
            packs[block.deal] += sum(solved.values[column] for column, _ in block.terms(1))
        return tuple(packs)

    def _boxes(self, want: int, packs: Sequence[int]) -> Counter[int]:
        found: Counter[int] = Counter()
        for deal, count in zip(self._market.deals, packs, strict=True):
            if deal.want == want and count:
                found[deal.size] += count
        return found

    def _all_boxes(self, want: int, packs: Sequence[int]) -> tuple[int, ...]:
        bought = sorted(self._boxes(want, packs).elements(), reverse=True)
        return (*sorted(self._market.wants[want].at_hand), *bought)

    def _cuts(self, packs: Sequence[int]) -> dict[int, Cut]:
        return {
            place: cut_from(
                runs, self._all_boxes(place, packs), len(self._market.wants[place].at_hand), self._work
            )
            for place, runs in self._runs.items()
        }

    def _laid_out(
        self, packs: Sequence[int], cuts: Mapping[int, Cut]
    ) -> dict[int, tuple[tuple[int, ...], tuple[int, ...]]]:
        return {place: (self._all_boxes(place, packs), cut.places or ()) for place, cut in cuts.items()}

    def _forbid(self, want: int, boxes: Counter[int], is_last: bool) -> None:
        """More boxes of at least one size than in `boxes`; at last, as many of one size as surely do."""
        by_size: dict[int, list[Column]] = {}
        for deal, column in self._covering(want):
            by_size.setdefault(deal.size, []).append(column)
        runs = self._runs[want]
        chosen = []
        for size, columns in sorted(by_size.items()):
            enough = fewest_by_quick_method(runs, size)
            number = enough if is_last else boxes[size] + 1
            if number > enough or size < runs[-1] or (is_last and size < runs[0]):
                continue
            is_more = self._model.column(1)
            self._model.at_least([*((column, 1) for column in columns), (is_more, -number)], 0)
            chosen.append((is_more, 1))
        self._model.at_least(chosen, 1)
