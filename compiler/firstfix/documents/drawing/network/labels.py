"""The words at a trunk: its way, its length and medium, what stands in line, and the power it carries."""

from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import QUIET, SMALL_SIZE
from firstfix.documents.drawing.network.wiring import Wire, device_of
from firstfix.parts.facts import Fact
from firstfix.units import metres

WIDE_LABEL, NARROW_LABEL = 122.0, 92.0
_LINE = 9.0


class Label(NamedTuple):
    """Lines with their weight and colour, and the size of the whole."""

    lines: tuple[tuple[str, bool, str], ...]

    @property
    def size(self) -> tuple[float, float]:
        if not self.lines:
            return 0.0, 0.0
        widest = max(font.width(text, SMALL_SIZE, is_bold) for text, is_bold, _ in self.lines)
        return float(int(widest) + 9), float(int(_LINE * len(self.lines)) + 6)


def trunk_label(build: Build, wire: Wire, lanes: int = 1, room: float = WIDE_LABEL) -> Label:
    """What stands at the trunk. Between buildings the way comes first: that is where one digs."""
    lines = [(text, True, palette.INK) for text in _way_lines(build, wire, room - 12)]
    many = f"{lanes} lanes, " if lanes > 1 else ""
    lines += [
        (text, False, palette.INK)
        for text in font.wrap(f"{many}{wire.cable}, {wire.length}", room, SMALL_SIZE, 2)
    ]
    if wire.via:
        lines += [
            (text, False, QUIET) for text in font.wrap("via " + ", ".join(wire.via), room, SMALL_SIZE, 4)
        ]
    if wire.power:
        lines += [(text, False, palette.POWER) for text in font.wrap(wire.power, room, SMALL_SIZE, 2)]
    if wire.spare_for:
        lines += [
            (text, False, QUIET) for text in font.wrap(f"spare for {wire.spare_for}", room, SMALL_SIZE, 2)
        ]
    return Label(tuple(lines))


def short_label(build: Build, wire: Wire, lanes: int = 1) -> Label:
    """The way's name where the trunk joins buildings, cable and length: for an overview with little room."""
    names = [build.ways[way].name for way in wire.ways if way in build.ways]
    shown = ", ".join(names) if joins_buildings(build, wire) else ""
    many = f"{lanes} lanes, " if lanes > 1 else ""
    lines = [(shown, True)] if shown else []
    lines += [(f"{many}{wire.cable}, {wire.length}", False)]
    return Label(
        tuple(
            (line, is_bold, palette.INK)
            for words, is_bold in lines
            for line in font.wrap(words, NARROW_LABEL, SMALL_SIZE, 2)
        )
    )


def joins_buildings(build: Build, wire: Wire) -> bool:
    rooms = [
        build.rooms.get(device.room)
        for end in (wire.near, wire.far)
        if (device := build.devices.get(device_of(build, end)))
    ]
    return len({room.building for room in rooms if room}) > 1


def _way_lines(build: Build, wire: Wire, room: float) -> list[str]:
    if not joins_buildings(build, wire):
        return []
    lines: list[str] = []
    for way in (build.ways[each] for each in wire.ways if each in build.ways):
        length = metres(way.length.high) if isinstance(way.length, Fact) else "length not known"
        lines += font.wrap(f"{way.name}, {way.kind.replace('-', ' ')}, {length}", room, SMALL_SIZE, 3)
    return lines[:6]


def draw_label(label: Label, centre: tuple[float, float], under: str) -> str:
    """Centred, on a patch of the ground's colour so that no line runs through the words."""
    width, height = label.size
    left, top = centre[0] - width / 2, centre[1] - height / 2
    parts = [svg.rect(left + 1, top + 2.5, width - 2, height - 5, fill=under)]
    for index, (text, is_bold, colour) in enumerate(label.lines):
        base = top + 3 + _LINE * index + SMALL_SIZE * font.ASCENT + 0.8
        parts.append(
            svg.text(
                centre[0],
                base,
                text,
                SMALL_SIZE,
                is_bold=is_bold,
                colour=colour,
                anchor="middle",
                room=width - 4,
            )
        )
    return "".join(parts)
