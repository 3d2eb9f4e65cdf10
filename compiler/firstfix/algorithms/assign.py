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


_Jacks = tuple[str, ...]

_BEST = 0
_ALL = 1
# Jacks looked at in giving each request the jack it likes best. A thousand runs that ask a thousand-jack switch for ranges of its jacks
# in spite of one another would take minutes; past the limit the rest keep what they have, and everybody is as well served as before.
_MOST_LOOKED_AT = 2_000_000


class _Matching:
    def __init__(self, requests: Sequence[Wanted]) -> None:
        # Requests that share their lists, as thousands at one panel do, share what is made of them.
        known: dict[tuple[int, int], tuple[tuple[_Jacks, _Jacks], frozenset[str]]] = {}
        for each in requests:
            key = id(each.best), id(each.also)
            if key not in known:
                known[key] = (each.best, each.best + each.also), frozenset(each.best)
        self._lists = tuple(known[id(each.best), id(each.also)][0] for each in requests)
        self._best = tuple(known[id(each.best), id(each.also)][1] for each in requests)
        self.jack_of: dict[int, str] = {}
        self._holder: dict[str, int] = {}
        self._lost: set[str] = set()  # no path from any of these jacks leads to a free one, nor ever will
        self._passed: dict[int, int] = {}  # how many jacks at the beginning of a list are held
        self._looked_at = 0

    def serve(self, index: int) -> bool:
        """Give a request a jack that suits it fully, moving others along an augmenting path among what suits them fully."""
        seen = set(self._lost)
        if self._augment(index, _BEST, _BEST, seen):
            return True
        self._lost = seen
        return False

    def serve_cheapest(self) -> bool:
        """One more request served, over the augmenting path after which the fewest are served by a jack that only does in need."""
        unserved = [index for index in range(len(self._lists)) if index not in self.jack_of]
        cost = dict.fromkeys(unserved, 0)
        came: dict[int, tuple[int, str]] = {}
        found: tuple[int, int, str] | None = None
        waiting = list(unserved)
        tried: dict[int, int] = {}  # a list of jacks, and the least cost at which it was tried
        for index in waiting:
            same = id(self._lists[index])
            if tried.get(same, len(self._lists) + 1) <= cost[index]:
                continue
            tried[same] = cost[index]
            for jack in self._lists[index][_ALL]:
                price = cost[index] + self._need(index, jack)
                holder = self._holder.get(jack)
                if holder is None:
                    if found is None or price < found[0]:
                        found = (price, index, jack)
                    if price <= 1:
                        # As many as can be are fully served already, so no path costs less.
                        break
                elif holder != index and price - self._need(holder, jack) < cost.get(
                    holder, len(self._lists) + 1
                ):
                    # The graph of a cheapest matching has no cycle that costs less than nothing, so this ends.
                    cost[holder] = price - self._need(holder, jack)
                    came[holder] = (index, jack)
                    waiting.append(holder)
            if found is not None and found[0] <= 1:
                break
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
        # Whoever has the same list goes on in it where another stopped: what lies before has been seen.
        rests: dict[int, Iterator[str]] = {}
        path: list[tuple[int, Iterator[str]]] = [(index, self._rest(index, own, rests))]
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
            path.append((holder, self._rest(holder, others, rests)))
            wanted.append(jack)
            free = self._free(holder, others)
            if free is not None:
                for (request, _), taken in zip(reversed(path), (free, *reversed(wanted)), strict=True):
                    self._give(request, taken)
                return True
        return False

    def _rest(self, index: int, which: int, rests: dict[int, Iterator[str]]) -> Iterator[str]:
        jacks = self._lists[index][which]
        self._looked_at += len(jacks) if id(jacks) not in rests else 1
        return rests.setdefault(id(jacks), iter(jacks))

    def _free(self, index: int, which: int) -> str | None:
        jacks = self._lists[index][which]
        begin = self._passed.get(id(jacks), 0)
        for place in range(begin, len(jacks)):
            if jacks[place] not in self._holder:
                self._passed[id(jacks)] = place
                return jacks[place]
        self._passed[id(jacks)] = len(jacks)
        self._looked_at += len(jacks) - begin
        return None

    def _give(self, index: int, jack: str) -> None:
        old = self.jack_of.get(index)
        if old is not None and self._holder.get(old) == index:
            del self._holder[old]
        self.jack_of[index] = jack
        self._holder[jack] = index

    def settle(self) -> None:
        """In order of keys, each request takes the jack it likes best that leaves everybody as well served as before."""
        fixed: set[str] = set()
        self._looked_at = 0
        for index in sorted(self.jack_of):
            if self._looked_at > _MOST_LOOKED_AT:
                return
            current = self.jack_of[index]
            # Who is fully served chooses among what serves it fully; who is not may not worsen the others either.
            candidates = self._lists[index][_BEST if current in self._best[index] else _ALL]
            lost: set[str] = set()
            for jack in candidates:
                if jack == current or self._looked_at > _MOST_LOOKED_AT:
                    break
                if jack in fixed or (jack in lost and jack in self._best[self._holder[jack]]):
                    continue
                if self._take(index, jack, current, fixed, lost):
                    break
            fixed.add(self.jack_of[index])

    def _take(self, index: int, jack: str, current: str, fixed: set[str], lost: set[str]) -> bool:
        """Whether it could. If not, `lost` grows by the jacks whose holders, fully served by them, could not move either."""
        holder = self._holder.get(jack)
        self._passed.clear()  # for the current jack becomes free
        if holder is None:
            self._give(index, jack)
            return True
        # The holder must find another jack of the same worth to it, while nobody who has chosen moves.
        worth = _BEST if jack in self._best[holder] else _ALL
        self._give(index, jack)
        del self.jack_of[holder]
        seen = fixed | {jack}
        if self._augment(holder, worth, _BEST, seen):
            return True
        lost |= seen
        self._give(holder, jack)
        self.jack_of[index] = current
        self._holder[current] = index
        return False
