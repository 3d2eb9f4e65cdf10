"""The box of devices that no channel reaches: what gives them power to others, and what is simply not connected."""

from collections.abc import Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import BETWEEN, NAME_SIZE, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.network.entries import phase, room_name, there_already
from firstfix.documents.drawing.network.wiring import Wiring, device_name, shown_jack
from firstfix.parts.part import MAINS_KINDS

_COLUMN = 246.0
_LINE, _BELOW, _APART = 11.0, 9.4, 4.0
_MOST_LINES = 3
_HEAD = 20.0
_PAD = 8.0


class Remark(NamedTuple):
    """`place` stands beside the name, with the phase; `words` below, in as many lines as they take, up to three."""

    name: str
    place: str
    words: str

    def lines(self, room: float) -> tuple[str, ...]:
        return font.wrap(self.words, room, SMALL_SIZE, _MOST_LINES)

    def height(self, room: float) -> float:
        return _LINE + _BELOW * len(self.lines(room)) + _APART


def remarks(wiring: Wiring) -> tuple[Remark, ...]:
    """One for each device that is in no channel, in order of names: first what is not connected, then what feeds others."""
    build = wiring.build
    feeds = _feeds(build)
    wired = _half_wired(build)
    chosen = sorted(wiring.rest, key=lambda each: (build.devices[each].part.kind in MAINS_KINDS, each))
    return tuple(
        Remark(build.devices[each].name, _place(wiring, each), _words(wiring, each, feeds, wired))
        for each in chosen
    )


def _feeds(build: Build) -> dict[str, list[str]]:
    feeds: dict[str, list[str]] = {}
    for feed in sorted(build.mains_feeds):
        feeds.setdefault(feed.source, []).append(device_name(build, feed.device))
    return feeds


def _half_wired(build: Build) -> dict[str, list[str]]:
    """Device to the jacks of it that have a cable on one side and nothing on the other."""
    wired: dict[str, list[str]] = {}
    for end in build.open_ends:
        jack = build.jacks.get(end.jack)
        if jack:
            wired.setdefault(jack.device, []).append(shown_jack(build, end.jack))
    return wired


def _place(wiring: Wiring, id_: str) -> str:
    device = wiring.build.devices[id_]
    said = (
        room_name(wiring.build, device),
        wiring.places.get(id_, ""),
        phase(device.phase),
        there_already(device),
    )
    return BETWEEN.join(filter(None, said))


def _words(wiring: Wiring, id_: str, feeds: dict[str, list[str]], wired: dict[str, list[str]]) -> str:
    device = wiring.build.devices[id_]
    said = [device.part.title]
    if id_ in wiring.build.unsettled:
        said.insert(0, "a link of it has a fault, see the findings")
    if id_ in feeds:
        said.insert(0, f"feeds {', '.join(feeds[id_])}")
    if id_ in wired:
        said.insert(0, f"cabled on one side only: {', '.join(wired[id_])}")
    return BETWEEN.join(filter(None, said))


def rest_pictures(found: tuple[Remark, ...], width: float, tallest: float) -> tuple[Picture, ...]:
    """Boxes `width` wide, of as many columns as fit, each no taller than `tallest`; none without remarks."""
    count = max(1, min(len(found) // 2, int((width - _PAD) // _COLUMN)))
    room = (width - _PAD) / count - _PAD
    columns = _poured(found, room, tallest - _HEAD - _PAD)
    if len(columns) <= count:
        return (_box(_levelled(found, room, count), room, width),) if found else ()
    return tuple(_box(columns[start : start + count], room, width) for start in range(0, len(columns), count))


def _levelled(found: Sequence[Remark], room: float, count: int) -> list[list[Remark]]:
    """In at most `count` columns as level as can be."""
    limit = sum(remark.height(room) for remark in found) / count
    while len(columns := _poured(found, room, limit)) > count:
        limit += _BELOW
    return columns


def _poured(found: Sequence[Remark], room: float, tallest: float) -> list[list[Remark]]:
    columns: list[list[Remark]] = [[]]
    used = 0.0
    for remark in found:
        if columns[-1] and used + remark.height(room) > tallest:
            columns.append([])
            used = 0.0
        columns[-1].append(remark)
        used += remark.height(room)
    return columns


def _box(columns: Sequence[Sequence[Remark]], room: float, width: float) -> Picture:
    height = _HEAD + max(sum(remark.height(room) for remark in column) for column in columns) + _PAD / 2
    parts = [
        svg.rect(0, 0, width, height, stroke=palette.HAIR, weight=0.8, dash=palette.ALARM_DASH),
        svg.text(_PAD, 13, "Not on the network", NAME_SIZE, is_bold=True, colour=QUIET),
    ]
    for index, column in enumerate(columns):
        top = _HEAD
        for remark in column:
            parts.append(_remark(remark, _PAD + index * (room + _PAD), top + 8, room))
            top += remark.height(room)
    return Picture("".join(parts), width, height)


def _remark(remark: Remark, x: float, base: float, room: float) -> str:
    name = font.clip(remark.name, room * 0.5, TEXT_SIZE, True)
    after = font.width(name, TEXT_SIZE, True) + 5
    return svg.group(
        f"{remark.name}: {remark.words}{BETWEEN}{remark.place}",
        svg.text(x, base, name, TEXT_SIZE, is_bold=True),
        svg.text(x + after, base, remark.place, SMALL_SIZE, room=room - after),
        *(
            svg.text(x, base + _BELOW * number, line, SMALL_SIZE, colour=QUIET)
            for number, line in enumerate(remark.lines(room), 1)
        ),
    )
