"""What the two ends of a cable or cord need: a module, a plug, a transceiver, pigtails, ties; and what of each device they use."""

from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import IN_A_BOX, IN_PLACE, TO_BUY, Device, Item, Jack
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import CAGE_FAMILIES, FIBRE_FAMILIES, TERMINATION_KINDS, Library
from firstfix.plan.model import SPLICED, CablingSpec
from firstfix.resolve.boxes import Boxes
from firstfix.resolve.modules import Modules
from firstfix.resolve.notes import Notes
from firstfix.resolve.with_needs import with_needs

TIE = "tie-hook-and-loop"
# Ties per end of an installed run that ends in a cabinet. Common practice, no source.
_TIES_PER_END = 2
# Fibres of one jack, one for each direction: IEEE 802.3, the optical physical layers of two fibres.
_FIBRES_OF_JACK = 2
_MULTIMODE = ("om1", "om2", "om3", "om4", "om5")  # ISO/IEC 11801-1


def copper_module(library: Library, cage: str) -> str:
    """The first module by name that makes a copper jack of this cage; "" where there is none, or it is no cage."""
    if cage not in CAGE_FAMILIES:
        return ""
    fitting = (
        part.name
        for part in parts_of_kind(library, "transceiver")
        if part.fits == cage and any(jack.family == "rj45" for jack in part.jacks)
    )
    return min(fitting, default="")


class PieceEnds:
    """`filled`: openings of each device that have a module now; `ended`: jacks of panels and outlets where a new run ends,
    by the phase that it comes in."""

    def __init__(self, cabling: CablingSpec, library: Library, boxes: Boxes, notes: Notes) -> None:
        self.filled: dict[str, int] = {}
        self.ended: dict[str, dict[str, int]] = {}
        self._cabling = cabling
        self._library = library
        self._boxes = boxes
        self._notes = notes
        self._modules = Modules(cabling, library, notes)
        self._light: dict[str, bool] = {}

    def add(self, piece: Piece, id_: str, jack: Jack, device: Device, phase: str, found: list[Item]) -> None:
        """Appends the items of one end to `found`: a generator for each of so many costs a tenth of the pass."""
        is_run, room = piece.kind == RUN, device.room
        is_termination = device.part.kind in TERMINATION_KINDS
        if is_run and not piece.is_owned:
            if device.cabinet:
                standing = self._standing(device, TIE, _TIES_PER_END)
                why = "dresses the run in the cabinet"
                found.append(
                    Item(f"{id_}+tie", TIE, _TIES_PER_END, 0.0, room, piece.id, why, standing, phase)
                )
            if is_termination:
                ended = self.ended.setdefault(device.id, {})
                ended[phase] = ended.get(phase, 0) + 1
        if jack.family in CAGE_FAMILIES and self._is_copper(piece):
            name = copper_module(self._library, jack.family)
            standing = IN_PLACE if piece.is_owned else self._standing(device, name, 1)
            why = f"copper jack for {device.name}/{jack.name}"
            if name:
                found.append(Item(f"{id_}+{name}", name, 1, 0.0, room, piece.id, why, standing, phase))
        if self.is_light(piece):
            self._add_light(piece, id_, jack, device, phase, found)
        elif jack.needs_module and jack.face == "rear":
            self._modules.fill(jack, device, piece.part)
            self.filled[device.id] = self.filled.get(device.id, 0) + 1
            found.append(self._module(jack, device, phase, piece.is_owned))
        elif is_run and not is_termination and self._library[piece.part].kind != "cord":
            name = self._cabling.plugs
            if not piece.is_owned:
                self._modules.put_on(device, piece.part)
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
        why = f"fills opening {jack.name}"
        return Item(
            f"item:{device.name}/{jack.name}+jack", name, 1, 0.0, device.room, device.id, why, standing, phase
        )  # fmt: skip

    def _is_copper(self, piece: Piece) -> bool:
        form = self._library[piece.part].cable
        return form is not None and form.medium == "copper"

    def is_light(self, piece: Piece) -> bool:
        """Whether it is of fibre."""
        light = self._light.get(piece.part)
        if light is None:
            form = self._library[piece.part].cable
            light = self._light[piece.part] = form is not None and form.medium == "fibre"
        return light

    def _add_light(
        self, piece: Piece, id_: str, jack: Jack, device: Device, phase: str, found: list[Item]
    ) -> None:
        wanted = [self._fibre_end(jack, piece)] if piece.kind == RUN else []
        if jack.family in CAGE_FAMILIES:
            wanted.append((self._transceiver(jack, piece), 1, f"light for {device.name}/{jack.name}"))
        for name, count, why in wanted:
            if name:
                standing = IN_PLACE if piece.is_owned else self._standing(device, name, count)
                item = Item(f"{id_}+{name}", name, count, 0.0, device.room, piece.id, why, standing, phase)
                found += with_needs(item, self._library)

    def _fibre_end(self, jack: Jack, piece: Piece) -> tuple[str, int, str]:
        """Pigtails for the fibres in use, or plugs put on where the cable is bought; "" where the library has none of the kind."""
        form = self._library[piece.part].cable
        family = jack.family if jack.family in FIBRE_FAMILIES else "lc"
        is_spliced = self._cabling.fibre_ends == SPLICED
        name = f"{'pigtail' if is_spliced else 'plugs-put-on'}-{family}-{form.category if form else ''}"
        why = "spliced to the fibres in use" if is_spliced else "ends the cable in plugs"
        return name if name in self._library else "", _FIBRES_OF_JACK if is_spliced else 1, why

    def _transceiver(self, jack: Jack, piece: Piece) -> str:
        """The transceiver of the cage's family whose fibre the piece has."""
        form = self._library[piece.part].cable
        wanted = form.category if form is not None else ""
        in_cage = [part for part in parts_of_kind(self._library, "transceiver") if part.fits == jack.family]
        fitting = [part.name for part in in_cage if part.category in ("", wanted)]
        if wanted in _MULTIMODE:
            # A module for multimode sends into each grade of it; how far that reaches is channel-length's.
            fitting = fitting or [part.name for part in in_cage if part.category in _MULTIMODE]
        if not fitting:
            message = f"no transceiver in the library fits a {jack.family} cage and {wanted} fibre"
            self._notes.gap(
                "transceiver-unknown", piece.link, message, self._notes.provenance.span(piece.link)
            )
            return ""
        return min(fitting)
