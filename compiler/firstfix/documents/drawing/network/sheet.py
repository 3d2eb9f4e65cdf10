"""One sheet of hubs: their tables, the trunks between them, and the buildings they are in."""

from collections import Counter
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from firstfix.build.ids import natural
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.palette import wire_stroke
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.network.diagram import Diagram, Line, Spot, make_diagram
from firstfix.documents.drawing.network.entries import sheet_with, tables
from firstfix.documents.drawing.network.labels import NARROW_LABEL, WIDE_LABEL, Label, trunk_label
from firstfix.documents.drawing.network.tables import Table
from firstfix.documents.drawing.network.wiring import Wire, Wiring, device_name
from firstfix.documents.drawing.where import building_label, building_of


class _Column(NamedTuple):
    """A hub's table or a column of it, the first being number 0."""

    hub: str
    table: Table
    number: int


def hub_diagram(wiring: Wiring, hubs: Iterable[str], sheet_of: Mapping[str, str]) -> Diagram:
    """Lay out `hubs`, at least one, and the trunks among them. `sheet_of` tells on which sheet each other hub is.

    If that is wider than a sheet, the words at the trunks are broken into more and shorter lines.
    """
    chosen = sorted(hubs)
    within = set(chosen)
    inside = [wire for wire in wiring.trunks if {wiring.device(wire.near), wiring.device(wire.far)} <= within]
    elsewhere = {hub: name for hub, name in sheet_of.items() if hub not in within}
    outward = frozenset(wire.near for wire in inside)
    columns = [
        _Column(hub, table, number)
        for hub in chosen
        for number, table in enumerate(tables(wiring, wiring.hubs[hub], outward, elsewhere))
    ]
    wide = _laid_out(wiring, columns, inside, WIDE_LABEL)
    return (
        wide if wide.placed.width <= palette.SHEET_INNER else _laid_out(wiring, columns, inside, NARROW_LABEL)
    )


def part_diagram(wiring: Wiring, hub: str, sheet_of: Mapping[str, str], first: int, last: int) -> Diagram:
    """The columns of one hub's table from `first` up to, without, `last`, side by side."""
    columns = [_Column(hub, table, number) for number, table in enumerate(lone_tables(wiring, hub, sheet_of))]
    return _laid_out(wiring, columns[first:last], [], NARROW_LABEL)


def lone_tables(wiring: Wiring, hub: str, sheet_of: Mapping[str, str]) -> tuple[Table, ...]:
    """All columns of a hub that has no other beside it."""
    elsewhere = {each: name for each, name in sheet_of.items() if each != hub}
    return tables(wiring, wiring.hubs[hub], frozenset(), elsewhere)


def _laid_out(wiring: Wiring, columns: list[_Column], inside: list[Wire], label_room: float) -> Diagram:
    homes = [building_of(wiring.build, column.hub) for column in columns]
    buildings = sorted(set(homes))
    lines = [
        Line(_spot(wiring, columns, wire.near), _spot(wiring, columns, wire.far), stroke_of(wire), label)
        for wire, label in zip(inside, _labels(wiring, inside, label_room), strict=True)
    ]
    lines += [
        Line((index - 1, 0), (index, 0), None)
        for index, each in enumerate(columns)
        if index and each.number > 0
    ]
    return make_diagram(
        [column.table for column in columns],
        [buildings.index(home) for home in homes],
        [building_label(wiring.build, building) for building in buildings],
        lines,
    )


# More flags than this are a list that nobody reads: the rows name the sheets anyway.
_MOST_FLAGS = 6


def onward_of(wiring: Wiring, hubs: Iterable[str], sheet_of: Mapping[str, str]) -> tuple[Onward, ...]:
    """The sheets that the trunks of some hubs go on on, each with what is there."""
    within = set(hubs)
    found: dict[str, dict[str, None]] = {}
    for hub in sorted(within):
        for row in wiring.hubs[hub].rows:
            if row.is_trunk and row.peer not in within and row.peer in sheet_of:
                found.setdefault(sheet_with(row, sheet_of), {})[device_name(wiring.build, row.peer)] = None
    if len(found) > _MOST_FLAGS:
        return ()
    return tuple(Onward(sheet, ", ".join(found[sheet])) for sheet in sorted(found, key=natural))


def stroke_of(wire: Wire) -> palette.Stroke:
    return wire_stroke(wire.medium, wire.is_run, bool(wire.power), bool(wire.spare_for))


def _labels(wiring: Wiring, inside: list[Wire], room: float) -> list[Label]:
    """One for each trunk; lanes of one aggregate share the first's."""
    lanes = Counter(_pair(wiring, wire) for wire in inside)
    seen: set[tuple[str, str, str]] = set()
    labels = []
    for wire in inside:
        pair = _pair(wiring, wire)
        labels.append(Label(()) if pair in seen else trunk_label(wiring.build, wire, lanes[pair], room))
        seen.add(pair)
    return labels


def _pair(wiring: Wiring, wire: Wire) -> tuple[str, str, str]:
    link = wiring.build.channels[wire.channel].link
    return link, wiring.device(wire.near), wiring.device(wire.far)


def _spot(wiring: Wiring, columns: list[_Column], jack: str) -> Spot:
    """The table and the row of a jack: rows stand in the hub's order, so the n-th row of a hub is its n-th entry."""
    hub = wiring.device(jack)
    rows = [index for index, each in enumerate(wiring.hubs[hub].rows) if each.wire.near == jack]
    # A wire from a hub to itself has one row, at its near end.
    row = (
        rows[0] if rows else next(i for i, each in enumerate(wiring.hubs[hub].rows) if each.wire.far == jack)
    )
    for index, column in enumerate(columns):
        if column.hub == hub:
            if row < len(column.table.entries):
                return index, row + 1
            row -= len(column.table.entries)
    raise AssertionError(f"{jack} has no row")
