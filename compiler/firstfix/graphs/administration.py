"""What each thing is called on its labels: rooms, cabinets, devices, jacks, and both ends of every cable.

Takes a build; gives identifiers in capitals, each once. `simple`: the plan's own names, PANEL/3 and PANEL/3 TO DESK/1. `tia-606`: the
formats of ANSI/TIA-606-B and -C (from memory, through digests): fs for a space, fs.xy for a cabinet, fs.xy-r1 for what is mounted with its
top left corner in unit r1, fs.xy-r1:p for its port, near/far for a cable; with b- before it where there are several buildings, c-b- where
there are several sites. Our own additions, where those digests have nothing: what stands on a shelf has its name in the place of r1, what
stands in no cabinet is fs-NAME, and a letter after r1 tells two things in one unit apart (L and R of half the width, B at the back, F in
front of another).
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

from firstfix.build import ids
from firstfix.build.administration import TIA_606
from firstfix.build.cabling import Piece
from firstfix.build.hardware import Cabinet, Device, Mount
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.places import Room

_Key = TypeVar("_Key")


class CableEnds(NamedTuple):
    """Identifiers of the jacks at the two ends, in the piece's own order; `mark` tells two cables between the same jacks apart."""

    first: str
    second: str
    mark: str = ""


@dataclass(frozen=True, slots=True)
class Identifiers:
    """By id of the build. Front and rear of a jack are one port, and have one identifier."""

    between: str
    rooms: Mapping[str, str]
    cabinets: Mapping[str, str]
    devices: Mapping[str, str]
    jacks: Mapping[str, str]
    cables: Mapping[str, CableEnds]
    is_simple: bool

    def cable(self, piece: Piece, at: str) -> str:
        """What the label says at the end that is in jack `at`: the end where one stands comes first."""
        first, second, mark = self.cables[piece.id]
        if at == piece.ends[1] != piece.ends[0]:
            first, second = second, first
        return f"{first}{self.between}{second}{mark}"

    def says_more(self, device: Device) -> bool:
        """Whether the label of a device says anything but its name."""
        return self.devices[device.id] != device.name.upper()


@once_per_build
def identifiers(build: Build) -> Identifiers:
    is_simple = build.administration.scheme != TIA_606
    naming = _Simple(build) if is_simple else _ByStandard(build)
    rooms = _distinct((id_, naming.room(room)) for id_, room in build.rooms.items())
    # Devices come first: of two that are called the same, the later one gets a number.
    things = _distinct(naming.things(rooms))
    jacks = _jacks(build, things, naming)
    return Identifiers(
        naming.between,
        rooms,
        {id_: things[id_] for id_ in build.cabinets},
        {id_: things[id_] for id_ in build.devices},
        jacks,
        dict(_cables(build, jacks)),
        is_simple,
    )


def called_alike(build: Build) -> Iterator[tuple[str, tuple[str, ...]]]:
    """Ids of things whose own parts, as written, chosen or by their names, are the same in one place; the part comes first."""
    own, is_simple = build.administration.own, build.administration.scheme != TIA_606
    mounts = {mount.item: mount for mount in build.mounts if mount.item}
    named: list[tuple[str, str, str]] = [(id_, "", own.get(id_, "")) for id_ in build.sites]
    named += [(each.id, each.site, own.get(each.id, "")) for each in build.buildings.values()]
    for room in build.rooms.values():
        place = f"room of {room.site}" if is_simple else room.building
        named.append((room.id, place, own.get(room.id, room.name.upper() if is_simple else "")))
    for cabinet in build.cabinets.values():
        place = "plate" if is_simple else f"cabinet of {cabinet.room}"
        named.append((cabinet.id, place, own.get(cabinet.id, cabinet.name.upper())))
    for device in build.devices.values():
        place = "plate" if is_simple else device.cabinet or device.room
        mount = None if is_simple else mounts.get(device.id)
        usual = device.name.upper() if mount is None else unit_of_corner(mount)
        named.append((device.id, place, own.get(device.id, usual)))
    groups: dict[tuple[str, str], list[str]] = {}
    for id_, place, called in named:
        if called:
            groups.setdefault((place, called), []).append(id_)
    yield from ((called, tuple(ids_)) for (_, called), ids_ in groups.items() if len(ids_) > 1)


class _Simple:
    """The plan's names are short and readable already, and a name that is added changes no other."""

    between = " TO "
    before_jack = "/"

    def __init__(self, build: Build) -> None:
        self._build = build
        self._own = build.administration.own

    def room(self, room: Room) -> str:
        own = self._own.get(room.id, room.name.upper())
        return own if len(self._build.sites) == 1 else f"{ids.path(room.site).upper()}/{own}"

    def things(self, rooms: Mapping[str, str]) -> Iterator[tuple[str, str]]:
        del rooms  # a name needs no place
        for device in self._build.devices.values():
            yield device.id, self._own.get(device.id, device.name.upper())
        for cabinet in self._build.cabinets.values():
            yield cabinet.id, self._own.get(cabinet.id, cabinet.name.upper())

    def port(self, name: str, others: frozenset[str]) -> str:
        del others
        return name.upper()


