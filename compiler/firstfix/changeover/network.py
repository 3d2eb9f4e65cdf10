"""The network at any point of a changeover: who is served, what can be managed, which rule is broken. Each state is looked at once."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.changeover.bundles import Bundle
from firstfix.changeover.job import Kind
from firstfix.changeover.limits import Limited, exceeded, loads, uncut_loops
from firstfix.changeover.sides import Side
from firstfix.changeover.union import Union
from firstfix.changeover.view import View


class Look(NamedTuple):
    """`served`: devices that have power and reach what they need; `managed`: those that can be set from the station; both as bits in
    the order of Network.devices. `broken`: rules that are broken, each (kind, what)."""

    served: int
    managed: int
    broken: tuple[Limited, ...] = ()


_NOTHING: frozenset[str] = frozenset()
# Done early, such a thing is there and nothing more: what makes use of it waits for it anyway.
_ADDING = frozenset((Kind.PREPARE, Kind.OPEN, Kind.CLOSE, Kind.HANG, Kind.FIT_IN, Kind.PULL, Kind.PUT_IN))


def _unseen(bundles: Sequence[Bundle]) -> int:
    """The bundles that make no difference to any look, as bits: states that differ by them alone are one."""
    return sum(
        1 << bit
        for bit, each in enumerate(bundles)
        if all(job.inert and job.kind in _ADDING for job in each.jobs)
    )


class Network:
    """Of two sides, the bundles between them, and the device by which the operator sits."""

    def __init__(self, old: Side, new: Side, bundles: Sequence[Bundle], station: str) -> None:
        self.union = Union(old, new, bundles, station)
        self.devices, self.all_done = self.union.devices, self.union.all_done
        self.unseen = _unseen(bundles)
        self._at = {device: 1 << at for at, device in enumerate(self.devices)}
        self._seen: dict[tuple[int, frozenset[str]], Look] = {}
        self._exceeded: dict[int, list[Limited]] = {}
        ends = [self.view(done) for done in (0, self.all_done)]
        # What the old or the new plan breaks itself is no fault of the way; rules say so elsewhere.
        self._excused = frozenset(edge for view in ends for _, edges in uncut_loops(view) for edge in edges)
        self._allowed: dict[Limited, float] = {}
        for view in ends:
            for key, load in loads(view).items():
                self._allowed[key] = max(load, self._allowed.get(key, 0.0))

    def look(self, done: int, off: frozenset[str] = _NOTHING) -> Look:
        """Exactly these bundles are done, and these devices and cords are off or in somebody's hands."""
        done |= self.unseen
        found = self._seen.get((done, off))
        if found is None:
            view = self.view(done, off)
            found = self._seen[done, off] = self._seen_at(view, () if off else self._broken(view, done))
        return found

    def at_best(self, least: int, most: int, off: frozenset[str] = _NOTHING) -> Look:
        """Those of `least` are done, those outside `most` are not, and of the others whatever is best for each device."""
        return self._seen_at(View(self.union, least, most, off), ())

    def view(self, done: int, off: frozenset[str] = _NOTHING) -> View:
        return View(self.union, done, done, off)

    def _seen_at(self, view: View, broken: tuple[Limited, ...]) -> Look:
        served, managed = view.outcome()
        return Look(self.bits(served), self.bits(managed), broken)

    def _broken(self, view: View, done: int) -> tuple[Limited, ...]:
        rings = [
            ("loop", devices) for devices, edges in uncut_loops(view) if not self._excused.issuperset(edges)
        ]
        return tuple(sorted([*self._over(view, done & self.union.bears_load), *rings]))

    def _over(self, view: View, bearing: int) -> list[Limited]:
        known = self._exceeded.get(bearing)
        if known is None:
            known = self._exceeded[bearing] = exceeded(view, self._allowed)
        return known

    def bits(self, devices: frozenset[str]) -> int:
        return sum(self._at[device] for device in devices)

    def bit(self, device: str) -> int:
        return self._at[device]

    def names_of(self, devices: int) -> tuple[str, ...]:
        return tuple(device for device, bit in self._at.items() if devices & bit)
