"""From a hub to its table: which words stand in which row, on a sheet that shows some of the hubs."""

from collections.abc import Mapping

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.palette import BETWEEN, SHEET_INNER, wire_stroke
from firstfix.documents.drawing.network.tables import Entry, Table, make_table
from firstfix.documents.drawing.network.wiring import Hub, Row, Wire, Wiring, jack_name, shown_jack
from firstfix.graphs.administration import identifiers

# Of a column's rows: what a sheet leaves beside title, band, building and key; and on one that goes on, a flag.
TALLEST, TALLEST_WITH_FLAG = 350.0, 332.0
# What stands beside each column of a table on a sheet of its own, in points.
_BETWEEN_COLUMNS = 24.0


def tables(
    wiring: Wiring, hub: Hub, outward: frozenset[str], sheet_of: Mapping[str, str]
) -> tuple[Table, ...]:  # fmt: skip
    """The columns of a hub's table, most often one. `outward`: jacks whose trunk leaves to the right, on this sheet.

    `sheet_of` gives the sheet of each hub that is not on this one, and of each jack of one that is in several parts.
    """
    entries = [entry(wiring, row, outward, sheet_of) for row in hub.rows]
    if hub.left_out:
        entries.append(_remark(f"{hub.left_out} more wired, not on this drawing"))
    if hub.free:
        entries.append(free_entry(wiring.build, hub.free))
    heads = heads_of(wiring, hub.device)
    found = _in_columns(heads, _columns(entries, TALLEST))
    if sum(table.width + _BETWEEN_COLUMNS for table in found) <= SHEET_INNER:
        return found
    return _in_columns(heads, _columns(entries, TALLEST_WITH_FLAG))


def _in_columns(heads: tuple[str, ...], columns: tuple[tuple[Entry, ...], ...]) -> tuple[Table, ...]:
    name, *said = heads
    hint = BETWEEN.join(heads)
    if len(columns) == 1:
        return (make_table(name, said, columns[0], hint),)
    return tuple(
        make_table(f"{name} ({number} of {len(columns)})", said, column, hint)
        for number, column in enumerate(columns, 1)
    )


def _columns(entries: list[Entry], tallest: float) -> tuple[tuple[Entry, ...], ...]:
    """Cut into the fewest columns that are no taller than that, and those as level as can be."""
    fewest = len(_poured(entries, tallest))
    limit = sum(entry.height for entry in entries) / max(1, fewest)
    while len(_poured(entries, limit)) > fewest:
        limit += 6
    return tuple(tuple(column) for column in _poured(entries, limit))


def _poured(entries: list[Entry], limit: float) -> list[list[Entry]]:
    columns: list[list[Entry]] = [[]]
    height = 0.0
    for entry in entries:
        if columns[-1] and height + entry.height > limit:
            columns.append([])
            height = 0.0
        columns[-1].append(entry)
        height += entry.height
    return columns


def heads_of(wiring: Wiring, device: str) -> tuple[str, ...]:
    """Name; part; place, with the phase where there is one, and whether it is there already."""
    known = wiring.build.devices.get(device)
    if known is None:
        return (ids.path(device), "not in the plan")
    said = (
        room_name(wiring.build, known),
        wiring.places.get(device, ""),
        phase(known.phase),
        there_already(known),
    )
    place = BETWEEN.join(filter(None, said))
    return (known.name, *filter(None, (known.part.title, place)))


def phase(name: str) -> str:
    return f"phase {name}" if name else ""


def there_already(device: Device) -> str:
    return "there already" if device.is_owned else ""


def room_name(build: Build, device: Device) -> str:
    room = build.rooms.get(device.room)
    return room.name if room else ids.path(device.room)


