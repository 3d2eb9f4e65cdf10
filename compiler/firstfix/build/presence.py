"""Which things of a build are live: all of them, or all but some. A phase or a pulled link is a presence, never a copy."""

from collections.abc import Iterable, Set
from dataclasses import dataclass

from firstfix.build.model import Build
from firstfix.build.phases import ranks


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


def as_of(build: Build, phase: str) -> Presence:
    """The build as it stands once `phase` is done: what comes in a later one is absent, and so is what hangs on it.

    "" is what is there before the first phase. Raises ValueError for a name that is no phase of the build.
    """
    rank = ranks(build.phases)
    if phase not in rank:
        raise ValueError(f"there is no phase {phase!r}; there are {', '.join(map(repr, rank))}")
    later = {name for name, place in rank.items() if place > rank[phase]}
    return Presence(frozenset(_absent(build, later))) if later else EVERYTHING


def _absent(build: Build, later: Set[str]) -> set[str]:
    things = (build.devices, build.cabinets, build.fittings, build.ways, build.links)
    absent = {id_ for each in things for id_, thing in each.items() if thing.phase in later}
    absent |= {
        piece.id
        for piece in build.pieces.values()
        if piece.link in absent or not absent.isdisjoint(piece.route)
    }
    absent |= {
        channel.id
        for channel in build.channels.values()
        if not absent.isdisjoint(channel.pieces) or not absent.isdisjoint(channel.through)
    }
    absent |= {run.id for run in build.power_runs.values() if not absent.isdisjoint(run.pieces)}
    absent |= {item.id for item in build.items if item.phase in later or item.for_id in absent}
    return absent
