"""The cheapest order against all orders, on tables of random costs."""

import random
from itertools import pairwise

import pytest

from firstfix.algorithms.cheapest_order import Cost, Option, cheapest_order, plus

SEEDS = range(40)


class Table:
    """Five things; what each costs after each set of others, made up but always the same for a seed. Some come before others."""

    def __init__(self, seed: int) -> None:
        chance = random.Random(seed)  # noqa: S311 - repeatable
        self.count = 5
        self.costs = {
            (done, option): (chance.choice([0, 0, 0, 1]), chance.randrange(10))
            for done in range(1 << self.count)
            for option in range(self.count + 1)
        }
        needs = [
            sum(1 << before for before in range(each) if chance.random() < 0.25) for each in range(self.count)
        ]
        pair = 0b11
        self.options = [Option(1 << each, needs[each]) for each in range(self.count)]
        self.options.append(Option(pair, (needs[0] | needs[1]) & ~pair))
        self.goal = (1 << self.count) - 1

    def cost(self, done: int, option: int) -> Cost:
        return self.costs[done, option]

    def every_order(self, done: int = 0) -> list[Cost]:
        if done == self.goal:
            return [(0, 0)]
        found = []
        for number, option in enumerate(self.options):
            if not option.does & done and not option.needs & ~done:
                found += [
                    plus(self.cost(done, number), rest) for rest in self.every_order(done | option.does)
                ]
        return found

    def exact(self, done: int) -> Cost:
        return min(self.every_order(done))


def _sum(table: Table, options: tuple[int, ...]) -> Cost:
    total: Cost = (0, 0)
    done = 0
    for number in options:
        total = plus(total, table.cost(done, number))
        done |= table.options[number].does
    assert done == table.goal
    return total


@pytest.mark.parametrize("seed", SEEDS)
def test_it_is_a_cheapest_of_all_orders(seed: int) -> None:
    table = Table(seed)
    order = cheapest_order(table.options, 0, table.goal, table.cost, lambda _: (0, 0), (0, 0), 10_000)
    assert order.cost == min(table.every_order()) == _sum(table, order.options)
    assert order.is_proven


@pytest.mark.parametrize("seed", SEEDS)
def test_a_bound_that_is_exact_leads_straight_there(seed: int) -> None:
    table = Table(seed)
    asked = []

    def cost(done: int, option: int) -> Cost:
        asked.append((done, option))
        return table.cost(done, option)

    order = cheapest_order(table.options, 0, table.goal, cost, table.exact, (0, 0), 10_000)
    assert order.cost == min(table.every_order())
    assert len(asked) <= len(table.options) * table.count


@pytest.mark.parametrize("seed", SEEDS)
def test_stopped_early_it_is_between_its_bound_and_the_cost_of_its_own_order(seed: int) -> None:
    table = Table(seed)
    orders = [
        cheapest_order(table.options, 0, table.goal, table.cost, lambda _: (0, 0), (0, 0), most)
        for most in (0, 5, 20, 10_000)
    ]
    for order in orders:
        assert order.bound <= min(table.every_order()) <= order.cost == _sum(table, order.options)
    assert all(fewer.bound <= more.bound for fewer, more in pairwise(orders))


def test_what_waits_for_itself_leads_nowhere() -> None:
    ring = [Option(0b01, 0b10), Option(0b10, 0b01)]
    with pytest.raises(ValueError, match="do not lead"):
        cheapest_order(ring, 0, 0b11, lambda _, __: (0,), lambda _: (0,), (0,), 100)


def test_nothing_to_do_costs_nothing() -> None:
    order = cheapest_order([], 0, 0, lambda _, __: (1,), lambda _: (0,), (0,), 100)
    assert (order.options, order.cost, order.is_proven) == ((), (0,), True)
