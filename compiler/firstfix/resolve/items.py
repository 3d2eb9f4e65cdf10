"""Every physical thing that must be at hand, screws included, each with what needs it. Nothing is counted by a constant per plan:
take a device, a jack or a hop away and its things go with it."""

from collections.abc import Iterable, Iterator
from operator import itemgetter
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.administration import CABLE_LABEL, JACK_LABEL, NAME_LABEL, OUTDOOR_LABEL
from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import IN_A_BOX, IN_PLACE, TO_BUY, Cabinet, Device, Fitting, Item
from firstfix.build.power import MainsFeed
from firstfix.parts.facts import Fact
from firstfix.parts.part import (
    ACTIVE_KINDS,
    CAGE_FAMILIES,
    INLINE_KINDS,
    MAINS_KINDS,
    TERMINATION_KINDS,
    Library,
    Part,
)
from firstfix.plan.model import CablingSpec
from firstfix.resolve.boxes import Boxes
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.fasteners import Fasteners
from firstfix.resolve.in_phases import PiecePhases, at
from firstfix.resolve.jacks import JackField
from firstfix.resolve.lead_lengths import LeadLengths
from firstfix.resolve.leads import LOCAL, Leads
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.piece_ends import TIE, PieceEnds
from firstfix.resolve.places import Places
from firstfix.resolve.settle import find_part
from firstfix.resolve.way_material import way_items

_BOTH_ENDS, _ONE_END = "one at each end", "at one end"
_POWER_CORD = "power-cord-c13"
# What closes an opening without a module, by the opening.
_COVERS = {"keystone": "opening-cover"}
# One tie for every two cords of a cabinet: common practice, no source.
_CORDS_PER_TIE = 2
# What bears a label with its name: whatever one might look for when something fails.
_NAMED_KINDS = frozenset((*ACTIVE_KINDS, *INLINE_KINDS, *MAINS_KINDS, "panel", "cabinet"))


