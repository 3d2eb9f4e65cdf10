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
