"""What stands in each room: its cabinets with what is in them, its devices, its outlets with what each opening has, its cords, and its
mains outlets; and of each thing whether it is there already.

Takes a build; gives rooms by site, building, floor and name. Every device, cabinet and fitting is in exactly one of them.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from typing import NamedTuple, TypeVar

from firstfix.build import ids
from firstfix.build.cabling import CORD, Piece
from firstfix.build.hardware import IN_PLACE, TO_BUY, Cabinet, Device, Fitting, Jack
from firstfix.build.ids import NaturalKey, natural
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.places import Room
from firstfix.parts.facts import Fact
from firstfix.parts.part import Part

# The kind of part that an outlet is set into.
_BOX = "wall-box"

_Named = TypeVar("_Named", Cabinet, Device)
# Part, colour, length and standing of a cord.
_Equal = tuple[str, str, float | None, str]


class Opening(NamedTuple):
    """One opening of an outlet. `run` comes to it from behind, `cord` is plugged in front; None without. `run_from` and `cord_to` are the
    jacks at their other ends, "" without."""

    jack: Jack
    run: Piece | None
    run_from: str
    cord: Piece | None
    cord_to: str

    @property
    def is_free(self) -> bool:
        return self.run is None and self.cord is None


class Standing(NamedTuple):
    """A device, or a fitting of a cabinet, with the `units` that it takes of it, as text, or "". `standing` is an item's word.

    `carrier`: what carries it in its cabinet, or None. `box`: what an outlet is set into, as its part says. `openings`: of an outlet.
    """

    id: str
    name: str
    part: Part
    phase: str
    standing: str
    units: str = ""
    carrier: Part | None = None
    box: Part | None = None
    openings: tuple[Opening, ...] = ()


class CabinetStanding(NamedTuple):
    """A cabinet and what is in it, from the top down."""

    cabinet: Cabinet
    standing: str
    things: tuple[Standing, ...]


class Cords(NamedTuple):
    """`count` equal cords. `length`: metres as sold, None where that isn't known."""

    part: str
    colour: str
    length: float | None
    standing: str
    count: int  # type: ignore[assignment]  # the word people count with; tuple.count is not used on cords


class RoomView(NamedTuple):
    """`room` is None for what no known room holds. `fed`: names of what is plugged into the outlets of the room, one for each lead."""

    room: Room | None
    cabinets: tuple[CabinetStanding, ...]
    devices: tuple[Standing, ...]
    outlets: tuple[Standing, ...]
    cords: tuple[Cords, ...]
    fed: tuple[str, ...]

    @property
    def things(self) -> tuple[Standing, ...]:
        """All of them but the cabinets themselves."""
        inside = (thing for each in self.cabinets for thing in each.things)
        return (*inside, *self.devices, *self.outlets)

    @property
    def is_empty(self) -> bool:
        return not (self.cabinets or self.devices or self.outlets or self.cords or self.fed)


@once_per_build
def room_views(build: Build) -> tuple[RoomView, ...]:
    """Rooms in which nothing is are among them; what no known room holds comes last."""
    return tuple(_Rooms(build).views())


