"""Which jack would feed which over PoE: along each channel, past panels and through injectors and splitters in line.

Takes channels, jacks and devices; gives feeds, and the givers in an order in which each comes after what feeds it.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Channel, Piece
from firstfix.build.hardware import Device
from firstfix.plan.model import Plan
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes

# How many devices of a ring are named in its finding.
_MOST_NAMED = 6


class Feed(NamedTuple):
    """A channel or a part of it that carries power: the jack that gives, the jack that takes, and the pieces between.

    `lead_to`: the device at the low-voltage lead of a splitter, where that is what takes; else "".
    """

    channel: str
    source: str
    sink: str
    pieces: tuple[str, ...]
    connections: int
    lead_to: str = ""


class _View(NamedTuple):
    """A channel as seen from the jack at one of its ends: things in line and pieces in the order they are met."""

    channel: str
    here: str
    there: str
    through: tuple[str, ...]
    pieces: tuple[str, ...]


def find_feeds(
    plan: Plan,
    channels: dict[str, Channel],
    laid: dict[str, Piece],
    field: JackField,
    devices: dict[str, Device],
) -> list[Feed]:
    if not any(device.part.gives_poe is not None for device in devices.values()):
        return []
    on_mains = _fed_otherwise(plan, devices)
    splitters = {device.id for device in devices.values() if device.part.kind == "splitter"}
    return [
        feed
        for channel in channels.values()
        if channel.medium == "copper"
        and (
            field.jacks[channel.ends[0]].power == "takes"
            or field.jacks[channel.ends[1]].power == "takes"
            or (splitters and not splitters.isdisjoint(channel.through))
        )
        for feed in _feeds(channel, laid, field, devices, on_mains)
    ]


def _fed_otherwise(plan: Plan, devices: dict[str, Device]) -> set[str]:
    """The devices whose author says that something else than PoE, or a splitter of it, feeds them."""
    found = set()
    for spec in plan.devices:
        if (
            spec.power
            and "poe" not in spec.power
            and not any(_is_splitter(each, devices) for each in spec.power)
        ):
            found.add(ids.device(spec.name))
    return found


def _is_splitter(name: str, devices: dict[str, Device]) -> bool:
    device = devices.get(ids.device(name))
    return device is not None and device.part.kind == "splitter"


def _feeds(
    channel: Channel, laid: dict[str, Piece], field: JackField, devices: dict[str, Device], on_mains: set[str]
) -> Iterator[Feed]:
    near, far = channel.ends
    for view in (
        _View(channel.id, near, far, channel.through, channel.pieces),
        _View(channel.id, far, near, channel.through[::-1], channel.pieces[::-1]),
    ):
        jack = field.jacks[view.here]
        if jack.power == "takes" and jack.device not in on_mains:
            found = _beyond(view, 0, view.here, laid, field, devices)
            if found is not None:
                yield found
                return
        for index, each in enumerate(view.through):
            if devices[each].part.kind == "splitter":
                yield from _to_splitter(view, index, laid, field, devices, on_mains)


def _beyond(
    view: _View, first: int, sink: str, laid: dict[str, Piece], field: JackField, devices: dict[str, Device]
) -> Feed | None:
    """The first thing that gives, looking from the jack that takes: PoE begins there, whatever lies behind it.

    One that stands the wrong way round gives the other way, and nothing from behind it comes through.
    """
    for index in range(first, len(view.through)):
        device = devices[view.through[index]]
        part = device.part
        if any(each.power == "blocks" for each in part.passes):
            return None
        if part.gives_poe is not None:
            giving = ids.jack(device.name, part.gives_poe.jacks[0])
            if giving not in laid[view.pieces[index]].ends:
                return None
            return Feed(view.channel, giving, sink, view.pieces[first : index + 1], index - first)
    if field.jacks[view.there].power != "gives":
        return None
    return Feed(view.channel, view.there, sink, view.pieces[first:], len(view.through) - first)


def _to_splitter(
    view: _View,
    index: int,
    laid: dict[str, Piece],
    field: JackField,
    devices: dict[str, Device],
    on_mains: set[str],
) -> Iterator[Feed]:
    """The feed of a splitter that takes its power from beyond, for the device at whose end the view begins."""
    splitter = devices[view.through[index]]
    takes = splitter.part.takes_poe
    if takes is None:
        return
    taking = ids.jack(splitter.name, takes.jacks[0])
    if taking not in laid[view.pieces[index + 1]].ends:
        return
    found = _beyond(view, index + 1, taking, laid, field, devices)
    if found is not None:
        fed = devices[field.jacks[view.here].device]
        yield found._replace(lead_to=fed.id if _takes_low_voltage(fed) and fed.id not in on_mains else "")


def _takes_low_voltage(device: Device) -> bool:
    """Whether a splitter's lead can be what feeds it: it has no PoE of its own, and no inlet for the mains themselves."""
    part = device.part
    return part.takes_poe is None and part.gives_poe is None and part.mains.inlet in ("", "adaptor")


def root_to_leaf(feeds: list[Feed], field: JackField, devices: dict[str, Device], notes: Notes) -> list[str]:
    """All givers, each after what feeds it; a ring of devices that would feed each other is reported and left out."""
    givers = sorted(device.id for device in devices.values() if device.part.gives_poe is not None)
    fed_by: dict[str, set[str]] = {giver: set() for giver in givers}
    for each in feeds:
        sink = field.jacks[each.sink].device
        if sink in fed_by:
            fed_by[sink].add(field.jacks[each.source].device)
    ordered: list[str] = []
    done: set[str] = set()
    waiting = givers
    while waiting:
        ready = [giver for giver in waiting if fed_by[giver] <= done]
        if not ready:
            names = ", ".join(f"'{devices[giver].name}'" for giver in waiting[:_MOST_NAMED])
            names += f" and {len(waiting) - _MOST_NAMED} more" if len(waiting) > _MOST_NAMED else ""
            notes.gap(
                "power-ring",
                waiting[0],
                f"{names} would feed each other with PoE, so none is fed at all",
                notes.provenance.span(waiting[0]),
            )
            return ordered
        ordered.extend(ready)
        done.update(ready)
        waiting = [giver for giver in waiting if giver not in done]
    return ordered
