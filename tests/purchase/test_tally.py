"""Every tally of every example plan adds up to the whole, to the last minor unit, with shops and without."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from firstfix.build.model import Build
from firstfix.documents.costs import costs_markdown
from firstfix.offers.model import Goods, Offer, Price, Shop, Tax
from firstfix.pipeline import compile_plan
from firstfix.purchase.by_phase import costs_by_phase, postage_by_phase
from firstfix.purchase.money import money
from firstfix.purchase.needs import Need, needs, total
from firstfix.purchase.order import Order, order
from firstfix.purchase.ordered import as_ordered
from firstfix.purchase.tally import money_of

_PLANS = Path(__file__).parents[2] / "plans"
_NAMES = ("honey-farm", "rowing-club", "school")
# Thirds of a cent and odd packs, so that what is shared out does not come out even by luck.
_SHOPS = (("near", 590, None, Tax(2000, True, True)), ("far", 1290, 20_000, Tax(770, False, True)))


@cache
def made(name: str) -> tuple[Build, tuple[Need, ...]]:
    build = compile_plan(_PLANS / f"{name}.yaml", f"{name}.yaml").build
    assert build is not None
    return build, needs(build)


@cache
def with_shops(name: str) -> tuple[Build, Order]:
    """Two invented shops, which offer all that is counted but every seventh line."""
    build, to_buy = made(name)
    shops = tuple(
        Shop(
            shop,
            build.currency,
            postage,
            free,
            0,
            tax,
            tuple(
                Offer(
                    Goods(need.part, need.length, need.colour),
                    pack,
                    (Price(1, 137 + 31 * place * pack + 7 * at),),
                    None,
                    2,
                )
                for place, need in enumerate(to_buy)
                if place % 7 and need.amount.unit != "m"
                for pack in (1, 3)
            ),
        )
        for at, (shop, postage, free, tax) in enumerate(_SHOPS)
    )
    shopped = replace(build, shops=shops)
    found = order(shopped, to_buy, {})
    assert found is not None
    return shopped, found


@pytest.mark.parametrize("name", _NAMES)
def test_without_shops(name: str) -> None:
    build, to_buy = made(name)
    spent = money_of(build, to_buy, None)
    assert spent.whole == total(to_buy).known > 0
    for tally in spent.tallies:
        assert sum(share.paid for share in tally.shares) == spent.whole, tally.by


@pytest.mark.parametrize("name", _NAMES)
def test_with_shops(name: str) -> None:
    build, found = with_shops(name)
    to_buy = as_ordered(made(name)[1], found, {})
    spent = money_of(build, to_buy, found)
    assert spent.whole == found.paid == sum(parcel.paid for parcel in found.parcels) > 0
    assert [tally.by for tally in spent.tallies] == [
        "site",
        "cabinet",
        "VLAN",
        "phase, postage included" if build.phases else "phase",
        "shop, postage included",
    ]
    for tally in spent.tallies:
        assert sum(share.paid for share in tally.shares) == spent.whole, tally.by
    held = {each.line for each in found.held}
    assert spent.unpriced == len(held) > 0
    # What no shop offers is not free: by the part library it would come to so much.
    assert spent.stand_in == total(to_buy).known - sum(
        line.paid for parcel in found.parcels for line in parcel.lines
    )


def test_phases_with_their_postage_come_to_the_whole_order() -> None:
    build, found = with_shops("school")
    to_buy = as_ordered(made("school")[1], found, {})
    ordered = tuple(need for need in to_buy if need.shops)
    goods = {cost.name: cost.paid for cost in costs_by_phase(build, ordered)}
    postage = postage_by_phase(build, to_buy, found)
    assert set(goods) == {"summer", "autumn"}
    assert sum(goods.values()) + sum(postage.values()) == found.paid
    by_phase = next(each for each in money_of(build, to_buy, found).tallies if each.by.startswith("phase"))
    assert {share.name: share.paid for share in by_phase.shares} == {
        name: paid + postage.get(name, 0) for name, paid in goods.items()
    }


def test_costs_say_what_budgets_are_held_against() -> None:
    """What no shop sells is in that, by the price of its part; the page says both sums."""
    build, found = with_shops("school")
    to_buy = as_ordered(made("school")[1], found, {})
    postage = postage_by_phase(build, to_buy, found)
    sums = [
        f"{cost.name} {money(cost.paid + postage[cost.name], build.currency)}"
        for cost in costs_by_phase(build, to_buy)
    ]
    written = costs_markdown(build, to_buy, found, (), ()).replace("\N{NO-BREAK SPACE}", " ")
    said = f"the phases come to: {', '.join(sums)}.".replace("\N{NO-BREAK SPACE}", " ")
    assert said in written
