"""The port table: one row for each wired jack of a device, what is to be set and what should be seen."""

from typing import NamedTuple

from firstfix.build.hardware import Device, Jack
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.figures import NOTHING, shown
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.neighbours import connected_to, is_outside, members, own_words
from firstfix.documents.stubs.power import poe_at, power_from_elsewhere
from firstfix.documents.stubs.rates import expected_rate
from firstfix.graphs.administration import identifiers
from firstfix.units import rate


class PortRow(NamedTuple):
    jack: str
    connected_to: str
    untagged: str
    tagged: str
    poe: str
    rate: str
    note: str


def port_rows(look: Lookup, device: Device) -> tuple[PortRow, ...]:
    return tuple(_row(look, look.build.jacks[jack]) for jack in look.wired_jacks(device.id))


def free_jacks(look: Lookup, device: Device) -> str:
    """The jacks that nothing is planned for, in order, `4 to 10, 13, sfp1`; the provider's are not free."""
    free = (jack for jack in _jacks(look, device) if jack.id not in look.pieces)
    return _in_runs([jack.name for jack in free if not is_outside(look, jack.id)])


def provider_jacks(look: Lookup, device: Device) -> str:
    return ", ".join(jack.name for jack in _jacks(look, device) if is_outside(look, jack.id))


def _jacks(look: Lookup, device: Device) -> list[Jack]:
    return [look.build.jacks[each] for each in look.build.jacks_of.get(device.id, ())]


def _in_runs(names: list[str]) -> str:
    """Numbers that follow each other as one run: 4, 5, 6 and 8 as `4 to 6, 8`."""
    runs: list[list[str]] = []
    for name in names:
        if runs and name.isdecimal() and runs[-1][-1].isdecimal() and int(name) == int(runs[-1][-1]) + 1:
            runs[-1].append(name)
        else:
            runs.append([name])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def _row(look: Lookup, jack: Jack) -> PortRow:
    setup = look.setup(jack.id)
    channel = look.channel(jack.id)
    return PortRow(
        jack.name,
        connected_to(look, jack.id),
        vlans.shown(look, setup.untagged) if setup and setup.untagged else NOTHING,
        vlans.all_shown(look, setup.tagged) if setup and setup.tagged else NOTHING,
        poe_at(look, jack),
        NOTHING if channel is None else shown(expected_rate(look, channel), rate),
        "; ".join(_notes(look, jack)),
    )


def cable_label(look: Lookup, jack: str) -> str:
    """What the cable in the jack says, where that isn't just the names of the two jacks."""
    names = identifiers(look.build)
    piece = next(iter(look.pieces.get(jack, ())), None)
    return "" if names.is_simple or piece is None else names.cable(piece, jack)


def _notes(look: Lookup, jack: Jack) -> list[str]:
    notes = [f"PoE off, for {name} gives the power" for name in power_from_elsewhere(look, jack)]
    if is_outside(look, jack.id):
        notes.append("the provider's line: addresses as the provider says")
    others = [look.build.jacks[each].name for each in members(look, jack.id) if each != jack.id]
    if others:
        notes.append(
            f"one aggregate with {', '.join(others)}: set it up at both ends before the second cord goes in"
        )
    channel = look.channel(jack.id)
    link = None if channel is None else look.build.links.get(channel.link)
    if link is not None and link.spare_for:
        notes.append(
            f"a loop on purpose, it backs up {own_words(link.spare_for)}: spanning tree first, then the cord"
        )
    label = cable_label(look, jack.id)
    return [*notes, f"its cable says {label}"] if label else notes