def where(build: Build, peer: str, hub: str) -> str:
    """The peer's room, unless it is the hub's own; with its building, if that is another one."""
    far, near = build.devices.get(peer), build.devices.get(hub)
    if far is None or near is None or far.room == near.room:
        return ""
    far_room, near_room = build.rooms.get(far.room), build.rooms.get(near.room)
    if far_room is None or near_room is None or far_room.building == near_room.building:
        return room_name(build, far)
    return f"{far_room.name}, {building_name(build, far_room.building)}"


def building_name(build: Build, building: str) -> str:
    known = build.buildings.get(building)
    return known.name if known else ids.path(building)


def entry(wiring: Wiring, row: Row, outward: frozenset[str], sheet_of: Mapping[str, str]) -> Entry:
    build, wire = wiring.build, row.wire
    tab = jack_name(build, wire.near)
    name = shown_jack(build, wire.far)
    whole = in_words(build, wire)
    if row.is_trunk and row.peer not in sheet_of:
        side = "right" if wire.near in outward else "left"
        return Entry(tab, side, None, name, "", "", "", "", wire.near in wire.powered, whole)
    ways = [known.name for way in wire.ways if (known := build.ways.get(way))] if row.is_trunk else []
    sheet = f"on {sheet_with(row, sheet_of)}" if row.is_trunk else ""
    peer = build.devices.get(row.peer)
    later = phase(peer.phase) if peer else ""
    spare = f"spare for {wire.spare_for}" if wire.spare_for else ""
    under = BETWEEN.join(filter(None, (sheet, spare, later, *ways, *wire.via)))
    stroke = wire_stroke(wire.medium, wire.is_run, bool(wire.power), bool(wire.spare_for))
    place = "" if row.is_trunk else where(build, row.peer, wiring.device(wire.near))
    if place and wire.power and not under:
        place, under = "", place  # all on one line would make the whole table wide
    return Entry(
        tab, "left", stroke, name, place, wire.length, under, wire.power, wire.near in wire.powered, whole
    )


def sheet_with(row: Row, sheet_of: Mapping[str, str]) -> str:
    """The sheet that shows the jack at the far end of a trunk: of a hub in several parts, the part with that jack."""
    return sheet_of.get(row.wire.far) or sheet_of[row.peer]


def in_words(build: Build, wire: Wire) -> str:
    """The whole wire in one sentence, for who points at it and for who can't see it."""
    via = f" through {', '.join(wire.via)}" if wire.via else ""
    details = ", ".join(filter(None, (wire.length, wire.cable, wire.power)))
    spare = f", spare for {wire.spare_for}" if wire.spare_for else ""
    return f"{shown_jack(build, wire.near)} to {shown_jack(build, wire.far)}{via}: {details}{spare}{_labels(build, wire)}"


def _labels(build: Build, wire: Wire) -> str:
    """Where the labels say anything but the names of the jacks."""
    names = identifiers(build)
    if names.is_simple:
        return ""
    near, far = (names.jacks.get(end, "not known") for end in (wire.near, wire.far))
    return f", labelled {near} and {far}"


def free_entry(build: Build, jacks: tuple[str, ...]) -> Entry:
    free = "free: " + ", ".join(ranges([jack_name(build, jack) for jack in jacks]))
    return _remark(free)


def _remark(words: str) -> Entry:
    return Entry("", "", None, "", "", "", words, "", False, words)


def ranges(names: list[str]) -> list[str]:
    """Consecutive numbers as ranges, in the order given.

    >>> ranges(["1", "2", "3", "7", "sfp1", "sfp2"])
    ['1–3', '7', 'sfp1–sfp2']
    """
    runs: list[list[str]] = []
    for name in names:
        if runs and _follows(runs[-1][-1], name):
            runs[-1].append(name)
        else:
            runs.append([name])
    return [run[0] if len(run) == 1 else f"{run[0]}–{run[-1]}" for run in runs]


def _follows(before: str, after: str) -> bool:
    letters, digits = before.rstrip("0123456789"), before[len(before.rstrip("0123456789")) :]
    return bool(digits) and digits.isascii() and after == f"{letters}{int(digits) + 1}"
