"""How long the best order takes for 200 lines in 8 shops: packs, price steps, postage, free from, least orders, and some cable to cut.

    python tests/benchmarks/big_order.py [MARKETS]

Prints for each invented market the seconds on one thread, the ratio to one shop's own question alone, and whether the order is proven.
"""

import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from firstfix.purchase.least import least
from firstfix.purchase.market import Deal, Market, Seller, Step, Want

_LINES, _SHOPS = 200, 8


def market(seed: int, cables: int) -> Market:
    """`cables` of the lines are cable with thirty runs each."""
    chance = random.Random(seed)  # noqa: S311  # for variety, not for secrets
    wants = tuple(
        Want(str(place), 0, tuple(chance.randint(5_000, 60_000) for _ in range(30)))
        if place < cables
        else Want(str(place), chance.randint(1, 40))
        for place in range(_LINES)
    )
    deals = [
        _deal(chance, shop, place, wants[place])
        for place in range(_LINES)
        for shop in range(_SHOPS)
        if shop == place % _SHOPS or chance.random() < 0.68
    ]
    sellers = (
        Seller(
            str(shop),
            chance.choice([390, 590, 790, 990]),
            chance.choice([None, 5_000, 10_000, 20_000]),
            chance.choice([0, 0, 2_000, 5_000]),
        )
        for shop in range(_SHOPS)
    )
    return Market(wants, tuple(sellers), tuple(deals))


def _deal(chance: random.Random, shop: int, place: int, want: Want) -> Deal:
    usual = 10 ** (2 + 2.2 * random.Random(place).random())  # noqa: S311  # as above
    size = chance.choice([100_000, 305_000, 500_000]) if want.runs else chance.choice([1, 1, 1, 5, 10])
    scale = 90 * (size / 100_000) ** 0.9 * 100 / usual if want.runs else size**0.92
    price = max(1, round(usual * scale * chance.uniform(0.8, 1.3)))
    steps = [Step(1, price, price)]
    if chance.random() < 0.35:
        lower = round(price * 0.9)
        steps.append(Step(chance.randint(3, 15), lower, lower))
    return Deal(shop, place, size, tuple(steps))


def main() -> None:
    markets = int(sys.argv[1]) if len(sys.argv) > 1 else 3
    # The first question also loads the solver.
    least(Market((), (), ()))
    for cables in (0, 5):
        for seed in range(markets):
            asked = market(seed, cables)
            started = time.perf_counter()
            found = least(asked)
            taken = time.perf_counter() - started
            alone = _one_shop(asked)
            assert found is not None
            gap = 100 * (found.cost - found.bound) / found.cost
            print(
                f"{_LINES} lines ({cables} of cable), {_SHOPS} shops, {len(asked.deals)} offers: {taken:.2f} s (aim: at most 10),"
                f" {taken / alone:.0f} times one shop alone; {'proven' if found.is_least else f'at most {gap:.3f} % above the least'}"
            )


def _one_shop(asked: Market) -> float:
    """Seconds for what the first shop offers, from it alone."""
    deals = [deal for deal in asked.deals if deal.seller == 0]
    places = {want: place for place, want in enumerate(sorted({deal.want for deal in deals}))}
    alone = Market(
        tuple(asked.wants[want] for want in places),
        asked.sellers,
        tuple(deal._replace(want=places[deal.want]) for deal in deals),
    )
    started = time.perf_counter()
    least(alone)
    return time.perf_counter() - started


if __name__ == "__main__":
    main()