class _ByStandard:
    """The formats of ANSI/TIA-606; see the head of this module."""

    between = "/"
    before_jack = ":"

    def __init__(self, build: Build) -> None:
        self._build = build
        self._own = build.administration.own
        self._mounts = {mount.item: mount for mount in build.mounts if mount.item}
        in_use = {room.building for room in build.rooms.values()}
        self._has_buildings = len(in_use) > 1 or any(
            ids.kind(each) == "building" for each in self._own_written()
        )
        self._has_sites = len({room.site for room in build.rooms.values()}) > 1

    def _own_written(self) -> Iterator[str]:
        """What the author wrote is wanted, also where it wouldn't be needed."""
        provenance = self._build.provenance
        return (each for each in self._own if provenance.written(each, "label") is not None)

    def room(self, room: Room) -> str:
        site = self._own.get(room.site, "") if self._has_sites else ""
        building = self._own.get(room.building, "") if self._has_buildings or self._has_sites else ""
        own = self._own.get(room.id, f"{room.floor}-{room.name.upper()}")
        return "-".join(filter(None, (site, building, own)))

    def things(self, rooms: Mapping[str, str]) -> Iterator[tuple[str, str]]:
        cabinets = {each.id: self._cabinet(each, rooms) for each in self._build.cabinets.values()}
        for device in self._build.devices.values():
            own = self._own.get(device.id, "") or self._place(device)
            yield device.id, _joined(cabinets.get(device.cabinet) or rooms.get(device.room, ""), "-", own)
        yield from cabinets.items()

    def _cabinet(self, cabinet: Cabinet, rooms: Mapping[str, str]) -> str:
        return _joined(rooms.get(cabinet.room, ""), ".", self._own.get(cabinet.id, cabinet.name.upper()))

    def _place(self, device: Device) -> str:
        mount = self._mounts.get(device.id)
        return device.name.upper() if mount is None else unit_of_corner(mount)

    def port(self, name: str, others: frozenset[str]) -> str:
        """Two digits, as in the published examples, unless the jack has another name."""
        padded = name.zfill(2)
        return padded if name.isdecimal() and (padded == name or padded not in others) else name.upper()


def unit_of_corner(mount: Mount) -> str:
    """r1: the unit of the top left corner, counted from below, in two digits; a letter of our own where that is not enough.

    >>> unit_of_corner(Mount("", "", 35, 35, "front", "", False, False))
    '35'
    """
    side = {"left": "L", "right": "R"}.get(mount.side, "")
    return f"{mount.high:02}{side}{'B' if mount.face == 'rear' else ''}{'F' if mount.is_over else ''}"


def _joined(place: str, sign: str, own: str) -> str:
    return f"{place}{sign}{own}" if place else own


def _jacks(build: Build, things: Mapping[str, str], naming: "_Simple | _ByStandard") -> dict[str, str]:
    ports: dict[tuple[str, str], str] = {}
    for device in build.devices.values():
        names = dict.fromkeys(build.jacks[jack].name for jack in build.jacks_of.get(device.id, ()))
        others = frozenset(names)
        before = things[device.id] + naming.before_jack
        for name in names:
            ports[device.id, name] = before + naming.port(name, others)
    ports = _distinct(ports.items())
    return {jack.id: ports[jack.device, jack.name] for jack in build.jacks.values()}


def _cables(build: Build, jacks: Mapping[str, str]) -> Iterator[tuple[str, CableEnds]]:
    """A jack wired twice is a fault that a rule reports; its cables are told apart all the same."""
    seen: Counter[frozenset[str]] = Counter()
    for piece in sorted(build.pieces.values(), key=lambda piece: natural(piece.id)):
        first, second = (jacks[end] for end in piece.ends)
        ends = frozenset((first, second))
        seen[ends] += 1
        yield piece.id, CableEnds(first, second, f" {seen[ends]}" if seen[ends] > 1 else "")


def _distinct(named: Iterable[tuple[_Key, str]]) -> dict[_Key, str]:
    """The same identifiers, and a number after those that an earlier thing has already."""
    found = dict(named)
    if len(set(found.values())) == len(found):
        return found
    wanted = set(found.values())
    taken: set[str] = set()
    for key, name in found.items():
        chosen, ordinal = name, 1
        while chosen in taken or (ordinal > 1 and chosen in wanted):
            ordinal += 1
            chosen = f"{name}-{ordinal}"
        taken.add(chosen)
        found[key] = chosen
    return found
