"""One visit of a chain at a device, and what it asks of its jack for the sake of what lies beyond: family, side, power."""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.hardware import Device
from firstfix.parts.numbering import jack_names
from firstfix.parts.part import CAGE_FAMILIES, FIBRE_FAMILIES, TERMINATION_KINDS
from firstfix.resolve.chains import Chain, is_in_line

_CAGES = frozenset(CAGE_FAMILIES)
_FIBRES = frozenset(FIBRE_FAMILIES)
_LIGHT = _CAGES | _FIBRES


class Stop(NamedTuple):
    """One visit of a chain at a device: `sides` are 0, 1 or both; both where it passes through by one pair of jacks.

    `asked` is the jack or range of jacks as written, or ""; `kept` the jack that an earlier build chose, or "".
    """

    chain: Chain
    place: int
    sides: tuple[int, ...]
    lane: int
    device: Device
    asked: str
    kept: str

    @property
    def key(self) -> tuple[str, int]:
        return self.chain.id, self.place * 100 + self.sides[0] * 10 + self.lane


def stops_of(chain: Chain) -> list[Stop]:
    found: list[Stop] = []
    last = len(chain.devices) - 1
    for lane in range(1, chain.spec.lanes + 1):
        for index, (device, hop) in enumerate(zip(chain.devices, chain.spec.hops, strict=True)):
            if 0 < index < last and is_in_line(device):
                kept = _kept(chain, index, lane - 1)
                found.append(Stop(chain, index, (0, 1), lane, device, hop.jacks, kept))
                continue
            first = (lane - 1) * (1 + (0 < index < last))
            if index > 0:
                kept = _kept(chain, index, first) if chain.kept else ""
                found.append(Stop(chain, index, (0,), lane, device, hop.jacks, kept))
            if index < last:
                kept = _kept(chain, index, first + (index > 0)) if chain.kept else ""
                found.append(Stop(chain, index, (1,), lane, device, hop.jacks, kept))
    return found


def _kept(chain: Chain, place: int, which: int) -> str:
    if chain.kept is None:
        return ""
    jacks = chain.kept.along[place]
    return jacks[which] if which < len(jacks) else ""


def hop_kind(stop: Stop, side: int) -> str:
    return stop.chain.kinds[stop.place - 1 if side == 0 else stop.place]


def takes_poe(device: Device) -> bool:
    return device.part.takes_poe is not None


def _far_device(stop: Stop) -> Device | None:
    """The next thing along the chain that is not a panel or outlet, away from this stop."""
    return next(
        (each for each in _away(stop) if not is_in_line(each) or each.part.gives_poe is not None), None
    )


def _far_in_power(stop: Stop) -> Device | None:
    """As `_far_device`; a splitter ends the way of power too."""
    return next(
        (
            each
            for each in _away(stop)
            if not is_in_line(each) or each.part.gives_poe is not None or each.part.takes_poe is not None
        ),
        None,
    )


def _away(stop: Stop) -> Iterator[Device]:
    """What follows along the chain, away from this stop."""
    devices = stop.chain.devices
    yield from devices[stop.place + 1 :] if stop.sides[0] == 1 else reversed(devices[: stop.place])


def side_of(stop: Stop) -> str:
    """On which side a run lies: outside where it leads to the provider's box and both of its ends have a jack for that."""
    far = _far_device(stop)
    ends = [stop.device.part] if far is None else [stop.device.part, far.part]
    to_provider = any(
        part.routes is False and any(spec.side == "outside" for spec in part.jacks) for part in ends
    )
    if to_provider and any(spec.side == "outside" for spec in stop.device.part.jacks):
        return "outside"
    return "inside"


def power_wish(stop: Stop) -> frozenset[str] | None:
    """The jacks that suit a stop for power's sake: those that give, where a device is fed over this chain, or those that take.

    Between two devices that could each feed the other, the one that the run names first is fed: runs are written towards the core.
    """
    far = _far_in_power(stop)
    part = stop.device.part
    if far is None or len(stop.sides) == 2:
        return None
    gives, takes = part.gives_poe, part.takes_poe
    may_feed = gives is not None and far.part.takes_poe is not None and not _prefers_mains(far)
    may_be_fed = takes is not None and far.part.gives_poe is not None
    if takes is not None and may_be_fed and (not may_feed or stop.sides[0] == 1):
        return frozenset(takes.jacks)
    if gives is not None and may_feed:
        return frozenset(gives.jacks)
    return None


def _prefers_mains(device: Device) -> bool:
    return device.part.mains.inlet != ""


def families_beyond(stop: Stop) -> frozenset[str]:
    """Families of a jack here that can meet those of the neighbours along the chain; a written jack pins its family."""
    found: frozenset[str] | None = None
    for side in stop.sides:
        there = _families_at(stop, stop.place + (1 if side else -1))
        some = _meeting(there, hop_kind(stop, side))
        found = some if found is None else found & some
    return frozenset() if found is None else _of_one_medium(stop, found)


def _families_at(stop: Stop, index: int) -> frozenset[str]:
    part = stop.chain.devices[index].part
    asked = frozenset(jack_names(stop.chain.spec.hops[index].jacks) or ())
    named = frozenset(spec.family for spec in part.jacks if spec.name in asked) if asked else asked
    # A jack that doesn't exist is reported where it is written; it pins nothing here.
    return named or frozenset(spec.family for spec in part.jacks)


def _meeting(families: frozenset[str], kind: str) -> frozenset[str]:
    """What a cord, or an installed run, can join to one of these.

    A module in a cage takes plugs of fibre, and a cord of twinax joins two cages. The two ends of an installed run are made off
    each for itself, so either may have any jack for fibre.
    """
    found = families
    if families & _CAGES:
        found |= _LIGHT
    if families & _FIBRES:
        found |= _LIGHT if kind == RUN else _CAGES
    return found


def _of_one_medium(stop: Stop, families: frozenset[str]) -> frozenset[str]:
    """Less what the rest of the chain, as far as the next thing that isn't a panel or outlet, has no jacks for: copper or light."""
    mine = {spec.family for spec in stop.device.part.jacks if spec.family in families}
    if mine <= _LIGHT or not mine & _LIGHT:
        return families
    for side in stop.sides:
        step = 1 if side else -1
        index = stop.place + step
        while (
            stop.chain.devices[index].part.kind in TERMINATION_KINDS
            and 0 < index < len(stop.chain.devices) - 1
        ):
            index += step
            there = _families_at(stop, index)
            if there <= _LIGHT:
                families &= _LIGHT
            elif not there & _LIGHT:
                families -= _LIGHT
    return families
