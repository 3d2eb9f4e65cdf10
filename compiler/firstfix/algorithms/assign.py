"""Who gets which jack: an assignment, never first-free, so that no plan is refused although an arrangement exists.

Each request lists the jacks that suit it fully (`best`) and those that would do in need (`also`), each in order of liking.
As many requests as possible are served; among those arrangements, as many as the method finds are served fully; and then each request in
turn takes the jack it likes best that leaves everybody served. The method is augmenting paths in a bipartite graph
(H. W. Kuhn, "The Hungarian method for the assignment problem", 1955; C. Berge, "Two theorems in graph theory", 1957).
"""

from collections.abc import Sequence
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
    unserved = [index for index in range(len(ordered)) if not matching.serve(index, _BEST, _BEST)]
    unserved = [index for index in unserved if not matching.serve(index, _ALL, _BEST)]
    for index in unserved:
        matching.serve(index, _ALL, _ALL)
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

    def serve(self, index: int, own: int, others: int) -> bool:
        """Give request `index` a jack, moving others along an augmenting path where needed.

        `own` and `others` say which of the two lists the newcomer and those who move may choose from.
        """
        return self._augment(index, own, others, set())

    def _augment(self, index: int, own: int, others: int, seen: set[str]) -> bool:
        candidates = self._lists[index][own]
        for jack in candidates:
            if jack not in self._holder:
                self._give(index, jack)
                return True
        for jack in candidates:
            if jack in seen:
                continue
            seen.add(jack)
            holder = self._holder[jack]
            if holder != index and self._augment(holder, others, others, seen):
                self._give(index, jack)
                return True
        return False

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
