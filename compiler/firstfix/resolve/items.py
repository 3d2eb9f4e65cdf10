"""Every physical thing that must be at hand, screws included, each with what needs it. Nothing is counted by a constant per plan:
take a device, a jack or a hop away and its things go with it."""

from collections.abc import Iterator
from operator import itemgetter
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import IN_A_BOX, IN_PLACE, TO_BUY, Device, Fitting, Item, Jack
from firstfix.build.power import MainsFeed
from firstfix.parts.facts import Fact
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import CAGE_FAMILIES, TERMINATION_KINDS, Library, Part
from firstfix.plan.model import CablingSpec
from firstfix.resolve.boxes import Boxes
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.fasteners import Fasteners
from firstfix.resolve.jacks import JackField
from firstfix.resolve.leads import LOCAL, Leads
from firstfix.resolve.modules import Modules
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.settle import find_part

_LABEL = "label-cable"
_TIE = "tie-hook-and-loop"
_POWER_CORD = "power-cord-c13"
# Ties per end of an installed run that ends in a cabinet. Common practice, no source.
_TIES_PER_END = 2


def resolve_items(
    equipment: Equipment,
    pieces: dict[str, Piece],
    field: JackField,
    feeds: tuple[MainsFeed, ...],
    leads: Leads,
    cabling: CablingSpec,
    library: Library,
    notes: Notes,
) -> tuple[Item, ...]:
    maker = _ItemMaker(equipment, field, leads, cabling, library, notes)
    found: list[Item] = []
    for cabinet in equipment.cabinets.values():
        found += maker.thing(
            cabinet.id, cabinet.part, cabinet.room, cabinet.is_owned, "", "the cabinet itself"
        )
    for fitting in equipment.fittings.values():
        found += maker.fitting(fitting)
    for device in equipment.devices.values():
        found += maker.device(device)
    for piece in pieces.values():
        maker.piece(piece, found)
    for feed in feeds:
        found += maker.power_cord(feed)
    found += maker.in_boxes()
    return tuple(sorted(found, key=itemgetter(0)))


class _Opened(NamedTuple):
    """A thing whose box has something in it beside."""

    id: str
    part: Part
    place: str
    is_owned: bool
    phase: str


