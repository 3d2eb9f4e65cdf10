"""What the rest of a changeover costs at the least: the costs of small groups of bundles that bear on each other, added up.

Of each group all orders are tried, with everything outside it as it suits best. No two groups share a bundle, so that the sum is never
too high (additive pattern databases: R. E. Korf, A. Felner, "Disjoint pattern database heuristics", 2002).
"""

from collections.abc import Callable, Iterator, Sequence

from firstfix.algorithms.cheapest_order import Cost, plus
from firstfix.changeover.bundles import Bundle
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.settings import device_of

# All orders of so many bundles are looked at: 2^4 sets of what is done.
_MOST_IN_GROUP = 4

# What a bundle costs at the least, when all of the first are done and none of the second.
AtLeast = Callable[[int, int, int], Cost]


class Bounds:
    """`at_least(bit, done, left)`: of bundle `bit` after all of `done` and before all of `left`, both as bits."""

    def __init__(self, bundles: Sequence[Bundle], at_least: AtLeast, nothing: Cost) -> None:
        self._bundles, self._at_least, self._nothing = bundles, at_least, nothing
        self._groups = [sum(1 << bit for bit in group) for group in groups_of(bundles)]
        self._tables: list[dict[int, Cost]] = [{} for _ in self._groups]

    def still(self, done: int, goal: int) -> Cost:
        """From `done` to `goal`."""
        total = self._nothing
        for group, table in zip(self._groups, self._tables, strict=True):
            if group & goal & ~done:
                total = plus(total, self._of_group(group & goal, group & goal & done, table))
        return total

    def _of_group(self, group: int, done: int, table: dict[int, Cost]) -> Cost:
        known = table.get(done)
        if known is None:
            left = group & ~done
            found = [
                plus(
                    self._at_least(bit, done, left & ~(1 << bit)),
                    self._of_group(group, done | 1 << bit, table),
                )
                for bit in range(left.bit_length())
                if left >> bit & 1 and not self._bundles[bit].needs & left
            ]
            known = table[done] = min(found, default=self._nothing)
        return known


def groups_of(bundles: Sequence[Bundle]) -> list[tuple[int, ...]]:
    """Every bundle in one group, with those that bear on the same link or jack, then with what becomes of the device there."""
    group_of: dict[int, list[int]] = {bit: [bit] for bit in range(len(bundles))}
    for tokens in (_link_or_jack, _device):
        holders: dict[str, list[int]] = {}
        for bit, bundle in enumerate(bundles):
            for token in dict.fromkeys(token for job in bundle.jobs for token in tokens(job)):
                holders.setdefault(token, []).append(bit)
        for token, bits in sorted(holders.items()):
            turned = [bit for bit in bits if any(_becomes(job) == token for job in bundles[bit].jobs)]
            for one in turned or bits[:1]:
                for other in bits if turned or tokens is _link_or_jack else ():
                    _merge(group_of, one, other)
    return sorted({tuple(sorted(group)) for group in group_of.values()})


def _merge(group_of: dict[int, list[int]], one: int, other: int) -> None:
    mine, theirs = group_of[one], group_of[other]
    if mine is not theirs and len(mine) + len(theirs) <= _MOST_IN_GROUP:
        mine += theirs
        for each in theirs:
            group_of[each] = mine


def _link_or_jack(job: Job) -> Iterator[str]:
    """A link between two bridges, a jack."""
    if job.towards and job.kind in (Kind.TURN, Kind.NARROW):
        yield " ".join(sorted((job.subject, job.towards)))
    if job.kind in (Kind.PLUG, Kind.JOIN, Kind.UNPLUG):
        yield from job.ends


def _device(job: Job) -> Iterator[str]:
    """What is set towards it, or plugged into it, when it becomes another, moves or changes its address."""
    yield from filter(None, (_becomes(job), job.towards, *job.faces))
    yield from (device_of(end) for end in job.ends)


def _becomes(job: Job) -> str:
    return job.subject if job.kind is Kind.ADDRESS else job.turned
