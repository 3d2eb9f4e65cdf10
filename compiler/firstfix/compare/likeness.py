"""What looks as if it were only called otherwise: same part and same runs, places and settings, under another name.

Takes the records of two builds and the names that are known to have changed; gives further old ids with their new ones. All of it is a
guess, and made only where nothing else on either side would do as well. Deterministic: what is alike in all is paired in natural order.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.renames import renamed
from firstfix.compare.values import IN_ORDER, Names, Record, without_name

NAMED_KINDS = frozenset(("site", "building", "room", "way", "cabinet", "device", "vlan", "wifi"))
# What a thing is. Two things that differ in this are never taken for one. The last two are enough by themselves.
_BEING = {
    "device": ("part",),
    "cabinet": ("part",),
    "room": ("floor", "outdoors"),
    "way": ("kind", "length"),
    "vlan": ("number",),
    "wifi": ("SSID",),
}
_TELLING = frozenset(("vlan", "wifi"))
_OWNER = {"jack": "device", "fitting": "cabinet", "units": "cabinet"}
# How far around a thing is looked at, the farthest first: the farther, the surer, and the sooner a change comes in between.
_DEPTHS = (4, 3, 2, 1)
# The share of what is around a thing that must have stayed. Our own choice: more stayed than changed.
_MOSTLY = 0.5

# Of more than so many alike that are new, none is compared one by one with what is gone: it would take too long.
_MOST_COMPARED = 500

_Label = tuple[str, ...]


class _Edge(NamedTuple):
    label: _Label
    to: str


class _Side:
    """One build: what is open (goes by a name that the other side lacks), what it is, and what is around it."""

    def __init__(self, records: Mapping[str, Record], is_open: Iterable[str]) -> None:
        self.open = sorted(is_open, key=ids.natural)
        self._being = {id_: _being(id_, record) for id_, record in records.items()}
        self.is_open = set(self.open)
        self.around: defaultdict[str, list[_Edge]] = defaultdict(list)
        for id_, record in records.items():
            for attribute, value in record.items():
                for node, edge in _edges(id_, attribute, value):
                    if node in self.is_open:
                        self.around[node].append(edge)

    def close(self, found: set[str]) -> None:
        self.open = [each for each in self.open if each not in found]
        self.is_open -= found

    def being(self, id_: str) -> _Label:
        return self._being.get(id_, (ids.kind(id_),))


def lookalikes(
    old: Mapping[str, Record], new: Mapping[str, Record], known: Mapping[str, str]
) -> dict[str, str]:
    """`known`: old id to new one, by `was:`; what is found beside those."""
    before, after = _named(old), _named(new)
    said = frozenset(known.values())
    lost = {id_ for id_ in before if id_ not in known and id_ not in after}
    fresh = {id_ for id_ in after if id_ not in said and id_ not in before}
    if not lost or not fresh:
        return {}
    search = _Search(_Side(old, lost), _Side(new, fresh), known)
    while search.goes_on():
        pass
    return dict(sorted(search.found.items()))


class _Search:
    def __init__(self, old: _Side, new: _Side, known: Mapping[str, str]) -> None:
        self._old, self._new, self._known = old, new, known
        self.found: dict[str, str] = {}

    def goes_on(self) -> bool:
        """Finds some more; False when nothing is left to find."""
        for depth in _DEPTHS:
            if self._take(self._alike(depth, only_one=True)):
                return True
        if self._take(self._telling()) or self._take(self._mostly_alike()):
            return True
        return self._take(self._alike(_DEPTHS[0], only_one=False))

    def _take(self, pairs: Iterable[tuple[str, str]]) -> bool:
        taken = list(pairs)
        self.found |= dict(taken)
        left, right = {was for was, _ in taken}, {now for _, now in taken}
        self._old.close(left)
        self._new.close(right)
        return bool(taken)

    def _alike(self, depth: int, *, only_one: bool) -> Iterator[tuple[str, str]]:
        """Those around which everything is alike; where several are, as many on both sides, the first class of them in order."""
        classes = self._classes(depth)
        for mine, others in classes:
            if len(mine) == len(others) == 1 or (not only_one and len(mine) == len(others)):
                yield from zip(mine, others, strict=True)
                if not only_one:
                    return

    def _classes(self, depth: int) -> list[tuple[list[str], list[str]]]:
        number: dict[object, int] = {}

        def numbered(key: object) -> int:
            return number.setdefault(key, len(number))

        old = {id_: numbered(self._old.being(id_)) for id_ in self._old.open}
        new = {id_: numbered(self._new.being(id_)) for id_ in self._new.open}
        for _ in range(depth):
            old, new = (
                {
                    id_: numbered((mine[id_], tuple(sorted((each.label, self._token(side, each.to, mine)) for each in side.around[id_]))))
                    for id_ in side.open
                }
                for side, mine in ((self._old, old), (self._new, new))
            )  # fmt: skip
        found: defaultdict[int, tuple[list[str], list[str]]] = defaultdict(lambda: ([], []))
        for place, mine in enumerate((old, new)):
            for id_, colour in mine.items():
                found[colour][place].append(id_)
        return [each for each in found.values() if all(each)]

    def _token(self, side: _Side, id_: str, colours: Mapping[str, int]) -> tuple[str, int]:
        """A neighbour: by its new name where that is known, else by what it is like so far."""
        if id_ in colours:
            return ("", colours[id_])
        return (self._called(id_) if side is self._old else id_, 0)

    def _called(self, id_: str) -> str:
        return self.found.get(id_) or renamed(id_, self._known)

    def _telling(self) -> Iterator[tuple[str, str]]:
        """Those that are the same by what they are, such as a VLAN by its number."""
        for mine, others in self._classes(0):
            if len(mine) == len(others) == 1 and ids.kind(mine[0]) in _TELLING:
                yield mine[0], others[0]

    def _mostly_alike(self) -> Iterator[tuple[str, str]]:
        """Pairs of which each is the other's best by far, with more that stayed than changed."""
        old = {id_: self._surroundings(self._old, id_) for id_ in self._old.open}
        new = {id_: self._surroundings(self._new, id_) for id_ in self._new.open}
        by_being: defaultdict[_Label, list[str]] = defaultdict(list)
        for id_ in new:
            by_being[self._new.being(id_)].append(id_)
        scores = {
            (was, now): _overlap(old[was], new[now]) for was in old for now in by_being[self._old.being(was)]
        }
        best_of_old, best_of_new = _best(scores, 0), _best(scores, 1)
        for was, now in sorted(scores):
            if best_of_old.get(was) == now and best_of_new.get(now) == was:
                yield was, now

    def _surroundings(self, side: _Side, id_: str) -> Counter[object]:
        """Each neighbour counts twice: with the jacks that join them, and without, since jacks may have been dealt out anew."""
        found: Counter[object] = Counter()
        for label, to in side.around[id_]:
            if to:
                token = self._likened(side, to)
                found[label, token] += 1
                found[label[0], token] += 1
        return found

    def _place(self, side: _Side, id_: str) -> object:
        """Where it stands: in another room, at other runs, it is another thing."""
        kind = ids.kind(id_)
        return [self._likened(side, to) for label, to in side.around[id_] if label[:2] == ("room", kind)]

    def _likened(self, side: _Side, id_: str) -> object:
        """A neighbour by its new name, or by what it is as long as that is not known."""
        if id_ in side.is_open:
            return side.being(id_)
        return self._called(id_) if side is self._old else id_


