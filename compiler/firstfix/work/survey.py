"""A build looked at with the eyes of who does the work: what hangs on what, what is there already, and how it is called.

Made once for a build and read by every module that makes tasks.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Piece
from firstfix.build.hardware import IN_PLACE, Device, Item, Mount
from firstfix.build.model import Build
from firstfix.parts.part import Part
from firstfix.work.cautions import static_cautions
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.tools import TOOLS

ON_BLOCK = "wires on block"


@dataclass(frozen=True, slots=True)
class Survey:
    """`mounts`: by the id of what is mounted. `pieces_at`: by device id, in order of their ids. `in_place`: ids of what is there
    already. `spare_pieces` belong to links that close a loop on purpose. `items_for`: by the id of what needs them."""

    build: Build
    mounts: Mapping[str, Mount]
    pieces_at: Mapping[str, tuple[Piece, ...]]
    in_place: frozenset[str]
    spare_pieces: frozenset[str]
    items_for: Mapping[str, tuple[Item, ...]]

    def device_at(self, jack: str) -> Device:
        return self.build.devices[self.build.jacks[jack].device]

    def devices_of(self, piece: Piece) -> tuple[Device, Device]:
        near, far = piece.ends
        return self.device_at(near), self.device_at(far)

    def part(self, name: str) -> Part | None:
        return self.build.library.get(name)

    def kinds_for(self, subject: str) -> frozenset[str]:
        """The kinds of parts that `subject` needs."""
        parts = (self.part(item.part) for item in self.items_for.get(subject, ()))
        return frozenset(part.kind for part in parts if part is not None)

    def runs(self) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.build.pieces.values() if piece.kind == RUN)

    def cords(self) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.build.pieces.values() if piece.kind == CORD)

    def is_new(self, subject: str) -> bool:
        return subject not in self.in_place

    def crosses_buildings(self, piece: Piece) -> bool:
        return any(self.build.ways[way].joins_buildings for way in piece.route)

    def medium(self, piece: Piece) -> str:
        part = self.part(piece.part)
        return part.cable.medium if part is not None and part.cable is not None else ""

    def phase_of(self, piece: Piece) -> str:
        """A piece comes with its link, or with the later of the devices at its ends."""
        phases = (self.build.links[piece.link].phase, *(device.phase for device in self.devices_of(piece)))
        return max(phases)

    def room_name(self, room: str) -> str:
        return self.build.rooms[room].name if room in self.build.rooms else "a place the plan does not say"

    def task(
        self,
        verb: str,
        subject: str,
        stage: Stage,
        title: str,
        room: str = "",
        *,
        height: int = 0,
        phase: str = "",
        after: Iterable[Precedence] = (),
        checks: Iterable[Check] = (),
        cautions: Iterable[str] = (),
        records: Iterable[str] = (),
    ) -> Task:
        """A task of kind `verb`, with the tools and cautions of its kind; `cautions` come on top."""
        place = self.build.rooms.get(room)
        warned = dict.fromkeys((*static_cautions(verb), *cautions))
        return Task(
            task_id(verb, subject), stage, subject, title, place.building if place else "", room, height, phase,
            tuple(dict.fromkeys(after)), (), TOOLS[verb], tuple(checks), tuple(warned), tuple(records),
        )  # fmt: skip


def survey(build: Build) -> Survey:
    pieces_at: defaultdict[str, list[Piece]] = defaultdict(list)
    for piece in build.pieces.values():
        for device in dict.fromkeys(build.jacks[end].device for end in piece.ends):
            pieces_at[device].append(piece)
    items_for: defaultdict[str, list[Item]] = defaultdict(list)
    for item in build.items:
        items_for[item.for_id].append(item)
    spare = {link.id for link in build.links.values() if link.spare_for}
    return Survey(
        build,
        {mount.item: mount for mount in build.mounts if mount.item},
        {device: tuple(found) for device, found in pieces_at.items()},
        frozenset(_in_place(build)),
        frozenset(piece.id for piece in build.pieces.values() if piece.link in spare),
        {for_id: tuple(found) for for_id, found in items_for.items()},
    )


def _in_place(build: Build) -> Iterable[str]:
    """Devices, cabinets, fittings and pieces whose own item is in place: their own item is the one of their own part."""
    parts = {thing.id: thing.part.name for thing in (*build.devices.values(), *build.cabinets.values(), *build.fittings.values())}
    parts |= {piece.id: piece.part for piece in build.pieces.values()}
    return (item.for_id for item in build.items if item.standing == IN_PLACE and parts.get(item.for_id) == item.part)


def end_name(jack: str) -> str:
    """`jack:panel/3@rear` is `panel/3`: front or rear is plain from what is done there."""
    return ids.path(jack).removesuffix("@rear")


def piece_name(piece: Piece) -> str:
    return f"{end_name(piece.ends[0])} – {end_name(piece.ends[1])}"
