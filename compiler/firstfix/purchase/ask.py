"""The lines to buy and the offers of them as a market of whole numbers; and what of them cannot be ordered, each with its reason.

An offer without a colour is of whichever colour is asked for; a line without one takes any.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.algorithms.cutting import Run
from firstfix.build.ids import path
from firstfix.build.model import Build
from firstfix.offers.model import Offer, Shop
from firstfix.purchase.boxes import cut_from
from firstfix.purchase.lines import METRES
from firstfix.purchase.market import Deal, Market, Seller, Step, Want
from firstfix.purchase.needs import Need
from firstfix.units import metres


class Held(NamedTuple):
    """A line, or some of it, that is not ordered, and why."""

    line: str
    title: str
    why: str


class Offered(NamedTuple):
    shop: Shop
    offer: Offer


@dataclass(frozen=True, slots=True)
class Asked:
    """`needs` stand for the market's wants, `shops` for its sellers, `offers` for its deals, `runs` by want, longest first.

    `held`: what is not asked for. `already`: lines that are ordered already, as far as they are wanted.
    """

    market: Market
    needs: tuple[Need, ...]
    shops: tuple[Shop, ...]
    offers: tuple[Offered, ...]
    runs: Mapping[int, tuple[Run, ...]]
    held: tuple[Held, ...]
    already: tuple[str, ...]


def typed(need: Need) -> str:
    """A line as one types it: `cord-cat6/1m`."""
    return path(need.id).replace(" ", "")


def ask(build: Build, needs: tuple[Need, ...], ordered: Mapping[str, float]) -> Asked:
    """`ordered`: pieces or metres of a line that are ordered already, by its id; these are not asked for again."""
    usable = [shop for shop in build.shops if shop.postage is not None and shop.currency == build.currency]
    while True:
        gathered = _Gathered(build, tuple(usable))
        for need in needs:
            gathered.add(need, ordered.get(need.id, 0.0))
        asked = gathered.asked()
        hopeless = [shop for place, shop in enumerate(usable) if _is_hopeless(asked.market, place)]
        if not hopeless:
            return asked
        usable = [shop for shop in usable if shop not in hopeless]


def _is_hopeless(market: Market, seller: int) -> bool:
    """Whether all that a shop has of what is asked for does not come to its least order."""
    deals = [deal for deal in market.deals if deal.seller == seller]
    if not deals or any(deal.most is None for deal in deals):
        return False
    return sum((deal.most or 0) * deal.steps[0].written for deal in deals) < market.sellers[seller].least


class _Gathered:
    def __init__(self, build: Build, shops: tuple[Shop, ...]) -> None:
        self._build = build
        self._shops = shops
        self._wants: list[Want] = []
        self._needs: list[Need] = []
        self._deals: list[Deal] = []
        self._offers: list[Offered] = []
        self._runs: dict[int, tuple[Run, ...]] = {}
        self._held: list[Held] = []
        self._already: list[str] = []
        self._by_part: dict[str, list[Offered]] = {}
        for shop in build.shops:
            for offer in shop.offers:
                self._by_part.setdefault(offer.goods.part, []).append(Offered(shop, offer))

    def add(self, need: Need, ordered: float) -> None:
        is_cable = need.amount.unit == METRES
        if ordered and (is_cable or ordered >= need.amount.needed + need.amount.spares):
            self._already.append(typed(need))
            if is_cable and ordered < need.amount.bought:
                self._hold(
                    need,
                    f"{metres(ordered)} are ordered, in boxes not known here; what is cut from them is not worked out",
                )
            return
        if not is_cable and need.amount.unsettled:
            self._hold(need, "; ".join(need.amount.unsettled))
            return
        fitting = [each for each in self._by_part.get(need.part, ()) if _suits(each.offer, need)]
        deals = [each for each in fitting if each.shop in self._shops and each.offer.most != 0]
        if not deals:
            self._hold(need, _why_none(fitting))
        elif is_cable:
            self._add_cable(need, deals)
        else:
            self._add_pieces(need, deals, need.amount.needed + need.amount.spares - ordered)

    def _add_pieces(self, need: Need, offers: list[Offered], wanted: float) -> None:
        amount = round(wanted)
        limits = [None if each.offer.most is None else each.offer.most * each.offer.pack for each in offers]
        most = sum(each for each in limits if each is not None)
        if None not in limits and most < amount:
            self._hold(need, f"the shops have only {most:,} of the {amount:,}")
            amount = most
        self._take(need, Want(need.id, amount), offers, [each.offer.pack for each in offers])

    def _add_cable(self, need: Need, offers: list[Offered]) -> None:
        cutting = need.amount.cutting
        runs = [*(run for coil in cutting.coils for run in coil.runs), *cutting.uncut]
        ordered = tuple(sorted(runs, key=lambda run: (-run.length, run.id)))
        lengths = tuple(_millimetres(run.length) for run in ordered)
        sizes = [int(round(each.offer.goods.length * 1000, 6)) for each in offers]
        fault = _uncuttable(ordered, lengths, sizes, [each.offer.most for each in offers])
        if fault:
            self._hold(need, fault)
            return
        unmeasured = self._unmeasured(need)
        if unmeasured:
            self._hold(need, f"nothing is ordered for {unmeasured} of its runs, whose length is not known")
        self._runs[len(self._wants)] = ordered
        self._take(need, Want(need.id, 0, lengths), offers, sizes)

    def _unmeasured(self, need: Need) -> int:
        wanted = frozenset(need.items)
        return sum(item.count for item in self._build.items if item.id in wanted and item.length <= 0)

    def _take(self, need: Need, want: Want, offers: list[Offered], sizes: list[int]) -> None:
        for each, size in zip(offers, sizes, strict=True):
            tax = each.shop.tax
            steps = tuple(
                Step(price.from_packs, price.amount, price.amount + tax.on(price.amount))
                for price in each.offer.prices
            )
            seller = self._shops.index(each.shop)
            self._deals.append(Deal(seller, len(self._wants), size, steps, each.offer.most, each.offer.lead))
            self._offers.append(each)
        self._wants.append(want)
        self._needs.append(need)

    def _hold(self, need: Need, why: str) -> None:
        self._held.append(Held(typed(need), need.title, why))

    def asked(self) -> Asked:
        market = Market(tuple(self._wants), tuple(map(_seller, self._shops)), tuple(self._deals))
        return Asked(
            market, tuple(self._needs), self._shops, tuple(self._offers), self._runs, tuple(self._held), tuple(self._already)
        )  # fmt: skip


def _uncuttable(
    runs: tuple[Run, ...], lengths: tuple[int, ...], sizes: list[int], most: list[int | None]
) -> str:
    """Why the runs cannot be cut from all boxes that are offered, or ""."""
    if not runs:
        return "none of its runs has a known length"
    if lengths[0] > max(sizes):
        return f"its longest run ({metres(runs[0].length)}) is longer than any length offered"
    enough = [len(runs) if each is None else min(each, len(runs)) for each in most]
    boxes = sorted(
        (size for size, count in zip(sizes, enough, strict=True) for _ in range(count)), reverse=True
    )
    if None not in most and cut_from(lengths, boxes).places is None:
        return "its runs cannot be cut from all that the shops have"
    return ""


def _seller(shop: Shop) -> Seller:
    postage = shop.postage or 0
    return Seller(shop.name, postage + shop.tax.on(postage), shop.free_from, shop.least_order)


def _suits(offer: Offer, need: Need) -> bool:
    goods = offer.goods
    # An offer of mains cords may leave their length open.
    is_length = need.amount.unit == METRES or not goods.length or abs(goods.length - need.length) < 0.0005
    return is_length and (not goods.colour or not need.colour or goods.colour == need.colour)


def _why_none(fitting: list[Offered]) -> str:
    """Why none of the offers of a line can be used."""
    if not fitting:
        return "no shop of the plan offers it"
    shops = sorted({each.shop.name for each in fitting})
    *first, last = (f"'{shop}'" for shop in shops)
    listed = f"{', '.join(first)} and {last}" if first else last
    return f"only {listed} {'offers' if len(shops) == 1 else 'offer'} it, where nothing can be ordered"


def _millimetres(length: float) -> int:
    """Rounded up: no run may come out short. The inner rounding removes binary dust."""
    return -int(-round(length * 1000, 6) // 1)