def _best(scores: Mapping[tuple[str, str], float], place: int) -> dict[str, str]:
    """The one with the highest score, where there is one and enough has stayed."""
    ranked: defaultdict[str, list[tuple[float, str]]] = defaultdict(list)
    for pair, score in scores.items():
        ranked[pair[place]].append((score, pair[1 - place]))
    found = {}
    for id_, each in ranked.items():
        each.sort(reverse=True)
        if each[0][0] > _MOSTLY and (len(each) == 1 or each[0][0] > each[1][0]):
            found[id_] = each[0][1]
    return found


def _overlap(one: Counter[object], other: Counter[object]) -> float:
    """Shared of all [0 to 1]."""
    whole = (one | other).total()
    return (one & other).total() / whole if whole else 0.0


def _named(records: Mapping[str, Record]) -> frozenset[str]:
    return frozenset(id_ for id_ in records if ids.kind(id_) in NAMED_KINDS)


def _being(id_: str, record: Record) -> _Label:
    kind = ids.kind(id_)
    return (kind, *(str(record.get(attribute, "")) for attribute in _BEING.get(kind, ())))


def _edges(id_: str, attribute: str, value: object) -> Iterator[tuple[str, _Edge]]:
    """A thing and one neighbour; a plain word is an edge to nowhere."""
    kind = ids.kind(id_)
    what = without_name(attribute)
    if not isinstance(value, Names):
        if kind in NAMED_KINDS or kind in _OWNER:
            node, own = _owner(id_)
            yield node, _Edge((what, kind, own, str(value)), "")
        return
    ends = [_owner(each) for each in value.ids]
    if kind not in ("link", "piece"):
        ends = [_owner(id_), *ends]
    order = value.order == IN_ORDER
    for place, (node, own) in enumerate(ends):
        for other_place, (other, of_other) in enumerate(ends):
            if place != other_place:
                turn = str(other_place - place) if order else ""
                yield node, _Edge((what, kind, own, of_other, value.after, turn), other)


def _owner(id_: str) -> tuple[str, str]:
    """The named thing to which an id belongs, and what of it."""
    kind, path = ids.kind(id_), ids.path(id_)
    owner = _OWNER.get(kind)
    if owner is None:
        return id_, ""
    name, _, rest = path.partition("/")
    return f"{owner}:{name}", rest
