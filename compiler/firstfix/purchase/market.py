"""What is asked for and what is offered, as whole numbers: the question that purchase/least.py answers.

Money is in minor units, lengths of cable in millimetres. Wants, sellers and deals are known by their place in the tuple,
so their order must be fixed by whoever makes them.
"""

from typing import NamedTuple


class Want(NamedTuple):
    """`amount` pieces; or, of cable, `runs`, each in one piece of a box or of a coil `at_hand`, from which is cut for nothing."""

    id: str
    amount: int = 0
    runs: tuple[int, ...] = ()
    at_hand: tuple[int, ...] = ()


class Seller(NamedTuple):
    """`postage` is paid once, unless goods for `free_from` are bought (None: always); under `least` nothing is sold.

    Both are compared with prices as they are written; `postage` is what it costs, tax included.
    """

    id: str
    postage: int = 0
    free_from: int | None = None
    least: int = 0


class Step(NamedTuple):
    """From `least` packs on, each of them is `written` in the list and costs `cost`, tax included."""

    least: int
    written: int
    cost: int


class Deal(NamedTuple):
    """A `seller` sells a `want` in packs of `size` pieces (or boxes of so many mm), at most `most` of them.

    `steps` by rising `least`, the first from 1. `lead`: days until it is there, None where nobody says.
    """

    seller: int
    want: int
    size: int
    steps: tuple[Step, ...]
    most: int | None = None
    lead: int | None = None


class Market(NamedTuple):
    wants: tuple[Want, ...]
    sellers: tuple[Seller, ...]
    deals: tuple[Deal, ...]

    def only(self, deals: tuple[Deal, ...], sellers: tuple[Seller, ...] | None = None) -> "Market":
        return self._replace(deals=deals, sellers=self.sellers if sellers is None else sellers)


def step_of(deal: Deal, packs: int) -> Step:
    """The price step that so many packs are sold at: the last one reached."""
    return max((step for step in deal.steps if step.least <= packs), key=lambda step: step.least)


class Sum(NamedTuple):
    """Of one seller: goods as written, what they cost with tax, and the postage. All zero where nothing is bought."""

    written: int
    goods: int
    postage: int

    @property
    def cost(self) -> int:
        return self.goods + self.postage


def sums(market: Market, packs: tuple[int, ...]) -> tuple[Sum, ...]:
    """Per seller, what `packs` of each deal come to. Raises ValueError under a least order: a fault of the caller."""
    found = []
    for number, seller in enumerate(market.sellers):
        bought = [
            (deal, count)
            for deal, count in zip(market.deals, packs, strict=True)
            if count and deal.seller == number
        ]
        written = sum(step_of(deal, count).written * count for deal, count in bought)
        goods = sum(step_of(deal, count).cost * count for deal, count in bought)
        if bought and written < seller.least:
            raise ValueError(f"{seller.id} sells nothing under {seller.least}, and {written} was bought")
        is_free = not bought or (seller.free_from is not None and written >= seller.free_from)
        found.append(Sum(written, goods, 0 if is_free else seller.postage))
    return tuple(found)
