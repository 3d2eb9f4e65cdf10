"""In which order one would like to do things where it makes no difference to anybody: by phase, then by trade, then by room.

Takes bundles and both sides; gives a key for what is done in one go. Building work, pulling, fitting, putting in, settings, runs, cords; of
what may disconnect somebody the order stays as it was found.
"""

from collections.abc import Sequence
from enum import IntEnum

from firstfix.build import ids
from firstfix.build.ids import NaturalKey
from firstfix.build.phases import ranks
from firstfix.changeover.bundles import Bundle
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import Side
from firstfix.changeover.ways import phase_of
from firstfix.parts.part import TERMINATION_KINDS


class Trade(IntEnum):
    BUILDING = 0
    PULLING = 1
    FITTING = 2
    PUTTING_IN = 3
    SETTING = 4
    CONNECTING = 5
    PLUGGING = 6
    TURNING = 7


_TRADES = {
    Kind.PREPARE: Trade.BUILDING,
    Kind.HANG: Trade.BUILDING,
    Kind.FIT_IN: Trade.BUILDING,
    Kind.OPEN: Trade.PULLING,
    Kind.PULL: Trade.PULLING,
    Kind.CLOSE: Trade.PULLING,
    Kind.PUT_IN: Trade.PUTTING_IN,
    Kind.RULES: Trade.SETTING,
    Kind.READY: Trade.SETTING,
    Kind.NEW_NET: Trade.SETTING,
    Kind.WIDEN: Trade.SETTING,
    Kind.JOIN: Trade.CONNECTING,
    Kind.PLUG: Trade.PLUGGING,
}
# By room: within it the steps are one after the other.
_BY_PLACE = (Trade.BUILDING, Trade.PULLING, Trade.FITTING, Trade.PUTTING_IN, Trade.CONNECTING, Trade.PLUGGING)
# What only takes away comes when nothing else is left.
_TAKES_AWAY = frozenset(
    (Kind.UNPLUG, Kind.NARROW, Kind.OLD_NET, Kind.CLEAR, Kind.TAKE_OUT, Kind.FIT_OUT, Kind.TAKE_DOWN)
)

Key = tuple[int, int, tuple[NaturalKey, ...], int, int]


class Preference:
    def __init__(self, old: Side, new: Side, bundles: Sequence[Bundle]) -> None:
        self._sides, self._new, self._bundles = (new, old), new, bundles
        self._rank = ranks(new.build.phases)
        self._setups = _phases_at(new)
        self._phases = self._all_phases()

    def key(self, does: int, position: int) -> Key:
        """Of bundles done in one go. `position`: where they stand now, which decides between equals."""
        at = [bit for bit in range(does.bit_length()) if does >> bit & 1]
        jobs = [job for bit in at for job in self._bundles[bit].jobs]
        trade = max(map(self._trade, jobs))
        place = self._place(jobs[0], trade) if trade in _BY_PLACE else ()
        kind = min(jobs[0].kind, Kind.PULL) if trade is Trade.PULLING else 0
        return (min(self._phases[bit] for bit in at), trade, place, kind, position)

    def phase(self, does: int) -> str:
        """The name of the phase, or "" where it is before all of them."""
        rank = min(self._phases[bit] for bit in range(does.bit_length()) if does >> bit & 1)
        return next((name for name, place in self._rank.items() if place == rank), "")

    def _trade(self, job: Job) -> Trade:
        if job.kind is Kind.PUT_IN and self._new.devices[job.subject].part.kind in TERMINATION_KINDS:
            return Trade.FITTING
        return _TRADES.get(job.kind, Trade.TURNING)

    # Where

    def _place(self, job: Job, trade: Trade) -> tuple[NaturalKey, ...]:
        """Of what is pulled the ways, so that each is open for as short as can be; of all else the rooms."""
        if job.kind is Kind.CLOSE:
            return ()
        if trade is Trade.PULLING:
            ways = self._new.laid[job.subject].piece.route if job.kind is Kind.PULL else (job.subject,)
            return tuple(sorted(map(ids.natural, ways)))
        rooms = {self._room(device_of(end)) for end in job.ends} if job.ends else {self._room(job.subject)}
        return tuple(sorted(map(ids.natural, rooms)))

    def _room(self, subject: str) -> str:
        for side in self._sides:
            if subject in side.places:
                return side.places[subject][0]
            if subject in side.build.cabinets:
                return side.build.cabinets[subject].room
        way = self._new.build.ways.get(subject)
        return way.ends[0] if way is not None else ""

    # When

    def _all_phases(self) -> list[int]:
        """What belongs to no phase itself is done when something waits for it first, or else after what it waits for."""
        count = len(self._bundles)
        if len(self._rank) == 1:
            return [0] * count
        said = [self._said(bundle) for bundle in self._bundles]
        for bit, rank in enumerate(list(said)):
            if rank is None:
                waiting = (each for at, each in enumerate(said) if self._bundles[at].needs >> bit & 1)
                said[bit] = min((each for each in waiting if each is not None), default=None)
        found = []
        for bundle, rank in zip(self._bundles, said, strict=True):
            before = [each for at, each in enumerate(said) if bundle.needs >> at & 1 and each is not None]
            found.append(rank if rank is not None else max(before, default=self._else(bundle)))
        return found

    def _else(self, bundle: Bundle) -> int:
        return max(self._rank.values()) if bundle.jobs[0].kind in _TAKES_AWAY else 0

    def _said(self, bundle: Bundle) -> int | None:
        names = [name for job in bundle.jobs if (name := self._of_job(job)) is not None]
        return max((self._rank.get(name, 0) for name in names), default=None)

    def _of_job(self, job: Job) -> str | None:
        new, build = self._new, self._new.build
        if job.kind in (Kind.PREPARE, Kind.OPEN, Kind.CLOSE):
            return job.phase
        if job.kind in (Kind.PULL, Kind.JOIN, Kind.PLUG):
            return phase_of(new, new.laid[job.subject])
        if job.kind is Kind.PUT_IN:
            return new.devices[job.subject].phase
        if job.kind is Kind.HANG:
            return build.cabinets[job.subject].phase
        if job.sets:
            known = [self._setups[jack] for jack, _ in job.sets if jack in self._setups]
            return min(known, key=lambda name: self._rank.get(name, 0), default=None)
        return None


def _phases_at(new: Side) -> dict[str, str]:
    """Jack to the phase in which it is plugged into."""
    if not new.build.phases:
        return {}
    return {end: phase_of(new, laid) for laid in new.laid.values() for end in laid.ends}