class _Rooms:
    def __init__(self, build: Build) -> None:
        self._build = build
        own = ((item.for_id, item) for item in build.items if item.id == f"item:{ids.path(item.for_id)}")
        self._standing = {for_id: item.standing for for_id, item in own}
        self._at = {end: piece for piece in build.pieces.values() for end in piece.ends}
        self._mounts = {mount.item: mount for mount in build.mounts if mount.item}

    def views(self) -> Iterator[RoomView]:
        build = self._build
        cabinets, devices = defaultdict[str, list[Cabinet]](list), defaultdict[str, list[Device]](list)
        for cabinet in build.cabinets.values():
            cabinets[self._known(cabinet.room)].append(cabinet)
        for device in build.devices.values():
            if device.cabinet not in build.cabinets:
                devices[self._known(device.room)].append(device)
        cords = self._cords()
        fed = defaultdict[str, list[str]](list)
        for feed in build.mains_feeds:
            fed[feed.source].append(build.devices[feed.device].name)
        for id_ in (*sorted(build.rooms, key=self._order), ""):
            here = [self._thing(each) for each in _by_name(devices[id_])]
            view = RoomView(
                build.rooms.get(id_),
                tuple(self._cabinet(each) for each in _by_name(cabinets[id_])),
                tuple(each for each in here if each.part.kind != "outlet"),
                tuple(each for each in here if each.part.kind == "outlet"),
                cords.get(id_, ()),
                tuple(sorted(fed[id_], key=natural)),
            )
            if id_ or not view.is_empty:
                yield view

    def _order(self, id_: str) -> tuple[NaturalKey, NaturalKey, int, NaturalKey]:
        room = self._build.rooms[id_]
        return natural(room.site), natural(room.building), room.floor, natural(room.name)

    def _known(self, room: str) -> str:
        return room if room in self._build.rooms else ""

    def _cabinet(self, cabinet: Cabinet) -> CabinetStanding:
        found: list[Device | Fitting] = [
            each for each in self._build.devices.values() if each.cabinet == cabinet.id
        ]
        found += [each for each in self._build.fittings.values() if each.cabinet == cabinet.id]
        found.sort(key=self._from_the_top)
        return CabinetStanding(
            cabinet, self._stands(cabinet.id, cabinet.is_owned), tuple(self._thing(each) for each in found)
        )

    def _from_the_top(self, thing: Device | Fitting) -> tuple[int, bool, NaturalKey]:
        """What stands on a thing comes right after it; what is nowhere in particular comes last."""
        carrier = thing.carried_by if isinstance(thing, Device) else ""
        mount = self._mounts.get(thing.id) or self._mounts.get(carrier)
        return -mount.high if mount else 1, bool(carrier), natural(thing.id)

    def _thing(self, thing: Device | Fitting) -> Standing:
        part, standing = thing.part, self._stands(thing.id, thing.is_owned)
        mount = self._mounts.get(thing.id)
        units = (
            "" if mount is None else f"U{mount.low}" + (f"–{mount.high}" if mount.high > mount.low else "")
        )
        if isinstance(thing, Fitting):
            return Standing(thing.id, "", part, thing.phase, standing, units)
        openings = tuple(self._openings(thing)) if part.kind == "outlet" else ()
        return Standing(
            thing.id,
            thing.name,
            part,
            thing.phase,
            standing,
            units,
            self._carrier(thing),
            self._box(part),
            openings,
        )

    def _carrier(self, device: Device) -> Part | None:
        known = self._build.fittings.get(device.carried_by) or self._build.devices.get(device.carried_by)
        return known.part if known else None

    def _box(self, part: Part) -> Part | None:
        needed = (self._build.library.get(name) for name, _ in part.needs)
        return next((each for each in needed if each is not None and each.kind == _BOX), None)

    def _openings(self, outlet: Device) -> Iterator[Opening]:
        for id_ in self._build.jacks_of.get(outlet.id, ()):
            jack = self._build.jacks[id_]
            if jack.face == "front":
                run, run_from = self._plugged(f"{id_}@rear")
                cord, cord_to = self._plugged(id_)
                yield Opening(jack, run, run_from, cord, cord_to)

    def _plugged(self, jack: str) -> tuple[Piece | None, str]:
        piece = self._at.get(jack)
        if piece is None:
            return None, ""
        return piece, piece.ends[1] if piece.ends[0] == jack else piece.ends[0]

    def _stands(self, id_: str, is_owned: bool) -> str:
        return self._standing.get(id_, IN_PLACE if is_owned else TO_BUY)

    def _cords(self) -> dict[str, tuple[Cords, ...]]:
        """By room, that of a cord's first end; the longest last within a part and colour."""
        counts: defaultdict[str, Counter[_Equal]] = defaultdict(Counter)
        jacks, devices = self._build.jacks, self._build.devices
        for piece in self._build.pieces.values():
            if piece.kind == CORD:
                figure = piece.length.figure
                length = figure.high if isinstance(figure, Fact) else None
                standing = self._stands(piece.id, piece.is_owned)
                room = self._known(devices[jacks[piece.ends[0]].device].room)
                counts[room][piece.part, piece.colour, length, standing] += 1
        return {
            room: tuple(Cords(*equal, found[equal]) for equal in sorted(found, key=_by_length))
            for room, found in counts.items()
        }


def _by_length(equal: _Equal) -> tuple[str, str, float, str]:
    part, colour, length, standing = equal
    return part, colour, -1.0 if length is None else length, standing


def _by_name(things: Iterable[_Named]) -> list[_Named]:
    return sorted(things, key=lambda thing: natural(thing.name))
