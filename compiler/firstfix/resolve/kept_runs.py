"""Which kept run is which run of the plan: a run is found again when it is moved, pinned, or gets another panel on its way.

The closest likeness is looked for first: the same ends, places and sayings; then less and less of that, down to the same two devices.
"""

import hashlib
from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from typing import NamedTuple

from firstfix.allocations.choices import KeptRun, KeptStop
from firstfix.parts.numbering import jack_names
from firstfix.plan.model import LinkSpec

# Of kept runs that are alike, how many are tried for one run; only runs that differ in nothing but their jacks are alike.
_MOST_TRIED = 64
_SAYS_NOTHING = (1, "", (), None, None, "", "", None)


class Named(NamedTuple):
    """A run of the plan before it has its number: `base` is the link id without one, `hops` what it touches, in the one way round."""

    base: str
    hops: tuple[str, ...]
    spec: LinkSpec


def says(spec: LinkSpec) -> str:
    """A digest of what a link says beside its run, by which links over the same places are told apart; "" for nothing.

    What says nothing about the wiring, or comes from elsewhere (phase, colour, what is there already, a known length), has no part in it.
    """
    said = (
        spec.lanes,
        spec.spare_for,
        spec.along,
        spec.tagged,
        spec.untagged,
        spec.cable,
        spec.cord,
        spec.rate,
    )
    return "" if said == _SAYS_NOTHING else hashlib.sha256(repr(said).encode()).hexdigest()[:8]


def match_runs(named: Sequence[Named], runs: Iterable[KeptRun]) -> dict[int, KeptRun]:
    """Index in `named` to its kept run. Each kept run goes to one run at the most; who comes first in `named` chooses first."""
    waiting = dict.fromkeys(sorted(runs, key=lambda run: (_base_and_number(run.run), run.stops, run.says)))
    open_ = {
        index: _Likeness(each.base, tuple([hop.device for hop in each.spec.hops]), says(each.spec))
        for index, each in enumerate(named)
    }
    likenesses = {
        run: _Likeness(_base_and_number(run.run)[0], tuple([stop.device for stop in run.stops]), run.says)
        for run in waiting
    }
    found: dict[int, KeptRun] = {}
    for tier in range(_TIERS):
        alike: defaultdict[Hashable, dict[KeptRun, None]] = defaultdict(dict)
        for run in waiting:
            alike[likenesses[run].at(tier)][run] = None
        if not alike:
            break
        for index in list(open_):
            candidates = alike.get(open_[index].at(tier), {})
            fitting = _first_fitting(candidates, named[index].spec, tier)
            if fitting is not None:
                found[index] = fitting
                del open_[index], waiting[fitting], candidates[fitting]
    return found


_TIERS = 5


class _Likeness(NamedTuple):
    base: str
    devices: tuple[str, ...]
    says: str

    def at(self, tier: int) -> Hashable:
        """What must be equal, less with each tier."""
        devices = min(self.devices, self.devices[::-1])
        if tier == 0:
            return self.base, devices, self.says
        if tier == 1:
            return devices, self.says
        if tier in (2, 3):
            return devices
        return tuple(sorted((devices[0], devices[-1])))


def _first_fitting(candidates: Iterable[KeptRun], spec: LinkSpec, tier: int) -> KeptRun | None:
    for tried, run in enumerate(candidates):
        if tried >= _MOST_TRIED:
            return None
        if tier > 2 or _agrees(run, spec):
            return run
    return None


def _agrees(run: KeptRun, spec: LinkSpec) -> bool:
    """Whether each jack that the plan asks for is, or may be, the one that was kept."""
    for hop, stop in zip(spec.hops, _turned(run, spec), strict=True):
        asked = jack_names(hop.jacks) if hop.jacks else None
        if asked is not None and stop.jacks and stop.jacks[0] not in asked:
            return False
    return True


def _turned(run: KeptRun, spec: LinkSpec) -> tuple[KeptStop, ...]:
    """The kept places in the order in which the plan writes the run; where both ends are one device, as they stand."""
    devices = tuple([hop.device for hop in spec.hops])
    if tuple([stop.device for stop in run.stops]) == devices:
        return run.stops
    return run.stops[::-1]


class KeptJacks(NamedTuple):
    """What is kept of one run, and its jacks place by place, in the order in which the plan writes the run; () where none is kept."""

    run: KeptRun
    along: tuple[tuple[str, ...], ...]


def jacks_along(run: KeptRun, spec: LinkSpec, hops: tuple[str, ...]) -> KeptJacks:
    """`hops` is the run in its one way round, in which the choices are kept."""
    return KeptJacks(run, _along(run, spec, hops))


def _along(run: KeptRun, spec: LinkSpec, hops: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    devices = [hop.device for hop in spec.hops]
    kept = [stop.device for stop in run.stops]
    if kept not in (devices, devices[::-1]):
        known = {stop.device: stop.jacks for stop in run.stops[::-1]}
        return tuple([known.get(device, ()) for device in devices])
    written = tuple([hop.shown for hop in spec.hops])
    if written == hops if devices == devices[::-1] else kept == devices:
        return tuple([stop.jacks for stop in run.stops])
    return tuple([_seen_from_behind(stop.jacks, spec.lanes) for stop in run.stops[::-1]])


def _seen_from_behind(jacks: tuple[str, ...], lanes: int) -> tuple[str, ...]:
    """Where each lane has two jacks of its own, they change places."""
    if len(jacks) != 2 * lanes:
        return jacks
    return tuple([jacks[index ^ 1] for index in range(len(jacks))])


def _base_and_number(run: str) -> tuple[str, int]:
    """`core--desk#2` in its two parts; a number that nobody would write counts as none."""
    base, _, number = run.partition("#")
    return base, int(number) if number.isascii() and number.isdigit() and len(number) < 7 else 1


def number_of(run: KeptRun) -> tuple[str, int]:
    """The link id without its number, and the number."""
    base, number = _base_and_number(run.run)
    return f"link:{base}", number
