"""The box of devices that no channel reaches: what gives them power to others, and what is simply not connected."""

from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import BETWEEN, NAME_SIZE, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.network.entries import phase, room_name
from firstfix.documents.drawing.network.wiring import Wiring, device_name, shown_jack
from firstfix.parts.part import MAINS_KINDS

_COLUMN = 246.0
_LINE = 12.0
_HEAD = 20.0
_PAD = 8.0


class Remark(NamedTuple):
    name: str
    words: str


def remarks(wiring: Wiring) -> tuple[Remark, ...]:
    """One for each device that is in no channel, in order of names: first what is not connected, then what feeds others."""
    build = wiring.build
    feeds = _feeds(build)
    wired = _half_wired(build)
    chosen = sorted(wiring.rest, key=lambda each: (build.devices[each].part.kind in MAINS_KINDS, each))
    return tuple(Remark(build.devices[each].name, _words(wiring, each, feeds, wired)) for each in chosen)


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


def _words(wiring: Wiring, id_: str, feeds: dict[str, list[str]], wired: dict[str, list[str]]) -> str:
    device = wiring.build.devices[id_]
    said = [
        device.part.title,
        room_name(wiring.build, device),
        wiring.places.get(id_, ""),
        phase(device.phase),
    ]
    if id_ in wiring.build.unsettled:
        said.insert(0, "a link of it has a fault, see the findings")
    if id_ in feeds:
        said.insert(0, f"feeds {', '.join(feeds[id_])}")
    if id_ in wired:
        said.insert(0, f"cabled on one side only: {', '.join(wired[id_])}")
    return BETWEEN.join(filter(None, said))


def rest_pictures(found: tuple[Remark, ...], width: float, tallest: float) -> tuple[Picture, ...]:
    """Boxes `width` wide, of as many columns as fit, each no taller than `tallest`; none without remarks."""
    columns = max(1, min(len(found) // 2, int((width - _PAD) // _COLUMN)))
    most = columns * max(1, int((tallest - _HEAD - _PAD) // _LINE))
    return tuple(_box(found[start : start + most], columns, width) for start in range(0, len(found), most))


def _box(found: tuple[Remark, ...], columns: int, width: float) -> Picture:
    rows = -(-len(found) // columns)
    height = _HEAD + rows * _LINE + _PAD / 2
    parts = [
        svg.rect(0, 0, width, height, stroke=palette.HAIR, weight=0.8, dash=palette.ALARM_DASH),
        svg.text(_PAD, 13, "Not on the network", NAME_SIZE, is_bold=True, colour=QUIET),
    ]
    step = (width - _PAD) / columns
    for index, remark in enumerate(found):
        column, row = divmod(index, rows)
        parts.append(_remark(remark, _PAD + column * step, _HEAD + 8 + row * _LINE, step - _PAD))
    return Picture("".join(parts), width, height)


def _remark(remark: Remark, x: float, base: float, room: float) -> str:
    name = font.clip(remark.name, room * 0.6, TEXT_SIZE, True)
    after = font.width(name, TEXT_SIZE, True) + 5
    return svg.group(
        f"{remark.name}: {remark.words}",
        svg.text(x, base, name, TEXT_SIZE, is_bold=True),
        svg.text(x + after, base, remark.words, SMALL_SIZE, colour=QUIET, room=room - after),
    )
