"""Boxes of an overview: a hub, a building with its cabinets, a site with its buildings; each says how many devices hang there, and on
which sheets.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.network.entries import building_name, heads_of, room_name
from firstfix.documents.drawing.network.tables import Entry, Table, make_table
from firstfix.documents.drawing.network.wiring import Wiring, device_name
from firstfix.documents.drawing.where import NOWHERE, building_of, site_name, site_of

# Of a building's box, that it stays a box.
_MOST_LINES = 14
_MOST_COMPACT = 3
_NARROWEST = 96.0
SheetsOf = Mapping[str, Sequence[str]]


class Box(NamedTuple):
    """`row_of`: where in the table a hub is named, 0 being its band."""

    table: Table
    row_of: Mapping[str, int]


def hub_box(wiring: Wiring, hub: str, sheets_of: SheetsOf) -> Box:
    name, *said = heads_of(wiring, hub)
    hint = BETWEEN.join((name, *said))
    return Box(make_table(name, said, (_line(hung_on(wiring, hub, sheets_of)),), hint, _NARROWEST), {hub: 0})


def building_box(
    wiring: Wiring, building: str, hubs: Sequence[str], sheets_of: SheetsOf, more: Iterable[Entry] = ()
) -> Box:
    """Its name alone: its site's stands at the frame. `more` stands below the cabinets and their hubs."""
    entries: list[Entry] = []
    row_of: dict[str, int] = {}
    for spot, here in _by_spot(wiring.build, hubs).items():
        entries.append(_spot_entry(wiring, spot, here))
        for hub in here:
            entries.append(_line(f"{device_name(wiring.build, hub)}: {hung_on(wiring, hub, sheets_of)}"))
            row_of[hub] = len(entries)
    if len(entries) > _MOST_LINES:
        kept = entries[: _MOST_LINES - 1]
        row_of = {hub: row for hub, row in row_of.items() if row <= len(kept)}
        others = [hub for hub in hubs if hub not in row_of]
        entries = [*kept, _line(f"{len(others)} more{BETWEEN}{sheets_in_words(others, sheets_of)}")]
    name = building_name(wiring.build, building) or NOWHERE
    said = (_count(_attached(wiring, hubs), "on the network"),)
    return Box(make_table(name, said, (*entries, *more), name, _NARROWEST), row_of)


def compact_box(wiring: Wiring, building: str, hubs: Sequence[str], sheets_of: SheetsOf) -> Box:
    """A building with a line for each cabinet, and the sheets of all its hubs."""
    entries = [
        _line(BETWEEN.join(filter(None, (entry.name, entry.length))))
        for entry in (_spot_entry(wiring, *each) for each in _by_spot(wiring.build, hubs).items())
    ]
    entries = entries if len(entries) <= _MOST_COMPACT else [_line(_count(_attached(wiring, hubs)))]
    sheets = _line(sheets_in_words(hubs, sheets_of))
    name = building_name(wiring.build, building) or NOWHERE
    return Box(make_table(name, (), (*entries, sheets), name, _NARROWEST), {})


def site_box(wiring: Wiring, site: str, hubs: Sequence[str], sheets_of: SheetsOf) -> Box:
    """A line for each building, as far as there is room."""
    buildings: dict[str, list[str]] = defaultdict(list)
    for hub in hubs:
        buildings[building_of(wiring.build, hub)].append(hub)
    entries, row_of = [], {}
    for building, here in sorted(buildings.items(), key=lambda each: natural(each[0])):
        known = wiring.build.buildings.get(building)
        words = f"{_count(_attached(wiring, here))}{BETWEEN}{sheets_in_words(here, sheets_of)}"
        entries.append(_line(f"{known.name if known else 'elsewhere'}: {words}"))
        row_of.update(dict.fromkeys(here, len(entries)))
    if len(entries) > _MOST_LINES:
        entries = [
            _line(f"{len(entries)} buildings"),
            _line(f"on {sheets_in_words(hubs, sheets_of)}"),
        ]
        row_of = {}
    name = site_name(wiring.build, site)
    said = (_count(_attached(wiring, hubs), "on the network"),)
    return Box(make_table(name, said, tuple(entries), name, _NARROWEST), row_of)


def hung_on(wiring: Wiring, hub: str, sheets_of: SheetsOf) -> str:
    """`40 devices · network-7`."""
    devices = len(_hanging(wiring, hub))
    return BETWEEN.join(filter(None, (_count(devices) if devices else "", sheets_in_words([hub], sheets_of))))


def sheets_in_words(hubs: Iterable[str], sheets_of: SheetsOf) -> str:
    """All sheets of some hubs: the one, or from the first to the last."""
    names = sorted({name for hub in hubs for name in sheets_of.get(hub, ())}, key=natural)
    if len(names) < 2:
        return "".join(names)
    return f"{names[0]} {'and' if len(names) == 2 else 'to'} {names[-1]}"


def _by_spot(build: Build, hubs: Sequence[str]) -> dict[str, list[str]]:
    """Cabinet or room to the hubs in it; cabinets first."""
    found: dict[str, list[str]] = defaultdict(list)
    for hub in sorted(hubs, key=natural):
        device = build.devices.get(hub)
        found[(device.cabinet or device.room) if device else ""].append(hub)
    return dict(sorted(found.items(), key=lambda each: (each[0] not in build.cabinets, natural(each[0]))))


def _spot_entry(wiring: Wiring, spot: str, hubs: Sequence[str]) -> Entry:
    """The heading of a cabinet, or of a room for what stands in none: with how many devices hang on its hubs."""
    build = wiring.build
    cabinet, room, device = build.cabinets.get(spot), build.rooms.get(spot), build.devices.get(hubs[0])
    devices = len({peer for hub in hubs for peer in _hanging(wiring, hub)})
    name = f"cabinet {cabinet.name}" if cabinet else f"in {room.name}" if room else "place not known"
    where = room_name(build, device) if cabinet and device else ""
    many = _count(devices) if devices else ""
    words = BETWEEN.join(filter(None, (name, where, many)))
    return Entry("", "", None, name, where, many, "", "", False, words)


def _hanging(wiring: Wiring, hub: str) -> set[str]:
    return {row.peer for row in wiring.hubs[hub].rows if not row.is_trunk}


def _attached(wiring: Wiring, hubs: Iterable[str]) -> int:
    """How many devices are on the network by these hubs, themselves included."""
    return len({each for hub in hubs for each in (hub, *_hanging(wiring, hub))})


def _count(devices: int, after: str = "") -> str:
    return " ".join(filter(None, (f"{devices} device{'' if devices == 1 else 's'}", after)))


def _line(words: str) -> Entry:
    return Entry("", "", None, "", "", "", words, "", False, words)


def by_place(wiring: Wiring, hubs: Sequence[str], is_by_site: bool) -> Iterator[tuple[str, list[str]]]:
    """Building or site with the hubs there, in order of their names."""
    place_of = site_of if is_by_site else building_of
    found: dict[str, list[str]] = defaultdict(list)
    for hub in hubs:
        found[place_of(wiring.build, hub)].append(hub)
    yield from sorted(found.items(), key=lambda each: natural(each[0]))
