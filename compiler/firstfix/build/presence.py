"""Which things of a build are live: all of them, or all but some. A phase or a pulled link is a presence, never a copy."""

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Presence:
    """Ids that are absent. Whatever hangs on an absent thing (a channel on its piece, a jack on its device) is absent too."""

    absent: frozenset[str] = frozenset()

    def has(self, *ids: str) -> bool:
        """Whether all of `ids` are live."""
        return self.absent.isdisjoint(ids) if self.absent else True

    def without(self, ids: Iterable[str]) -> "Presence":
        return Presence(self.absent | frozenset(ids))


EVERYTHING = Presence()
