"""The channels of both builds as strands: each is new, gone, changed or the same, and says where it is plugged in and how it runs.

A channel that is plugged in elsewhere is two strands: one where it was, one where it is.
"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from firstfix.build.cabling import Channel
from firstfix.build.model import Build
from firstfix.compare.categories import RELABELLED, REPATCHED, RERUN
from firstfix.compare.changes import CHANGED, GONE, NEW, SAME
from firstfix.documents.drawing.change.sides import Sides
from firstfix.documents.drawing.network.wiring import Wire, Wiring, device_of, jack_name, shown_jack

WAS = "was"


class Strand(NamedTuple):
    """`state`: new, gone, changed, was (where it was before it was put elsewhere) or same. `word` says it to people.

    `near` and `far` are keys of things, `near` being a hub; `jack` and `far_jack` are names of jacks, `far_shown` both in one.
    `order`: of the near jack. `through`: keys of the passive things on the way, from near to far. `facts` say how it runs, slot by
    slot, and `were` how it ran, () if that is not to be said. `came_from`: the jack that it was in.
    """

    state: str
    word: str
    near: str
    far: str
    jack: str
    far_jack: str
    far_shown: str
    order: int
    through: tuple[str, ...]
    facts: tuple[str, ...]
    were: tuple[str, ...]
    came_from: str
    channel: str
    is_powered: bool

    @property
    def said(self) -> str:
        """How it runs; what of it is another than before with both."""
        before = self.were or self.facts
        turned = [
            now if was == now else f"{was or 'none'} → {now or 'none'}"
            for was, now in zip(before, self.facts, strict=True)
        ]
        came = f"was in {self.came_from}" if self.came_from else ""
        return ", ".join(filter(None, (came, *turned)))


def strands(sides: Sides) -> tuple[Strand, ...]:
    """In order of the near thing's jacks; what was there comes before what is."""
    found = list(_all(sides))
    rank = {GONE: 0, WAS: 1, SAME: 2, CHANGED: 3, NEW: 4}
    return tuple(
        sorted(found, key=lambda each: (each.near, each.order, rank[each.state], each.far, each.channel))
    )


def _all(sides: Sides) -> Iterator[Strand]:
    before, after = _wires(sides.before), _wires(sides.after)
    partner = _partners(sides)
    for id_, wire in after.items():
        old_id = partner.get(id_, "")
        if not old_id:
            yield _strand(sides, wire, False, NEW, "new")
            continue
        old = before[old_id]
        state, word = _turn(sides, old_id, id_)
        if state == CHANGED and not _ends_alike(sides, old_id, id_):
            yield _strand(sides, old, True, WAS, "was here")
            yield _strand(sides, wire, False, CHANGED, word)._replace(came_from=_moved_jack(sides, old, wire))
        else:
            strand = _strand(sides, wire, False, state, word)
            yield strand._replace(were=_facts(sides.old, old)) if state == CHANGED else strand
    met = set(partner.values())
    for id_, wire in before.items():
        if id_ not in met:
            yield _strand(sides, wire, True, GONE, "gone")


def _wires(found: Wiring) -> dict[str, Wire]:
    """Each channel once, from the hub that is nearer to the gateway."""
    wires = {row.wire.channel: row.wire for hub in found.hubs.values() for row in hub.rows}
    wires |= {wire.channel: wire for wire in found.trunks}
    return {channel: wires[channel] for channel in sorted(wires)}


def _partners(sides: Sides) -> dict[str, str]:
    """New channel to the old one of the same run, lane by lane."""
    lanes_before, lanes_after = _lanes(sides.old), _lanes(sides.new)
    found: dict[str, str] = {}
    for link, channels in lanes_before.items():
        found |= dict(zip(lanes_after.get(sides.now(link), ()), channels, strict=False))
    return found


def _lanes(build: Build) -> Mapping[str, list[str]]:
    lanes: defaultdict[str, list[str]] = defaultdict(list)
    for channel in build.channels.values():
        lanes[channel.link].append(channel.id)
    return lanes


def _turn(sides: Sides, old_id: str, new_id: str) -> tuple[str, str]:
    """The state of a channel that both builds have, and the word for it."""
    old, new = sides.old.channels[old_id], sides.new.channels[new_id]
    now = {sides.now(each) for each in old.pieces}
    states = [sides.changes.in_new(each) for each in (new.link, *new.pieces)]
    sorts = {sort for each in states for sort in each.categories} - {RELABELLED}
    if RERUN in sorts:
        return CHANGED, "re-run"
    if REPATCHED in sorts or now != set(new.pieces) or not _ends_alike(sides, old_id, new_id):
        return CHANGED, "re-patched"
    return (CHANGED, "changed") if sorts else (SAME, "")


def _ends_alike(sides: Sides, old_id: str, new_id: str) -> bool:
    old, new = sides.old.channels[old_id], sides.new.channels[new_id]
    return {sides.now(end) for end in old.ends} == set(new.ends)


def _strand(sides: Sides, wire: Wire, is_old: bool, state: str, word: str) -> Strand:
    build = sides.old if is_old else sides.new
    channel: Channel = build.channels[wire.channel]
    near, far = (device_of(build, jack) for jack in (wire.near, wire.far))
    through = channel.through if channel.ends[0] == wire.near else channel.through[::-1]
    known = build.jacks.get(wire.near)

    def key(device: str) -> str:
        return sides.key_of_old(device) if is_old else device

    return Strand(
        state,
        word,
        key(near),
        key(far),
        jack_name(build, wire.near),
        jack_name(build, wire.far),
        shown_jack(build, wire.far),
        known.order if known else 0,
        tuple(map(key, through)),
        _facts(build, wire),
        (),
        "",
        wire.channel,
        wire.near in wire.powered,
    )


def _moved_jack(sides: Sides, old: Wire, new: Wire) -> str:
    """The end of the old wire that is not an end of the new one."""
    ends = {new.near, new.far}
    return ", ".join(shown_jack(sides.old, end) for end in (old.near, old.far) if sides.now(end) not in ends)


def _facts(build: Build, wire: Wire) -> tuple[str, ...]:
    """Length, cable, ways, the passive jacks on the way, power."""
    ways = [known.name for each in wire.ways if (known := build.ways.get(each))]
    along = f"along {', '.join(ways)}" if ways else ""
    via = f"via {', '.join(wire.via)}" if wire.via else ""
    spare = f"spare for {wire.spare_for}" if wire.spare_for else ""
    return wire.length, wire.cable, along, via, wire.power, spare
