"""Who gets which jack: an assignment, never first-free, so that no plan is refused although an arrangement exists.

Each request lists the jacks that suit it fully (`best`) and those that would do in need (`also`), each in order of liking.
As many requests as possible are served; among those arrangements, as many as possible fully; and then each request in turn takes the jack
it likes best that leaves everybody as well served. The method is cheapest augmenting paths in a bipartite graph (C. Berge, "Two theorems in
graph theory", 1957; R. G. Busacker and P. J. Gowen, "A procedure for determining a family of minimal-cost network flow patterns", 1960).
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple


class Wanted(NamedTuple):
    """One request. `key` sorts requests; `best` and `also` share no jack."""

    key: tuple[str, int]
    best: tuple[str, ...]
    also: tuple[str, ...]


def assign(requests: Sequence[Wanted]) -> dict[tuple[str, int], str]:
    """Request key to jack, for as many requests as can be served. The order of `requests` does not matter."""
    ordered = sorted(requests)
    matching = _Matching(ordered)
    for index in range(len(ordered)):
        matching.serve(index)
    # Whoever found nothing that suits fully now takes the arrangement that costs the others least.
    while matching.serve_cheapest():
        pass
    matching.settle()
    return {ordered[index].key: jack for index, jack in matching.jack_of.items()}


_BEST = 0
_ALL = 1


class _Matching:
    def __init__(self, requests: Sequence[Wanted]) -> None:
        self._lists = tuple((each.best, each.best + each.also) for each in requests)
        self._best = tuple(frozenset(each.best) for each in requests)
        self.jack_of: dict[int, str] = {}
        self._holder: dict[str, int] = {}

    def serve(self, index: int) -> bool:
        """Give a request a jack that suits it fully, moving others along an augmenting path among what suits them fully."""
        return self._augment(index, _BEST, _BEST, set())

    def serve_cheapest(self) -> bool:
        """One more request served, over the augmenting path after which the fewest are served by a jack that only does in need."""
        unserved = [index for index in range(len(self._lists)) if index not in self.jack_of]
        cost = dict.fromkeys(unserved, 0)
        came: dict[int, tuple[int, str]] = {}
        found: tuple[int, int, str] | None = None
        waiting = list(unserved)
        for index in waiting:
            for jack in self._lists[index][_ALL]:
                price = cost[index] + self._need(index, jack)
                holder = self._holder.get(jack)
                if holder is None:
                    if found is None or price < found[0]:
                        found = (price, index, jack)
                elif holder != index and price - self._need(holder, jack) < cost.get(
                    holder, len(self._lists) + 1
                ):
                    # The graph of a cheapest matching has no cycle that costs less than nothing, so this ends.
                    cost[holder] = price - self._need(holder, jack)
                    came[holder] = (index, jack)
                    waiting.append(holder)
        if found is None:
            return False
        _, index, jack = found
        while True:
            before = self.jack_of.get(index)
            self.jack_of[index] = jack
            self._holder[jack] = index
            if index not in came or before is None:
                return True
            index, jack = came[index]

    def _need(self, index: int, jack: str) -> int:
        return 0 if jack in self._best[index] else 1

    def _augment(self, index: int, own: int, others: int, seen: set[str]) -> bool:
        """Depth first, with a stack of its own: a path can be as long as there are requests."""
        free = self._free(index, own)
        if free is not None:
            self._give(index, free)
            return True
        path: list[tuple[int, Iterator[str]]] = [(index, iter(self._lists[index][own]))]
        wanted: list[str] = []  # what each request on the path would take from the next one
        while path:
            jack = next((each for each in path[-1][1] if each not in seen), None)
            if jack is None:
                path.pop()
                del wanted[-1:]
                continue
            seen.add(jack)
            holder = self._holder[jack]
            if holder == path[-1][0]:
                continue
            path.append((holder, iter(self._lists[holder][others])))
            wanted.append(jack)
            free = self._free(holder, others)
            if free is not None:
                for (request, _), taken in zip(reversed(path), (free, *reversed(wanted)), strict=True):
                    self._give(request, taken)
                return True
        return False

    def _free(self, index: int, which: int) -> str | None:
        return next((jack for jack in self._lists[index][which] if jack not in self._holder), None)

    def _give(self, index: int, jack: str) -> None:
        old = self.jack_of.get(index)
        if old is not None and self._holder.get(old) == index:
            del self._holder[old]
        self.jack_of[index] = jack
        self._holder[jack] = index

    def settle(self) -> None:
        """In order of keys, each request takes the jack it likes best that leaves everybody as well served as before."""
        fixed: set[str] = set()
        for index in sorted(self.jack_of):
            current = self.jack_of[index]
            # Who is fully served chooses among what serves it fully; who is not may not worsen the others either.
            candidates = self._lists[index][_BEST if current in self._best[index] else _ALL]
            for jack in candidates:
                if jack == current:
                    break
                if jack in fixed:
                    continue
                if self._take(index, jack, current, fixed):
                    break
            fixed.add(self.jack_of[index])

    def _take(self, index: int, jack: str, current: str, fixed: set[str]) -> bool:
        holder = self._holder.get(jack)
        if holder is None:
            self._give(index, jack)
            return True
        # The holder must find another jack of the same worth to it, while nobody who has chosen moves.
        worth = _BEST if jack in self._best[holder] else _ALL
        self._give(index, jack)
        del self.jack_of[holder]
        blocked = fixed | {jack}
        if self._augment(holder, worth, _BEST, set(blocked)):
            return True
        self._give(holder, jack)
        self.jack_of[index] = current
        self._holder[current] = index
        return False
