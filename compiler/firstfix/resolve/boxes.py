"""What comes in the boxes of things that are bought, and what of it is used up, so that nothing is bought twice."""

from collections import Counter

from firstfix.build.reasons import PLAN
from firstfix.parts.part import Library, Part
from firstfix.resolve.notes import Notes


class Boxes:
    """The contents of each opened box, by the id of what came in it."""

    def __init__(self) -> None:
        self._free: Counter[tuple[str, str]] = Counter()
        self._named: Counter[tuple[str, str]] = Counter()
        self._names: set[str] = set()

    def unpack(self, owner: str, part: Part) -> None:
        for name, count in part.in_box:
            self._free[owner, name] += count
            self._names.add(name)

    def missing(self, owner: str, name: str, count: int) -> int:
        """How many of `count` the box does not have; the others are taken from it."""
        # Most small parts come in nobody's box: that is seen at once.
        used = min(self._free.get((owner, name), 0), count) if name in self._names else 0
        if used:
            self._free[owner, name] -= used
        return count - used

    def has(self, owner: str, name: str, count: int) -> bool:
        """Whether all of `count` came in the box; if so they are taken from it, and are items of their own."""
        if name not in self._names or self._free.get((owner, name), 0) < count:
            return False
        self._free[owner, name] -= count
        self._named[owner, name] += count
        return True

    def rest(self, owner: str, part: Part) -> tuple[tuple[str, int], ...]:
        """What came in the box, but for what became items of their own."""
        if not self._named:
            return part.in_box
        rest = [(name, count - self._named.get((owner, name), 0)) for name, count in part.in_box]
        return tuple([each for each in rest if each[1]])


def check_contents(own_parts: Library, library: Library, notes: Notes) -> None:
    """What a plan's own parts say to be in their box, or to need, exists."""
    for part in own_parts.values():
        for key, contents in (("in-box", part.in_box), ("needs", part.needs)):
            for name, _ in contents:
                at = notes.provenance.written(PLAN, "parts", part.name, key, name)
                # What it has from the part that it is like was looked up there.
                if name not in library and at is not None:
                    notes.unknown_name(f"part:{part.name}", name, "part", library, at)
