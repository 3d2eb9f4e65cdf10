"""The ways that new runs pass: made ready or opened again before they are pulled, closed and sealed after.

A way in which a run lies already has been closed behind it: its seals come out for each phase that pulls more through it.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.build.places import Way
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.minutes import Minutes
from firstfix.changeover.replugging import replugged
from firstfix.changeover.sides import Laid, Side
from firstfix.work.preparing import DIRECT_BURIAL, WITH_LIDS


class Passage(NamedTuple):
    """A way in one phase, and the runs pulled through it then. `opening`: the job that they wait for, or None where it is open."""

    way: Way
    phase: str
    opening: Kind | None
    pulled: tuple[str, ...]

    def job_id(self, kind: Kind) -> str:
        return Job(kind, self.way.id, 0, phase=self.phase).id


def phase_of(side: Side, laid: Laid) -> str:
    """A piece comes with its link, or with the last of the devices at its ends and the ways that it lies in."""
    build, piece = side.build, laid.piece
    devices = [build.devices[build.jacks[end].device].phase for end in piece.ends]
    ways = [build.ways[way].phase for way in piece.route]
    return max(build.links[piece.link].phase, *devices, *ways, key=PhaseKey(build.phases))


def passages(old: Side, new: Side) -> Iterator[Passage]:
    """Of each way, phase by phase."""
    lies = {ids_of for laid in old.laid.values() if not laid.is_cord for ids_of in _route(old, laid)}
    through: dict[str, dict[str, list[str]]] = {}
    for key in sorted(new.laid.keys() - old.laid.keys() - replugged(old, new).keys()):
        laid = new.laid[key]
        for way in laid.piece.route if not laid.is_cord else ():
            through.setdefault(way, {}).setdefault(phase_of(new, laid), []).append(key)
    in_order = PhaseKey(new.build.phases)
    for id_, by_phase in sorted(through.items()):
        passed = new.build.ways[id_]
        opening = Kind.OPEN if id_ in lies else None if passed.is_owned else Kind.PREPARE
        for phase in sorted(by_phase, key=in_order):
            yield Passage(passed, phase, opening, tuple(by_phase[phase]))
            opening = Kind.OPEN


def _route(side: Side, laid: Laid) -> list[str]:
    return [side.names.get(way, way) for way in laid.piece.route]


def way_jobs(old: Side, new: Side, minutes: Minutes) -> Iterator[Job]:
    before: frozenset[str] = frozenset()
    at = ""
    for each in passages(old, new):
        if each.way.id != at:
            at, before = each.way.id, frozenset()
        if each.opening is not None:
            took = (
                minutes.way_made(each.way) if each.opening is Kind.PREPARE else minutes.way_opened(each.way)
            )
            yield Job(each.opening, at, took, after=before, inert=True, phase=each.phase)
        pulls = frozenset(Job(Kind.PULL, key, 0).id for key in each.pulled)
        closing = Job(Kind.CLOSE, at, minutes.way_closed(each.way), after=pulls, inert=True, phase=each.phase)
        yield closing
        before = frozenset({closing.id})


def openings(old: Side, new: Side) -> Iterator[tuple[str, str]]:
    """(the job that opens a way, the job that pulls a run through it)"""
    for each in passages(old, new):
        if each.opening is not None:
            yield from ((each.job_id(each.opening), Job(Kind.PULL, key, 0).id) for key in each.pulled)


def opening_words(build: Build, way: Way) -> str:
    """What it is to open a way of this kind that was closed behind other runs."""
    if way.kind == DIRECT_BURIAL:
        return "dug open by hand, for cables lie in it, the seals of the holes into the buildings taken out"
    if way.exposure == "buried":
        return "the seals at both ends taken out, a draw cord right through"
    lids = "lids off, " if way.kind in WITH_LIDS else ""
    seal = "a gland let go or the seal" if leads_out(build, way) else "the fire stop or seal"
    return f"{lids}{seal} taken out where the new run passes a wall or floor"


def leads_out(build: Build, way: Way) -> bool:
    return way.exposure == "outdoor" or any(build.rooms[room].is_outdoors for room in way.ends)
