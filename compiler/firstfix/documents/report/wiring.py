"""Cabling in tables: the schedule of installed runs, the cords, the jacks of panels and outlets, and the ports of devices."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import RUN, Length, Piece
from firstfix.build.hardware import Device
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.documents.report.made import Made
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.manageable import has_ports
from firstfix.documents.stubs.place import place_of
from firstfix.documents.stubs.ports import PortRow, free_jacks, port_rows
from firstfix.finding.figures import quantity
from firstfix.graphs.administration import identifiers
from firstfix.parts.facts import Fact
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.purchase.lines import title_of
from firstfix.units import metres
from firstfix.work.survey import piece_name

_FREE = "free"
# Terms of a length in millimetres: the narrowest that a tape measures.
_DIGITS = 3


class RunRow(NamedTuple):
    """One installed run. `label` is what it says at its first end; at the other the two change places."""

    number: str
    near: str
    far: str
    ways: str
    length: str
    terms: tuple[str, ...]
    part: str
    label: str


class CordRow(NamedTuple):
    near: str
    far: str
    length: str
    part: str
    colour: str


class JackRow(NamedTuple):
    """A passive jack: what is wired behind it, what is plugged in before it."""

    jack: str
    rear: str
    front: str


class PassiveTable(NamedTuple):
    name: str
    place: str
    rows: tuple[JackRow, ...]


class PortTable(NamedTuple):
    name: str
    place: str
    rows: tuple[PortRow, ...]
    free: str


class Wiring(NamedTuple):
    runs: tuple[RunRow, ...]
    cords: tuple[CordRow, ...]
    passive: tuple[PassiveTable, ...]
    ports: tuple[PortTable, ...]


def wiring(made: Made) -> Wiring:
    build, look = made.build, made.look
    pieces = sorted(build.pieces.values(), key=lambda piece: natural(piece_name(piece)))
    runs = [piece for piece in pieces if piece.kind == RUN]
    devices = sorted(build.devices.values(), key=lambda device: natural(device.name))
    return Wiring(
        tuple(_run(build, piece, number) for number, piece in enumerate(runs, 1)),
        tuple(_cord(build, piece) for piece in pieces if piece.kind != RUN),
        tuple(_passive(look, device) for device in devices if device.part.kind in TERMINATION_KINDS),
        tuple(_ports(look, device) for device in devices if has_ports(device)),
    )


def _run(build: Build, piece: Piece, number: int) -> RunRow:
    return RunRow(
        str(number),
        _end(build, piece.ends[0]),
        _end(build, piece.ends[1]),
        ", ".join(_way(build, way) for way in piece.route) or "no way between rooms",
        _length(piece.length),
        _terms(piece.length),
        title_of(build.library.get(piece.part), piece.part),
        identifiers(build).cable(piece, piece.ends[0]),
    )


def _cord(build: Build, piece: Piece) -> CordRow:
    part = title_of(build.library.get(piece.part), piece.part)
    near, far = map(own_jack, piece.ends)
    return CordRow(near, far, _length(piece.length), part, piece.colour or "any")


def own_jack(jack: str) -> str:
    """A jack as the author would say it, whichever its face: `panel/3`."""
    return ids.path(jack).removesuffix("@rear")


def _end(build: Build, jack: str) -> str:
    """`panel/3 (study)`"""
    known = build.jacks.get(jack)
    device = build.devices.get(known.device) if known else None
    room = build.rooms.get(device.room) if device else None
    return f"{own_jack(jack)} ({room.name})" if room else own_jack(jack)


def _way(build: Build, way: str) -> str:
    known = build.ways.get(way)
    return known.name if known else ids.path(way)


def _length(length: Length) -> str:
    figure = length.figure
    return metres(figure.typical) if isinstance(figure, Fact) else f"cannot tell ({figure.why})"


def _terms(length: Length) -> tuple[str, ...]:
    known = (f"{quantity(term.value, 'm', _DIGITS)} {term.what}" for term in length.terms)
    return (*known, *(f"not known: {each}" for each in length.missing))


def _passive(look: Lookup, device: Device) -> PassiveTable:
    names = dict.fromkeys(look.build.jacks[jack].name for jack in look.build.jacks_of.get(device.id, ()))
    rows = tuple(
        JackRow(name, *(_wired_to(look, ids.jack(device.name, name, face)) for face in ("rear", "front")))
        for name in names
    )
    return PassiveTable(
        device.name,
        place_of(look, device),
        tuple(row for row in rows if (row.rear, row.front) != (_FREE, _FREE)),
    )


def _wired_to(look: Lookup, jack: str) -> str:
    ends = (end for piece in look.pieces.get(jack, ()) for end in piece.ends if end != jack)
    return ", ".join(map(own_jack, ends)) or _FREE


def _ports(look: Lookup, device: Device) -> PortTable:
    return PortTable(device.name, place_of(look, device), port_rows(look, device), free_jacks(look, device))