def resolve_items(
    equipment: Equipment,
    places: Places,
    pieces: dict[str, Piece],
    field: JackField,
    feeds: tuple[MainsFeed, ...],
    leads: Leads,
    cabling: CablingSpec,
    library: Library,
    phased: PiecePhases,
    notes: Notes,
) -> tuple[Item, ...]:
    outdoors = frozenset(room.id for room in places.rooms.values() if room.is_outdoors)
    maker = _ItemMaker(equipment, field, leads, cabling, library, outdoors, phased, notes)
    found = maker.found
    for cabinet in equipment.cabinets.values():
        maker.cabinet(cabinet)
    for fitting in equipment.fittings.values():
        maker.fitting(fitting)
    for device in equipment.devices.values():
        maker.device(device)
    maker.pieces(pieces.values())
    for feed in feeds:
        found += maker.power_cord(feed)
    maker.at_jacks()
    maker.cord_ties()
    found += way_items(places.ways, places.rooms, pieces, library, phased)
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
    """Appends to `found`: a generator for each of so many things costs a tenth of the pass."""

    def __init__(
        self,
        equipment: Equipment,
        field: JackField,
        leads: Leads,
        cabling: CablingSpec,
        library: Library,
        outdoors: frozenset[str],
        phased: PiecePhases,
        notes: Notes,
    ) -> None:
        self.found: list[Item] = []
        self._equipment = equipment
        self._field = field
        self._library = library
        self._notes = notes
        self._leads = leads
        self._lead_lengths = LeadLengths(equipment, cabling, library)
        self._outdoors = outdoors
        self._phased = phased
        self._holding = Fasteners(equipment, library)
        self._boxes = Boxes()
        self._ends = PieceEnds(cabling, library, self._boxes, notes)
        self._opened: list[_Opened] = []
        self._cords_in: dict[str, dict[str, int]] = {}
        self._openings: dict[str, tuple[tuple[str, int], ...]] = {}

    def _thing(self, id_: str, part: Part, place: str, is_owned: bool, phase: str, why: str) -> None:
        """A thing, and what it needs beyond what comes in its box."""
        standing = IN_PLACE if is_owned else TO_BUY
        path = ids.path(id_)
        found = self.found
        found.append(Item(f"item:{path}", part.name, 1, 0.0, place, id_, why, standing, phase))
        # An outlet's jacks are labelled, and outdoors the tag on the cable tells the name.
        if not is_owned and part.kind in _NAMED_KINDS and place not in self._outdoors:
            item_id = f"item:{path}+{NAME_LABEL}"
            found.append(Item(item_id, NAME_LABEL, 1, 0.0, place, id_, "says its name", TO_BUY, phase))
        if part.in_box:
            self._boxes.unpack(id_, part)
            self._opened.append(_Opened(id_, part, place, is_owned, phase))
        for name, count in part.needs:
            missing = self._boxes.missing(id_, name, count)
            if missing > 0 and find_part(
                name, id_, self._library, self._notes, self._notes.provenance.span(id_)
            ):
                item_id = f"item:{path}+{name}"
                found.append(Item(item_id, name, missing, 0.0, place, id_, "goes with it", standing, phase))

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

    def cabinet(self, cabinet: Cabinet) -> None:
        self._thing(cabinet.id, cabinet.part, cabinet.room, cabinet.is_owned, "", "the cabinet itself")

    def fitting(self, fitting: Fitting) -> None:
        place = self._equipment.cabinets[fitting.cabinet].room
        self._thing(fitting.id, fitting.part, place, fitting.is_owned, "", "fitted in the cabinet")
        self.found += self._fasteners(fitting.id, fitting.part, fitting.cabinet, fitting.is_owned, "")

    def device(self, device: Device) -> None:
        part = device.part
        self._thing(device.id, part, device.room, device.is_owned, device.phase, "the device itself")
        if device.cabinet and not device.carried_by and part.rack is not None and part.rack.height:
            self.found += self._fasteners(device.id, part, device.cabinet, device.is_owned, device.phase)

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

    def pieces(self, pieces: Iterable[Piece]) -> None:
        """Each piece, its labels and what its ends need. One loop, since there are so many of them."""
        jacks, devices, found, ends = self._field.jacks, self._equipment.devices, self.found, self._ends
        phase_of = self._phased.of
        for piece in pieces:
            id_, _, kind, part, (near_id, far_id), _, length, _, is_owned = piece
            near, far = jacks[near_id], jacks[far_id]
            near_device, far_device = devices[near.device], devices[far.device]
            item_id = f"item:{id_[6:]}"  # without "piece:"
            phase = phase_of.get(id_, "")
            is_run = kind == RUN
            figure = length.figure if is_run else None
            metres = figure.high if isinstance(figure, Fact) else 0.0
            why = f"{near_device.name}/{near.name} to {far_device.name}/{far.name}"
            standing = IN_PLACE if is_owned else TO_BUY
            room = near_device.room
            found.append(Item(item_id, part, 1, metres, room, id_, why, standing, phase))
            if not is_owned:
                if self._outdoors:
                    self._label_ends(piece, item_id, room, far_device.room, phase)
                else:
                    label_id = f"{item_id}+label"
                    found.append(Item(label_id, CABLE_LABEL, 2, 0.0, room, id_, _BOTH_ENDS, TO_BUY, phase))
                if not is_run and (near_device.cabinet or far_device.cabinet):
                    self._count_cord(near_device.cabinet, far_device.cabinet, phase)
            # The plugs of a cord into equipment are its own; most pieces are such cords. A cage wants a module.
            if (
                is_run
                or near.face == "rear"
                or far.face == "rear"
                or near.family in CAGE_FAMILIES
                or far.family in CAGE_FAMILIES
                or ends.is_light(piece)
            ):
                ends.add(piece, f"{item_id}@0", near, near_device, phase, found)
                ends.add(piece, f"{item_id}@1", far, far_device, phase, found)

    def _count_cord(self, near: str, far: str, phase: str) -> None:
        for cabinet in {near, far} - {""}:
            cords = self._cords_in.setdefault(cabinet, {})
            cords[phase] = cords.get(phase, 0) + 1

    def _label_ends(self, piece: Piece, item_id: str, near: str, far: str, phase: str) -> None:
        """What wraps round a cable indoors comes off in sun and rain."""
        outdoors = (near in self._outdoors) + (far in self._outdoors)
        for label, count in ((CABLE_LABEL, 2 - outdoors), (OUTDOOR_LABEL, outdoors)):
            if count:
                label_id = f"{item_id}+label" if label == CABLE_LABEL else f"{item_id}+{label}"
                why = _ONE_END if count == 1 else _BOTH_ENDS
                self.found.append(Item(label_id, label, count, 0.0, near, piece.id, why, TO_BUY, phase))

    def at_jacks(self) -> None:
        """Labels for the jacks that runs come to, and covers for openings that stay without a module."""
        for device in self._equipment.devices.values():
            if device.is_owned or device.part.kind not in TERMINATION_KINDS:
                continue
            openings = self._openings_of(device.part)
            ended = self._ends.ended.get(device.id, {})
            wanted = [
                (
                    f"{JACK_LABEL}{at(phase, device.phase)}",
                    JACK_LABEL,
                    count,
                    "one for each jack in use",
                    phase,
                )
                for phase, count in ended.items()
            ]
            if len(openings) == 1:
                name, count = openings[0]
                bare = count - self._ends.filled.get(device.id, 0)
                missing = self._boxes.missing(device.id, name, bare)
                wanted.append((name, name, missing, "closes unused openings", device.phase))
            for id_, name, count, why, phase in wanted:
                if count:
                    item_id = f"item:{device.name}+{id_}"
                    self.found.append(
                        Item(item_id, name, count, 0.0, device.room, device.id, why, TO_BUY, phase)
                    )

    def _openings_of(self, part: Part) -> tuple[tuple[str, int], ...]:
        """Covers for all openings of such a part, with how many there are; looked at once for each part."""
        known = self._openings.get(part.name)
        if known is None:
            covers = [_COVERS[jack.needs_module] for jack in part.jacks if jack.needs_module in _COVERS]
            known = self._openings[part.name] = tuple(
                (each, covers.count(each)) for each in dict.fromkeys(covers)
            )
        return known

    def cord_ties(self) -> None:
        """A tie that holds cords of two phases comes with the first of them."""
        for id_, cords in self._cords_in.items():
            cabinet, so_far, ties = self._equipment.cabinets[id_], 0, 0
            for phase in self._phased.order.in_order(cords):
                so_far += cords[phase]
                count = -(-so_far // _CORDS_PER_TIE) - ties
                ties += count
                item_id = f"item:{ids.path(id_)}+{TIE}{at(phase, cabinet.phase)}"
                if count:
                    why = "holds its cords together"
                    self.found.append(Item(item_id, TIE, count, 0.0, cabinet.room, id_, why, TO_BUY, phase))

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
        length = self._lead_lengths.of(device, source, name)
        standing = IN_PLACE if device.is_owned else TO_BUY
        ordinal = f"#{feed.inlet}" if feed.inlet > 1 else ""
        yield Item(
            f"item:{device.name}+{name}{ordinal}",
            name,
            1,
            length,
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
