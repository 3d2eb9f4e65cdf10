"""Assignment against exhaustive search over small cases: nobody is refused in vain, and the order of asking is nothing."""

from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.algorithms.assign import Wanted, assign

JACKS = tuple("12345")


@st.composite
def wishes(draw: st.DrawFn) -> list[Wanted]:
    found: list[Wanted] = []
    for number in range(draw(st.integers(0, 5))):
        liked = draw(st.permutations(JACKS))[: draw(st.integers(0, 4))]
        cut = draw(st.integers(0, len(liked)))
        found.append(Wanted((f"r{number}", 0), tuple(liked[:cut]), tuple(liked[cut:])))
    return found


def best_counts(requests: list[Wanted], taken: frozenset[str] = frozenset()) -> set[tuple[int, int]]:
    """All that can be reached by trying everything: (how many are served, how many of them fully)."""
    if not requests:
        return {(0, 0)}
    first, *rest = requests
    found = set(best_counts(rest, taken))
    for jack in (*first.best, *first.also):
        if jack not in taken:
            gain = 1 if jack in first.best else 0
            found |= {(served + 1, fully + gain) for served, fully in best_counts(rest, taken | {jack})}
    return found


def counts(requests: list[Wanted], chosen: dict[tuple[str, int], str]) -> tuple[int, int]:
    return len(chosen), sum(chosen.get(each.key) in each.best for each in requests)


relaxed = settings(derandomize=True, deadline=None, max_examples=300)


@relaxed
@given(wishes())
def test_as_many_are_served_as_can_be_and_each_jack_once(requests: list[Wanted]) -> None:
    chosen = assign(requests)
    assert len(set(chosen.values())) == len(chosen)
    assert all(chosen[each.key] in each.best + each.also for each in requests if each.key in chosen)
    assert len(chosen) == max(served for served, _ in best_counts(requests))


@relaxed
@given(wishes())
def test_of_those_arrangements_as_many_are_served_fully_as_can_be(requests: list[Wanted]) -> None:
    assert counts(requests, assign(requests)) == max(best_counts(requests))


def test_of_the_arrangements_that_serve_most_one_that_serves_most_fully_is_taken() -> None:
    requests = [
        Wanted(("r0", 0), (), ("1", "3", "2")),
        Wanted(("r1", 0), (), ("1",)),
        Wanted(("r3", 0), (), ("3",)),
        Wanted(("r4", 0), ("1",), ("2",)),
    ]
    assert counts(requests, assign(requests)) == max(best_counts(requests)) == (3, 1)


@relaxed
@given(wishes(), st.randoms(use_true_random=False))
def test_the_order_of_asking_does_not_matter(requests: list[Wanted], random: object) -> None:
    shuffled = list(requests)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert assign(shuffled) == assign(requests)