class _ItemMaker:
    def __init__(
        self,
        equipment: Equipment,
        field: JackField,
        leads: Leads,
        cabling: CablingSpec,
        library: Library,
        notes: Notes,
    ) -> None:
        self._equipment = equipment
        self._field = field
        self._cabling = cabling
        self._library = library
        self._notes = notes
        self._leads = leads
        self._holding = Fasteners(equipment, library)
        self._modules = Modules(cabling, library, notes)
        self._boxes = Boxes()
        self._opened: list[_Opened] = []

    def thing(self, id_: str, part: Part, place: str, is_owned: bool, phase: str, why: str) -> Iterator[Item]:
        """A thing, and what it needs beyond what comes in its box."""
        standing = IN_PLACE if is_owned else TO_BUY
        path = ids.path(id_)
        yield Item(f"item:{path}", part.name, 1, 0.0, place, id_, why, standing, phase)
        if part.in_box:
            self._boxes.unpack(id_, part)
            self._opened.append(_Opened(id_, part, place, is_owned, phase))
        for name, count in part.needs:
            missing = self._boxes.missing(id_, name, count)
            if missing > 0 and find_part(
                name, id_, self._library, self._notes, self._notes.provenance.span(id_)
            ):
                yield Item(
                    f"item:{path}+{name}", name, missing, 0.0, place, id_, "goes with it", standing, phase
                )

    def in_boxes(self) -> Iterator[Item]:
        """What came in the boxes. Comes last, when it is known what of it has become an item of its own."""
        for each in self._opened:
            for name, count in self._boxes.rest(each.id, each.part):
                if name in self._library:
                    item_id = f"item:{ids.path(each.id)}+{name}-in-box"
                    standing = IN_PLACE if each.is_owned else IN_A_BOX
                    yield Item(
                        item_id, name, count, 0.0, each.place, each.id, "comes with it", standing, each.phase
                    )

    def fitting(self, fitting: Fitting) -> Iterator[Item]:
        cabinet = self._equipment.cabinets[fitting.cabinet]
        yield from self.thing(
            fitting.id, fitting.part, cabinet.room, fitting.is_owned, "", "fitted in the cabinet"
        )
        yield from self._fasteners(fitting.id, fitting.part, fitting.cabinet, fitting.is_owned, "")

    def device(self, device: Device) -> Iterator[Item]:
        yield from self.thing(
            device.id, device.part, device.room, device.is_owned, device.phase, "the device itself"
        )
        if (
            device.cabinet
            and not device.carried_by
            and device.part.rack is not None
            and device.part.rack.height
        ):
            yield from self._fasteners(device.id, device.part, device.cabinet, device.is_owned, device.phase)

    def _fasteners(self, id_: str, part: Part, cabinet_id: str, is_owned: bool, phase: str) -> Iterator[Item]:
        cabinet = self._equipment.cabinets[cabinet_id]
        name = self._holding.holding(id_, part, cabinet.rails, cabinet.thread)
        if not name:
            if part.fixings:
                message = f"no fastener in the library suits rails with {cabinet.rails or 'holes nobody named'} and thread {cabinet.thread or 'unknown'}"
                self._notes.gap(
                    "fastener-unknown", cabinet_id, message, self._notes.provenance.span(cabinet_id)
                )
            return
        # What a part names as needed is an item already.
        named = sum(count for each, count in part.needs if each == name)
        missing = self._boxes.missing(id_, name, max(part.fixings - named, 0))
        if missing > 0:
            standing = IN_PLACE if is_owned else TO_BUY
            yield Item(
                f"item:{ids.path(id_)}+{name}{'-more' if named else ''}",
                name,
                missing,
                0.0,
                cabinet.room,
                id_,
                "holds it on the rails",
                standing,
                phase,
            )

    def piece(self, piece: Piece, found: list[Item]) -> None:
        """The piece, its labels and what its ends need. Added to `found`: a generator for each of so many costs a tenth of the pass."""
        near, far = self._field.jacks[piece.ends[0]], self._field.jacks[piece.ends[1]]
        near_device, far_device = self._equipment.devices[near.device], self._equipment.devices[far.device]
        path = ids.path(piece.id)
        phase = near_device.phase or far_device.phase
        metres = 0.0
        if piece.kind == RUN:
            figure = piece.length.figure
            metres = figure.high if isinstance(figure, Fact) else 0.0
        why = f"{near_device.name}/{near.name} to {far_device.name}/{far.name}"
        standing = IN_PLACE if piece.is_owned else TO_BUY
        room = near_device.room
        found.append(Item(f"item:{path}", piece.part, 1, metres, room, piece.id, why, standing, phase))
        if not piece.is_owned:
            found.append(
                Item(f"item:{path}+label", _LABEL, 2, 0.0, room, piece.id, "one at each end", TO_BUY, phase)
            )
        self._end(piece, f"item:{path}@0", near, near_device, phase, found)
        self._end(piece, f"item:{path}@1", far, far_device, phase, found)

    def _end(self, piece: Piece, id_: str, jack: Jack, device: Device, phase: str, found: list[Item]) -> None:
        is_run, room = piece.kind == RUN, device.room
        if is_run and device.cabinet and not piece.is_owned:
            standing = self._standing(device, _TIE, _TIES_PER_END)
            why = "dresses the run in the cabinet"
            found.append(Item(f"{id_}+tie", _TIE, _TIES_PER_END, 0.0, room, piece.id, why, standing, phase))
        if jack.family in CAGE_FAMILIES and self._needs_transceiver(piece):
            name = self._transceiver(jack, piece)
            if name:
                standing = IN_PLACE if piece.is_owned else self._standing(device, name, 1)
                why = f"light for {device.name}/{jack.name}"
                found.append(Item(f"{id_}+{name}", name, 1, 0.0, room, piece.id, why, standing, phase))
        elif jack.needs_module and jack.face == "rear":
            self._modules.fill(jack, device, piece.part)
            found.append(self._module(jack, device, phase, piece.is_owned))
        elif is_run and device.part.kind not in TERMINATION_KINDS:
            name = self._cabling.plugs
            standing = IN_PLACE if piece.is_owned else self._standing(device, name, 1)
            why = f"ends the run at {device.name}/{jack.name}"
            found.append(Item(f"{id_}+plug", name, 1, 0.0, room, piece.id, why, standing, phase))

    def _standing(self, device: Device, name: str, count: int) -> str:
        """Of small parts at the end of a piece: what came in the device's box is not bought again."""
        return IN_A_BOX if not device.is_owned and self._boxes.has(device.id, name, count) else TO_BUY

    def _module(self, jack: Jack, device: Device, phase: str, is_run_owned: bool) -> Item:
        name = self._cabling.jacks
        standing = IN_PLACE if device.is_owned else self._standing(device, name, 1)
        if standing == TO_BUY and is_run_owned:
            standing = IN_PLACE
        return Item(
            f"item:{device.name}/{jack.name}+jack",
            name,
            1,
            0.0,
            device.room,
            device.id,
            f"fills opening {jack.name}",
            standing,
            phase,
        )

    def _needs_transceiver(self, piece: Piece) -> bool:
        form = self._library[piece.part].cable
        return form is not None and form.medium == "fibre"

    def _transceiver(self, jack: Jack, piece: Piece) -> str:
        """The transceiver of the cage's family whose fibre the piece has."""
        form = self._library[piece.part].cable
        wanted = form.category if form is not None else ""
        fitting = [
            part.name
            for part in parts_of_kind(self._library, "transceiver")
            if part.fits == jack.family and part.category in ("", wanted)
        ]
        if not fitting:
            message = f"no transceiver in the library fits a {jack.family} cage and {wanted} fibre"
            self._notes.gap(
                "transceiver-unknown", piece.link, message, self._notes.provenance.span(piece.link)
            )
            return ""
        return min(fitting)

    def power_cord(self, feed: MainsFeed) -> Iterator[Item]:
        device = self._equipment.devices[feed.device]
        if device.part.mains.inlet != "coupler":
            return
        source = self._equipment.devices.get(feed.source)
        name = self._leads.cord(device.part.mains, LOCAL if source is None else source.part.mains.sockets)
        # Where no cord suits, the feed is not there or the parts do not say their shapes.
        name = name or _POWER_CORD
        if not self._boxes.missing(device.id, name, 1):
            return
        standing = IN_PLACE if device.is_owned else TO_BUY
        ordinal = f"#{feed.inlet}" if feed.inlet > 1 else ""
        yield Item(
            f"item:{device.name}+{name}{ordinal}",
            name,
            1,
            0.0,
            device.room,
            device.id,
            "plugs it into the mains",
            standing,
            device.phase,
        )


def used_parts(cabling: CablingSpec, library: Library, notes: Notes) -> None:
    """The cabling's small parts exist; a wrong name is reported once, at its place."""
    for key, name in (("jacks", cabling.jacks), ("plugs", cabling.plugs)):
        at = value_span(cabling.written, key)
        find_part(name, "cabling", library, notes, at)
