"""Things of two builds paired by one key after the other, the surest first. What is paired once stays so."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Mapping
from typing import Generic, TypeVar

from firstfix.build.ids import natural
from firstfix.build.renames import renamed

_Thing = TypeVar("_Thing")


class Pairing(Generic[_Thing]):
    """`old` and `new`: id to thing. The order of ids decides between equals, so the outcome is the same each time."""

    def __init__(self, old: Mapping[str, _Thing], new: Mapping[str, _Thing]) -> None:
        self._old, self._new = dict(old), dict(new)
        self._pairs: dict[str, str] = {}

    def match(
        self,
        of_old: Callable[[_Thing], Hashable | None],
        of_new: Callable[[_Thing], Hashable | None],
        *,
        only_one: bool = False,
    ) -> None:
        """Pairs what has one key; a thing whose key is None is left. `only_one`: not where several on a side share it."""
        if not self._old or not self._new:
            return
        mine, others = _grouped(self._old, of_old), _grouped(self._new, of_new)
        for key, group in mine.items():
            other = others.get(key, [])
            if only_one and (len(group) > 1 or len(other) > 1):
                continue
            for was, now in zip(group, other, strict=False):
                self._pairs[was] = now
                del self._old[was], self._new[now]

    def match_each(self, key: Callable[[_Thing], Hashable | None], *, only_one: bool = False) -> None:
        """The same key on both sides."""
        self.match(key, key, only_one=only_one)

    def told(self, names: Mapping[str, str]) -> dict[str, str]:
        """Old id to new one, of the pairs that do not follow from `names`."""
        return {was: now for was, now in self._pairs.items() if renamed(was, names) != now}


def _grouped(
    things: Mapping[str, _Thing], key: Callable[[_Thing], Hashable | None]
) -> dict[Hashable, list[str]]:
    found: defaultdict[Hashable, list[str]] = defaultdict(list)
    for id_, thing in things.items():
        value = key(thing)
        if value is not None:
            found[value].append(id_)
    return {value: sorted(group, key=natural) for value, group in found.items()}
