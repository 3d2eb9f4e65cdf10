"""How each jack is set in the course of a changeover, and which VLANs get through between two of them.

VLANs are bits of a number here: which bit is which, `numbered` says.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from firstfix.changeover.bundles import Bundle
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import PLAIN, Setting, Side

# The provider's line, and the network without VLANs.
LINE_BIT, PLAIN_BIT = 1, 2


class End(NamedTuple):
    """One jack for the time being. `follows`: it knows no tags, and is in whatever the other end gives it untagged. `is_blind`: its
    bridge knows no VLANs, and passes all of them on."""

    setting: Setting | None
    is_blind: bool
    follows: bool


class Switchover(NamedTuple):
    """Values one after the other; `bits[i]` is the bundle that brings `values[i + 1]`."""

    values: tuple[End, ...]
    bits: tuple[int, ...]

    def allowed(self, least: int, most: int) -> tuple[int, ...]:
        """Which values it may have when all of `least` are done and nothing outside `most`."""
        bits = self.bits
        if not bits:
            return (0,)
        return tuple(
            at
            for at in range(len(self.values))
            if (at == 0 or most >> bits[at - 1] & 1) and (at == len(bits) or not least >> bits[at] & 1)
        )


def numbered(old: Side, new: Side) -> Mapping[int, int]:
    """VLAN's number to its bit."""
    vids = {vid for side in (old, new) for vlans in side.vlans.values() for vid in vlans}
    settings = [each for side in (old, new) for each in side.settings.values()]
    vids |= {vid for each in settings for vid in (each.untagged, *each.tagged)}
    return {PLAIN: PLAIN_BIT} | {vid: 4 << at for at, vid in enumerate(sorted(vids - {PLAIN}))}


def all_ends(
    old: Side, new: Side, bundles: Sequence[Bundle], swapped: Mapping[str, int]
) -> dict[str, Switchover]:
    """Of every jack at a lane. `swapped`: devices that become another part, and by which bundle."""
    turns: dict[str, list[tuple[int, Setting]]] = {}
    for bit, bundle in enumerate(bundles):
        for job in bundle.jobs:
            for jack, setting in job.sets:
                turns.setdefault(jack, []).append((bit, setting))
    jacks = {jack for side in (old, new) for lane in side.lanes for jack in lane.jacks}
    return {
        jack: _switchover(jack, old, new, turns.get(jack, []), swapped.get(device_of(jack), -1))
        for jack in sorted(jacks)
    }


def _switchover(jack: str, old: Side, new: Side, turns: list[tuple[int, Setting]], swap: int) -> Switchover:
    device = device_of(jack)
    sides = [side for side in (old, new) if device in side.devices]
    first, last = _end_of(sides[0], jack, device), _end_of(sides[-1], jack, device)
    if len(sides) == 1 or (first.follows and last.follows):
        return Switchover((last,), ())
    if swap >= 0:
        return Switchover((first, last), (swap,))
    values = [first, *(first._replace(setting=setting) for _, setting in turns)]
    return Switchover(tuple(values), tuple(bit for bit, _ in turns))


def _end_of(side: Side, jack: str, device: str) -> End:
    part = side.devices[device].part
    setting = side.settings.get(jack)
    bridges = part.bridges is not False
    tagged = setting is not None and bool(setting.tagged)
    return End(setting, bridges and part.vlan_aware is False, not bridges and not tagged)


def carried(a: End, b: End, bit: Mapping[int, int]) -> int:
    """The VLANs that get through; as graphs.layer2 has it."""
    if a.follows or b.follows:
        given = b if a.follows else a
        return PLAIN_BIT if given.setting is None else bit[given.setting.untagged]
    if a.setting is None or b.setting is None:
        return PLAIN_BIT
    all_a, all_b = _all(a.setting, bit), _all(b.setting, bit)
    if a.is_blind or b.is_blind:
        found = (all_b if a.is_blind else 0) | (all_a if b.is_blind else 0)
    else:
        found = _tagged(a.setting, bit) & _tagged(b.setting, bit)
        found |= _untagged(a.setting, bit) & _untagged(b.setting, bit)
    return found if found or all_a or all_b else PLAIN_BIT


def _untagged(setting: Setting, bit: Mapping[int, int]) -> int:
    return bit[setting.untagged] if setting.untagged != PLAIN else 0


def _tagged(setting: Setting, bit: Mapping[int, int]) -> int:
    return sum(bit[vid] for vid in setting.tagged)


def _all(setting: Setting, bit: Mapping[int, int]) -> int:
    return _untagged(setting, bit) | _tagged(setting, bit)
