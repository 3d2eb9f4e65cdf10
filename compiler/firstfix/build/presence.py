"""Which things of a build are live: all of them, or all but some. A phase or a pulled link is a presence, never a copy."""

from collections.abc import Iterable, Iterator, Set
from dataclasses import dataclass

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.build.power import PowerRun


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
    return closed(build, Presence(frozenset(_of_phases(build, later)))) if later else EVERYTHING


def _of_phases(build: Build, phases: Set[str]) -> Iterator[str]:
    things = (build.devices, build.cabinets, build.fittings, build.ways, build.links)
    yield from (id_ for each in things for id_, thing in each.items() if thing.phase in phases)
    yield from (item.id for item in build.items if item.phase in phases)
    yield from (step.id for step in build.working.own if step.phase in phases)


def closed(build: Build, presence: Presence) -> Presence:
    """With all that hangs on what is absent: links on their devices, their cables and the ways that those lie in; channels on all
    of it, power on channels, items on what needs them. What stands in a cabinet does not hang on it, but it then stands in the room.
    """
    if not presence.absent:
        return presence
    absent = set(presence.absent)
    absent |= {each.id for each in build.fittings.values() if each.cabinet in absent}
    absent |= {jack.id for jack in build.jacks.values() if jack.device in absent}
    absent |= {link.id for link in build.links.values() if not absent.isdisjoint(link.hops)}
    lost = {piece.link for piece in build.pieces.values() if _is_lost(piece, absent)}
    absent |= lost
    absent |= {piece.id for piece in build.pieces.values() if piece.link in absent}
    absent |= {
        channel.id
        for channel in build.channels.values()
        if channel.link in absent or not absent.isdisjoint((*channel.pieces, *channel.through, *channel.ends))
    }
    absent |= {run.id for run in build.power_runs.values() if _is_dark(run, absent)}
    absent |= {item.id for item in build.items if item.for_id in absent}
    return Presence(frozenset(absent))


def _is_lost(piece: Piece, absent: Set[str]) -> bool:
    return piece.id in absent or not absent.isdisjoint((*piece.route, *piece.ends))


def _is_dark(run: PowerRun, absent: Set[str]) -> bool:
    return not absent.isdisjoint((run.channel, run.source, run.sink, *run.pieces)) or run.feeds in absent
