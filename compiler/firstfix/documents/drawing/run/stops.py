"""What one channel passes, in words: its stops, the pieces between them, and what holds for the whole.

Takes a build and a channel; gives stops from one end to the other. Lengths add up from the first stop, unknown from the first gap on.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from firstfix.build.cabling import RUN, Channel, Joint, Piece
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.documents.drawing.kit.palette import BETWEEN, Stroke, wire_stroke
from firstfix.documents.drawing.network.entries import building_name, phase, room_name
from firstfix.documents.drawing.network.wiring import device_name, device_of, heights, jack_name
from firstfix.graphs.administration import identifiers
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import metres, number

NOT_KNOWN = "? m"
# A fibre has no wires: it comes in plugs that its seller put on, or is spliced to pigtails, which the shopping list tells.
_FIBRE_HOW = {("fibre", "wires on block"): "fibre ends"}


class JackLine(NamedTuple):
    """One jack that the channel uses: `how` the cable ends there, `label` what the label on it says."""

    name: str
    label: str
    how: str
    is_powered: bool


class Along(NamedTuple):
    """A piece that leads on to the next stop. `label`: on its end at this stop. `ways` with their kind and length; `sum_of`: its terms."""

    kind: str
    length: str
    part: str
    label: str
    ways: tuple[str, ...]
    sum_of: str
    colour: str
    note: str
    stroke: Stroke


class Stop(NamedTuple):
    """A device on the way; `reached` how far from the first one, `along` None at the last one."""

    name: str
    part: str
    place: str
    is_passive: bool
    jacks: tuple[JackLine, ...]
    power: str
    reached: str
    along: Along | None


def stops(build: Build, channel: Channel, is_turned: bool = False) -> tuple[Stop, ...]:
    """From the channel's first end to its second, or the other way round."""
    start = channel.ends[1 if is_turned else 0]
    pieces = [build.pieces[each] for each in channel.pieces if each in build.pieces]
    ordered = _in_order(build, pieces[::-1] if is_turned else pieces, start)
    joints = {(joint.piece, joint.jack): joint for joint in build.joints if joint.piece in channel.pieces}
    run = next((each for each in build.power_runs.values() if each.channel == channel.id), None)
    return tuple(_stops(build, channel, ordered, joints, run))


Turned = tuple[Piece, str, str]


def _in_order(build: Build, pieces: Sequence[Piece], start: str) -> list[Turned]:
    """Each piece with the jacks that it comes from and goes to."""
    at, found = device_of(build, start), []
    for piece in pieces:
        first, second = piece.ends
        if device_of(build, first) != at and device_of(build, second) == at:
            first, second = second, first
        found.append((piece, first, second))
        at = device_of(build, second)
    return found


def _stops(
    build: Build,
    channel: Channel,
    pieces: Sequence[Turned],
    joints: dict[tuple[str, str], Joint],
    run: PowerRun | None,
) -> Iterator[Stop]:
    total: float | None = 0.0
    for index in range(len(pieces) + 1):
        into, out = pieces[index - 1] if index else None, pieces[index] if index < len(pieces) else None
        here = [(into[0], into[2])] if into else []
        here += [(out[0], out[1])] if out else []
        if not here:
            return
        device = device_of(build, here[0][1])
        if into is not None:
            total = _added(total, into[0])
        yield Stop(
            device_name(build, device),
            _part(build, device),
            _place(build, device),
            device in channel.through,
            tuple(_jacks(build, here, channel.medium, joints, run)),
            _power(run, [jack for _, jack in here]),
            "" if into is None else NOT_KNOWN if total is None else metres(round(total, 2)),
            _along(build, out, channel.medium, run) if out else None,
        )


def _added(total: float | None, piece: Piece) -> float | None:
    figure = piece.length.figure
    return None if total is None or isinstance(figure, Unknown) else total + figure.high


def _part(build: Build, device: str) -> str:
    known = build.devices.get(device)
    return known.part.title if known else "not in the plan"


def _place(build: Build, device: str) -> str:
    known = build.devices.get(device)
    if known is None:
        return ""
    room = build.rooms.get(known.room)
    building = building_name(build, room.building) if room and len(build.buildings) > 1 else ""
    where = ", ".join(filter(None, (room_name(build, known), building)))
    return BETWEEN.join(filter(None, (where, heights(build).get(device, ""), phase(known.phase))))


def _jacks(
    build: Build,
    here: Sequence[tuple[Piece, str]],
    medium: str,
    joints: dict[tuple[str, str], Joint],
    run: PowerRun | None,
) -> Iterator[JackLine]:
    """Front and rear of one jack are one line."""
    powered = (run.source, run.sink) if run else ()
    lines: dict[str, list[tuple[str, str]]] = {}
    for piece, jack in here:
        joint = joints.get((piece.id, jack))
        face = "behind: " if jack.endswith("@rear") else "in front: " if _has_rear(build, jack) else ""
        how = joint.how if joint else ""
        lines.setdefault(jack_name(build, jack), []).append((jack, face + _FIBRE_HOW.get((medium, how), how)))
    labels = identifiers(build).jacks
    for name, said in lines.items():
        label = labels.get(said[0][0], "")
        how = BETWEEN.join(how for _, how in said if how)
        yield JackLine(name, label, how, any(jack in powered for jack, _ in said))


def _has_rear(build: Build, jack: str) -> bool:
    return f"{jack}@rear" in build.jacks


def _power(run: PowerRun | None, jacks: Sequence[str]) -> str:
    if run is None:
        return ""
    if run.source in jacks:
        return f"gives PoE: {_watts(run.reserved)} of its budget at the most"
    if run.sink in jacks:
        return f"takes PoE: {_watts(run.drawn)} at the most"
    return ""


def _watts(figure: Figure) -> str:
    return "? W" if isinstance(figure, Unknown) else f"{number(figure.high, 1)} W"


def _along(build: Build, turned: Turned, medium: str, run: PowerRun | None) -> Along:
    piece, start, _ = turned
    part = build.library.get(piece.part)
    is_run = piece.kind == RUN
    length = piece.length
    figure = length.figure
    return Along(
        piece.kind,
        NOT_KNOWN if isinstance(figure, Unknown) else metres(figure.high),
        part.title if part else piece.part,
        identifiers(build).cable(piece, start),
        tuple(_ways(build, piece.route if start == piece.ends[0] else piece.route[::-1])),
        _sum_of(piece),
        piece.colour,
        "there already" if piece.is_owned else "",
        wire_stroke(medium, is_run, run is not None and piece.id in run.pieces),
    )


def _ways(build: Build, route: Sequence[str]) -> Iterator[str]:
    for way in (build.ways[each] for each in route if each in build.ways):
        length = metres(way.length.high) if isinstance(way.length, Fact) else "length not known"
        yield f"{way.name} ({way.kind.replace('-', ' ')}, {length})"


def _sum_of(piece: Piece) -> str:
    """What its length is made of; what is missing in it, where that is why it isn't known."""
    if piece.length.missing:
        return f"not known: {'; '.join(piece.length.missing)}"
    terms = [f"{metres(round(term.value, 2))} {term.what}" for term in piece.length.terms if term.value]
    if piece.length.sold:
        return f"needs {' + '.join(terms)}; sold in {metres(piece.length.sold)}" if terms else ""
    return " + ".join(terms)
