"""Every label that is stuck on: what it goes on, where that is, and what it says.

Takes a build; gives one row for each label that the shopping list counts, so that the two can't differ. What is owned already has none.
"""

from collections.abc import Iterator
from enum import Enum
from typing import NamedTuple

from firstfix.build.administration import CABLE_LABEL, JACK_LABEL, NAME_LABEL, OUTDOOR_LABEL
from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import Cabinet, Device
from firstfix.build.ids import NaturalKey, natural
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.graphs.administration import identifiers
from firstfix.graphs.cabinet_view import mounted_in
from firstfix.parts.facts import NOT_SAID, Figure


class On(Enum):
    """What a label is stuck on; each has a form of its own. The value is the word of the table."""

    THING = "plate"
    CABLE = "cable flag"
    JACK = "jack"
    CABLE_OUTDOORS = "tag outdoors"


class PhysicalLabel(NamedTuple):
    """`near` is what it goes on, `far` the other end of the cable ("" for a plate); `identifier` is both, as the scheme joins them.

    `subject` is the id of the cable, device or cabinet; `jack` that of the jack, "" for a plate. `units` are those of the cabinet, as
    text. `diameter`: metres, of the cable it wraps; `is_run`: whether that is installed. `name`: the plan's own, where the identifier
    doesn't say it. `part`: of the library. `code`: the text of its code, the same at both ends of a cable, "" for none.
    """

    on: On
    subject: str
    jack: str
    near: str
    far: str
    identifier: str
    name: str
    room: str
    cabinet: str
    units: str
    diameter: Figure
    part: str
    phase: str
    is_run: bool = False
    code: str = ""


@once_per_build
def physical_labels(build: Build) -> tuple[PhysicalLabel, ...]:
    """In the order of the work: plates, then the ends of runs and of cords, two by two, then jacks, device by device."""
    return tuple(sorted(_Labels(build).all(), key=_order))


_FIRST = {on: place for place, on in enumerate((On.THING, On.CABLE, On.CABLE_OUTDOORS, On.JACK))}


def _order(label: PhysicalLabel) -> tuple[int, bool, NaturalKey, NaturalKey, NaturalKey]:
    first = (_FIRST[label.on], not label.is_run)
    if label.on is On.THING:
        return (*first, natural(label.room), natural(label.near), ())
    return (*first, natural(label.subject), natural(label.jack), natural(label.far))


class _Labels:
    def __init__(self, build: Build) -> None:
        self._build = build
        self._names = identifiers(build)
        self._units = {
            mount.item: str(mount.low) if mount.low == mount.high else f"{mount.low}-{mount.high}"
            for mounts in mounted_in(build).values()
            for mount in mounts
        }
        self._at: dict[str, list[Piece]] = {}
        for piece in build.pieces.values():
            for end in dict.fromkeys(piece.ends):
                self._at.setdefault(end, []).append(piece)
        # Each new piece has labels, whose phase is its own.
        self._phases = {
            item.for_id: item.phase for item in build.items if item.part in (CABLE_LABEL, OUTDOOR_LABEL)
        }

    def all(self) -> Iterator[PhysicalLabel]:
        """What the items count, each of them one label."""
        wanted = {(item.for_id, item.part): item.phase for item in self._build.items if item.part in _PARTS}
        for (subject, part), phase in sorted(wanted.items()):
            piece = self._build.pieces.get(subject)
            if piece is not None:
                yield from self._ends(piece, part, phase)
            elif part == JACK_LABEL:
                yield from self._jacks(self._build.devices[subject])
            else:
                yield self._plate(subject, part, phase)

    def _plate(self, subject: str, part: str, phase: str) -> PhysicalLabel:
        device = self._build.devices.get(subject)
        thing = device or self._build.cabinets[subject]
        identifier = (self._names.devices if device else self._names.cabinets)[subject]
        name = "" if identifier == thing.name.upper() else thing.name
        place = self._place(thing)
        return PhysicalLabel(
            On.THING,
            subject,
            "",
            identifier,
            "",
            identifier,
            name,
            *place,
            NOT_SAID,
            part,
            phase,
            code=identifier,
        )

    def _ends(self, piece: Piece, part: str, phase: str) -> Iterator[PhysicalLabel]:
        for end in piece.ends:
            is_outdoors = self._is_outdoors(end)
            if is_outdoors == (part == OUTDOOR_LABEL):
                yield self._end(piece, end, On.CABLE_OUTDOORS if is_outdoors else On.CABLE, part, phase)

    def _is_outdoors(self, jack: str) -> bool:
        room = self._build.rooms.get(self._device(jack).room)
        return room is not None and room.is_outdoors

    def _end(self, piece: Piece, end: str, on: On, part: str, phase: str) -> PhysicalLabel:
        other = piece.ends[0] if end == piece.ends[1] else piece.ends[1]
        jacks = self._names.jacks
        place = self._place(self._device(end))
        form = self._build.library[piece.part].cable if piece.part in self._build.library else None
        diameter = NOT_SAID if form is None else form.diameter
        said = self._names.cable(piece, end)
        # A jack's label is too small for a code, and a tag outdoors is engraved.
        whole = self._names.cable(piece, piece.ends[0]) if on is On.CABLE else ""
        return PhysicalLabel(
            on,
            piece.id,
            end,
            jacks[end],
            jacks[other],
            said,
            "",
            *place,
            diameter,
            part,
            phase,
            piece.kind == RUN,
            whole,
        )

    def _jacks(self, device: Device) -> Iterator[PhysicalLabel]:
        """One for each new run that comes to it, in the phase of the run."""
        for jack in self._build.jacks_of.get(device.id, ()):
            for piece in self._at.get(jack, ()):
                if piece.kind == RUN and not piece.is_owned:
                    phase = self._phases.get(piece.id, "")
                    said = self._end(piece, jack, On.JACK, JACK_LABEL, phase)
                    yield said._replace(subject=device.id, diameter=NOT_SAID, is_run=False)

    def _device(self, jack: str) -> Device:
        return self._build.devices[self._build.jacks[jack].device]

    def _place(self, thing: Device | Cabinet) -> tuple[str, str, str]:
        """Its room, its cabinet and the units there, by name."""
        room = self._build.rooms.get(thing.room)
        cabinet = self._build.cabinets.get(thing.cabinet) if isinstance(thing, Device) else None
        on = thing.carried_by if isinstance(thing, Device) and thing.carried_by else thing.id
        shown = "" if room is None else room.name
        return shown, "" if cabinet is None else cabinet.name, self._units.get(on, "")


_PARTS = frozenset((CABLE_LABEL, OUTDOOR_LABEL, JACK_LABEL, NAME_LABEL))
