"""Small markets for tests, as plain tuples and as ours: price steps, thresholds, splits, packs, stock and cable all at once."""

import random

from firstfix.purchase.market import Deal, Market, Seller, Step, Want
from purchase import brute_force

Plain = tuple[tuple[brute_force.Want, ...], tuple[brute_force.Seller, ...], tuple[brute_force.Deal, ...]]


def small(seed: int) -> Plain:
    """One to three wants, two or three sellers, up to five deals; few of them cannot be met."""
    chance = random.Random(seed)  # noqa: S311  # for variety, not for secrets
    wants = tuple(_want(chance) for _ in range(chance.randint(1, 3)))
    sellers = tuple(
        (chance.choice([0, 3, 6, 9]), chance.choice([None, 20, 35]), chance.choice([0, 0, 15]))
        for _ in range(chance.randint(2, 3))
    )
    deals = [
        _deal(chance, chance.randrange(len(sellers)), place, want, None) for place, want in enumerate(wants)
    ]
    while len(deals) < 5 and chance.random() < 0.75:
        place = chance.randrange(len(wants))
        seller = chance.randrange(len(sellers))
        if not any(deal[:2] == (seller, place) for deal in deals):
            deals.append(_deal(chance, seller, place, wants[place], chance.choice([None, None, 1, 3])))
    return wants, sellers, tuple(deals)


def _want(chance: random.Random) -> brute_force.Want:
    if chance.random() < 0.3:
        runs = tuple(chance.randint(3, 30) for _ in range(chance.randint(1, 5)))
        return 0, runs, tuple(chance.randint(5, 35) for _ in range(chance.randint(0, 2)))
    return chance.randint(1, 8), (), ()


def _deal(
    chance: random.Random, seller: int, place: int, want: brute_force.Want, most: int | None
) -> brute_force.Deal:
    size = chance.choice([30, 30, 50]) if want[1] else chance.choice([1, 1, 2, 5])
    price, tax = chance.randint(4, 20), chance.choice([0, 0, 1])
    steps = [(1, price, price + tax)]
    if chance.random() < 0.4:
        lower = max(1, price - chance.randint(1, 3))
        steps.append((chance.randint(2, 4), lower, lower + tax))
    return seller, place, size, tuple(steps), most


def ours(plain: Plain) -> Market:
    wants, sellers, deals = plain
    return Market(
        tuple(Want(str(place), *want) for place, want in enumerate(wants)),
        tuple(Seller(str(place), *seller) for place, seller in enumerate(sellers)),
        tuple(
            Deal(seller, want, size, tuple(Step(*step) for step in steps), most)
            for seller, want, size, steps, most in deals
        ),
    )


def flat(price: int) -> tuple[Step, ...]:
    return (Step(1, price, price),)


def all_at_once(seed: int) -> Plain:
    """Price steps, thresholds, packs, splits between sellers and a coil at hand in every one of these markets."""
    chance = random.Random(seed)  # noqa: S311  # for variety, not for secrets
    cable = 0, tuple(chance.randint(5, 30) for _ in range(chance.randint(2, 4))), (chance.randint(5, 30),)
    wants = ((chance.randint(3, 9), (), ()), cable)
    sellers = tuple(
        (chance.choice([3, 6, 9]), chance.choice([20, 30, 40]), chance.choice([0, 10, 15])) for _ in range(2)
    )
    deals: list[brute_force.Deal] = []
    for seller, pack in enumerate(chance.sample([1, 2, 3, 5], 2)):
        price, tax = chance.randint(3, 9) * pack, chance.choice([0, 1])
        lower = price - chance.randint(1, 2)
        steps = ((1, price, price + tax), (chance.randint(2, 3), lower, lower + tax))
        # Few enough at one of them that some of it must, or would better, come from the other.
        deals.append((seller, 0, pack, steps, chance.choice([1, 2, 3]) if not seller else None))
    for seller in range(2):
        price = chance.randint(8, 18)
        deals.append((seller, 1, chance.choice([30, 40, 50]), ((1, price, price),), None))
    return wants, sellers, tuple(deals)


def hostile(seed: int, lines: int, shops: int, offers: int, steps: int, cables: int) -> Market:
    """Made to be hard: many shops with thresholds, packs of nearly equal price, many price steps, and cable for boxes of nearly equal length.

    `offers` for each line, each with so many `steps`; `cables` of the lines are cable.
    """
    chance = random.Random(seed)  # noqa: S311  # for variety, not for secrets
    wants = tuple(
        Want(str(place), 0, tuple(chance.randint(5_000, 60_000) for _ in range(40)))
        if place < cables
        else Want(str(place), chance.randint(30, 400))
        for place in range(lines)
    )
    deals = [
        _hostile_deal(chance, shop, place, want, steps)
        for place, want in enumerate(wants)
        for shop in sorted(chance.sample(range(shops), offers))
    ]
    sellers = (
        Seller(
            str(shop),
            chance.randint(490, 1490),
            chance.choice([None, 20_000, 30_000, 50_000, 100_000]),
            chance.choice([0, 5_000, 10_000, 20_000]),
        )
        for shop in range(shops)
    )
    return Market(wants, tuple(sellers), tuple(deals))


def _hostile_deal(chance: random.Random, shop: int, place: int, want: Want, steps: int) -> Deal:
    sizes = [95_000, 100_000, 101_000, 300_000, 305_000] if want.runs else [7, 8, 9, 10, 11, 12, 13]
    size = chance.choice(sizes)
    price = round((size / 100 if want.runs else 97 * size) * chance.uniform(0.98, 1.02))
    found, packs = [Step(1, price, price)], 1
    for _ in range(steps - 1):
        packs += chance.randint(2, 5)
        price = max(1, price - chance.randint(1, max(2, price // 60)))
        found.append(Step(packs, price, price))
    return Deal(shop, place, size, tuple(found))
