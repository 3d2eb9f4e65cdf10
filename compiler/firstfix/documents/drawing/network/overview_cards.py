"""An overview without wires, for more buildings than a sheet has room for: a card for each, with its trunks as rows, on as many sheets as
they take."""

from collections.abc import Iterator, Sequence

from firstfix.documents.drawing.kit.page import picture_room
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.network.overview_boxes import SheetsOf, building_box, by_place
from firstfix.documents.drawing.network.tables import Entry, Table, draw_table
from firstfix.documents.drawing.network.wiring import Wiring, device_name
from firstfix.documents.drawing.where import building_label, building_of

_COLUMNS = 3
_GAP = 12.0
_MOST_TRUNKS = 10
_ROOM = picture_room(key_lines=0, onward_lines=1)
_WIDTH = (_ROOM[0] - (_COLUMNS - 1) * _GAP) // _COLUMNS


def card_pictures(wiring: Wiring, hubs: Sequence[str], sheets_of: SheetsOf) -> tuple[Picture, ...]:
    """At least one; each fits on a sheet. Columns are filled one after the other."""
    cards = [
        _card(wiring, building, here, sheets_of)
        for building, here in by_place(wiring, hubs, is_by_site=False)
    ]
    sheets: list[list[list[Table]]] = [[[]]]
    used = 0.0
    for card in cards:
        height = sum(card.heights)
        if sheets[-1][-1] and used + height > _ROOM[1]:
            used = 0.0
            if len(sheets[-1]) == _COLUMNS:
                sheets.append([])
            sheets[-1].append([])
        sheets[-1][-1].append(card)
        used += height + _GAP
    return tuple(_picture(columns) for columns in sheets)


def _card(wiring: Wiring, building: str, hubs: Sequence[str], sheets_of: SheetsOf) -> Table:
    """Where there are several sites, it names its own."""
    table = building_box(wiring, building, hubs, sheets_of, _trunks(wiring, building)).table
    if len(wiring.build.sites) > 1:
        table = table._replace(heads=(building_label(wiring.build, building), *table.heads[1:]))
    return table._replace(width=int(_WIDTH))


def _trunks(wiring: Wiring, building: str) -> list[Entry]:
    """A row for each trunk that leaves the building, as far as there is room: the cards at their other ends have the rest."""
    said = list(_trunk_lines(wiring, building))
    if len(said) > _MOST_TRUNKS:
        rest = len(said) - _MOST_TRUNKS + 1
        said = [*said[: _MOST_TRUNKS - 1], f"and {rest} more, each on the card of its other end"]
    return [Entry("", "", None, "", "", "", words, "", False, words) for words in said]


def _trunk_lines(wiring: Wiring, building: str) -> Iterator[str]:
    """Where to, its cable and length, its way."""
    for wire in wiring.trunks:
        near, far = (building_of(wiring.build, wiring.device(end)) for end in (wire.near, wire.far))
        if building not in (near, far) or near == far:
            continue
        peer = wiring.device(wire.far if near == building else wire.near)
        ways = [known.name for way in wire.ways if (known := wiring.build.ways.get(way))]
        yield BETWEEN.join((f"to {device_name(wiring.build, peer)}", f"{wire.cable}, {wire.length}", *ways))


def _picture(columns: Sequence[Sequence[Table]]) -> Picture:
    parts, tallest = [], 0.0
    for index, column in enumerate(columns):
        top = 0.0
        for card in column:
            parts.append(draw_table(card, index * (_WIDTH + _GAP), top))
            top += sum(card.heights) + _GAP
        tallest = max(tallest, top - _GAP)
    return Picture("".join(parts), len(columns) * (_WIDTH + _GAP) - _GAP, tallest)
