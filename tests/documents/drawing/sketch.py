"""Builds drawn up by hand, without the compiler: a few lines for devices and chains, and a whole Build comes out."""

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TypeVar

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Channel, Joint, Length, Link, Piece
from firstfix.build.hardware import Cabinet, Device, Fitting, Jack, Mount, Occupancy
from firstfix.build.logical import NameService
from firstfix.build.model import Build
from firstfix.build.places import Building, Room, Site, Way
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.build.reasons import Provenance
from firstfix.finding.model import Term
from firstfix.parts.facts import DATA_SHEET, Figure, exactly
from firstfix.parts.part import (
    INLINE_KINDS,
    TERMINATION_KINDS,
    CableForm,
    GivesPoe,
    JackSpec,
    Part,
    RackForm,
    TakesPoe,
)

Thing = TypeVar("Thing")


def fact(value: float) -> Figure:
    return exactly(value, DATA_SHEET)


def jacks(*names: str) -> tuple[JackSpec, ...]:
    return tuple(JackSpec(name, "sfp" if name.startswith("sfp") else "rj45", fact(1000)) for name in names)


def numbers(count: int) -> tuple[str, ...]:
    return tuple(str(number) for number in range(1, count + 1))


def cable(name: str, title: str, kind: str, rating: str, medium: str = "copper", category: str = "6") -> Part:
    form = CableForm(
        medium, category, fact(23), kind == "cord", False, "copper", rating, (1.0, 2.0), "rj45" if medium == "copper" else "lc"
    )  # fmt: skip
    return Part(name, kind, title, "typical", cable=form)


CABLES = {
    part.name: part
    for part in (
        cable("cord-cat6", "Cord, category 6", "cord", "indoor"),
        cable("cat6-indoor", "Installation cable, category 6", "cable", "indoor"),
        cable("cat6-outdoor", "Outdoor cable, category 6", "cable", "buried"),
        cable("fibre-cord", "Fibre cord, OS2", "cord", "indoor", "fibre", "os2"),
        cable("fibre-buried", "Fibre cable, OS2", "cable", "buried", "fibre", "os2"),
    )
}


def switch(count: int, poe: bool = True, name: str = "switch", title: str = "") -> Part:
    gives = GivesPoe(numbers(count), fact(4), fact(120), (), "class", fact(0.9)) if poe else None
    return Part(
        name, "switch", title or f"Switch, {count} jacks" + (", PoE" if poe else ""), "typical",
        rack=RackForm(1, "full", fact(0.23)), weight=fact(2.4), jacks=jacks(*numbers(count), "sfp1", "sfp2"),
        gives_poe=gives, bridges=True,
    )  # fmt: skip


def panel(count: int) -> Part:
    return Part(
        "panel", "panel", f"Panel, {count} jacks", "typical",
        rack=RackForm(1, "full", fact(0.09)), weight=fact(0.9), jacks=jacks(*numbers(count)),
    )  # fmt: skip


GATEWAY = Part(
    "gateway-1u", "gateway", "Gateway, 5 jacks", "typical",
    rack=RackForm(1, "full", fact(0.18)), weight=fact(1.6), jacks=jacks("wan", "1", "2", "3", "4"), routes=True, bridges=True,
)  # fmt: skip
OUTLET = Part("outlet-2", "outlet", "Wall outlet, two jacks", "typical", jacks=jacks("1", "2"))
CAMERA = Part(
    "camera", "camera", "Outdoor camera", "typical", jacks=jacks("1"), takes_poe=TakesPoe(("1",), fact(3))
)
ACCESS_POINT = Part(
    "access-point", "access-point", "Access point", "typical",
    jacks=jacks("1"), takes_poe=TakesPoe(("1",), fact(4)), bridges=True,
)  # fmt: skip
SMALL_COMPUTER = Part(
    "small-computer", "small-computer", "Small computer", "typical", jacks=jacks("1"), weight=fact(0.1)
)
STORAGE = Part("storage", "storage", "Storage, two discs", "typical", jacks=jacks("1"), weight=fact(3.2))
INJECTOR = Part(
    "injector", "injector", "PoE injector, class 4", "typical", jacks=jacks("in", "out"), weight=fact(0.3)
)
SURGE = Part("surge-protector", "surge-protector", "Surge protector", "typical", jacks=jacks("line", "kit"))
STRIP = Part(
    "strip-8",
    "power-strip",
    "Power strip, 8 outlets",
    "typical",
    rack=RackForm(1, "full", fact(0.06)),
    weight=fact(1.1),
)
UPS = Part("ups", "ups", "Battery supply, 600 VA", "typical", weight=fact(7.5))
SHELF = Part(
    "shelf-1u", "shelf", "Shelf, 1U", "typical", rack=RackForm(1, "full", fact(0.25)), weight=fact(1.8)
)
BRUSH = Part(
    "brush-panel-1u",
    "cover-panel",
    "Brush panel, 1U",
    "typical",
    rack=RackForm(1, "full", fact(0.02)),
    weight=fact(0.4),
)
HINGED = Part(
    "hinged-panel-1u",
    "cover-panel",
    "Hinged panel, 1U",
    "typical",
    rack=RackForm(1, "full", fact(0.03)),
    weight=fact(0.5),
)
CABINET = Part("wall-cabinet", "cabinet", "Wall cabinet", "typical", weight=fact(14))


@dataclass
class Sketch:
    """Collects things; `build()` makes of them what the compiler would."""

    name: str = "honey-farm"
    sites: dict[str, Site] = field(default_factory=dict)
    buildings: dict[str, Building] = field(default_factory=dict)
    rooms: dict[str, Room] = field(default_factory=dict)
    ways: dict[str, Way] = field(default_factory=dict)
    cabinets: dict[str, Cabinet] = field(default_factory=dict)
    devices: dict[str, Device] = field(default_factory=dict)
    fittings: dict[str, Fitting] = field(default_factory=dict)
    mounts: list[Mount] = field(default_factory=list)
    links: dict[str, Link] = field(default_factory=dict)
    pieces: dict[str, Piece] = field(default_factory=dict)
    joints: list[Joint] = field(default_factory=list)
    channels: dict[str, Channel] = field(default_factory=dict)
    runs: dict[str, PowerRun] = field(default_factory=dict)
    feeds: list[MainsFeed] = field(default_factory=list)

    def room(self, site: str, building: str, name: str, outdoors: bool = False) -> str:
        site_id, building_id, room_id = ids.site(site), ids.building(site, building), ids.room(site, name)
        self.sites[site_id] = Site(site_id, site)
        self.buildings[building_id] = Building(building_id, building, site_id, building)
        self.rooms[room_id] = Room(room_id, name, site_id, building_id, 0, outdoors, fact(3), fact(2))
        return room_id

    def way(self, name: str, first: str, second: str, metres: float, kind: str, joins: bool = False) -> str:
        exposure = "buried" if kind == "buried duct" else "indoor"
        way_id = ids.way(name)
        self.ways[way_id] = Way(
            way_id, name, (first, second), fact(metres), kind, exposure, fact(0.05), fact(20), joins
        )
        return way_id

    def cabinet(self, name: str, room: str, units: int) -> str:
        cabinet_id = ids.cabinet(name)
        self.cabinets[cabinet_id] = Cabinet(
            cabinet_id, name, CABINET, room, units, fact(0.4), "square holes", "M6", False
        )  # fmt: skip
        return cabinet_id

    def device(
        self, name: str, part: Part, room: str, cabinet: str = "", carried_by: str = "", phase: str = ""
    ) -> str:
        device_id = ids.device(name)
        self.devices[device_id] = Device(device_id, name, part, room, cabinet, carried_by, False, phase, "")
        return device_id

    def mount(
        self, cabinet: str, item: str, low: int, high: int = 0, face: str = "front", over: bool = False
    ) -> None:
        self.mounts.append(Mount(cabinet, item, low, high or low, face, "", False, over))

    def keep_free(self, cabinet: str, low: int, high: int, what: str) -> None:
        self.mounts.append(Mount(cabinet, "", low, high, "front", what, True, False))

    def fitting(self, part: Part, cabinet: str, low: int, high: int = 0, over: bool = False) -> str:
        id_ = f"fitting:{ids.path(cabinet)}/{low}"
        if id_ in self.fittings:
            id_ += "b"
        self.fittings[id_] = Fitting(id_, part, cabinet, False)
        self.mount(cabinet, id_, low, high, over=over)
        return id_

    def wire(
        self, *hops: str, lengths: tuple[float, ...] = (), route: tuple[str, ...] = (), spare_for: str = "",
        watts: float = 0.0, part: str = "", lanes: int = 1, lane: int = 1,
    ) -> str:  # fmt: skip
        """A chain such as ("cam", "panel/3", "core/3"). The piece between two rooms takes `route`; an unsaid length is 1 m."""
        named = [hop.partition("/")[0] for hop in hops]
        link_id = ids.link(hops[0], hops[-1], 1)
        pieces = []
        for index in range(len(hops) - 1):
            ends = self._jack(hops[index], index, False), self._jack(hops[index + 1], index + 1, True)
            rooms = {self.devices[ids.device(name)].room for name in named[index : index + 2]}
            is_run = len(rooms) == 2
            metres = lengths[index] if index < len(lengths) else 1.0
            length = Length(
                (Term("by hand", metres),),
                () if metres else ("its way has no length",),
                0.0 if is_run else metres,
            )
            stuff = (
                part
                if part and is_run
                else ("cat6-indoor" if is_run else "fibre-cord" if part.startswith("fibre") else "cord-cat6")
            )
            piece_id = ids.piece(link_id, index + 1, lane)
            pieces.append(
                Piece(piece_id, link_id, RUN if is_run else CORD, stuff, ends, route if is_run else (), length)
            )  # fmt: skip
        self.pieces.update({piece.id: piece for piece in pieces})
        medium = CABLES[pieces[0].part].cable
        through = tuple(ids.device(name) for name in named[1:-1])
        channel_id = f"channel:{ids.path(link_id)}" + (f".{lane}" if lane > 1 else "")
        ends = (pieces[0].ends[0], pieces[-1].ends[1])
        self.channels[channel_id] = Channel(
            channel_id, link_id, ends, tuple(piece.id for piece in pieces), through, len(through), medium.medium if medium else "copper"
        )  # fmt: skip
        self.links[link_id] = Link(
            link_id, " to ".join(hops), tuple(map(ids.device, named)), lanes, spare_for, ""
        )
        if watts:
            run_id = f"power:{ids.path(channel_id)}"
            giver = next(
                (p.ends[0] for p in pieces if self.devices[ids.device(_owner(p.ends[0]))].part is INJECTOR),
                ends[1],
            )
            self.runs[run_id] = PowerRun(
                run_id, giver, ends[0], channel_id, tuple(piece.id for piece in pieces), len(through),
                fact(3), fact(4), fact(3), fact(watts * 1.3), fact(watts * 1.5), fact(watts),
            )  # fmt: skip
        return channel_id

    def _jack(self, hop: str, index: int, arriving: bool) -> str:
        name, _, jack = hop.partition("/")
        part = self.devices[ids.device(name)].part
        if part.kind in INLINE_KINDS:
            near, far = part.jacks[0].name, part.jacks[1].name
            return ids.jack(name, near if arriving else far)
        faces = "front"
        if part.kind in TERMINATION_KINDS and index > 0:
            faces = "rear" if (part.kind == "outlet") != arriving else "front"
        return ids.jack(name, jack or part.jacks[0].name, faces)

    def build(self) -> Build:
        all_jacks = {jack.id: jack for device in self.devices.values() for jack in _jacks_of(device)}
        jacks_of: dict[str, list[str]] = defaultdict(list)
        for jack in sorted(all_jacks.values(), key=lambda each: (each.device, each.order, each.face)):
            jacks_of[jack.device].append(jack.id)
        return Build(
            name=self.name, start="", currency="EUR", library=CABLES,
            sites=_sorted(self.sites), buildings=_sorted(self.buildings), rooms=_sorted(self.rooms), ways=_sorted(self.ways),
            cabinets=_sorted(self.cabinets), devices=_sorted(self.devices), fittings=_sorted(self.fittings),
            mounts=tuple(self.mounts), occupancy=self._occupancy(), jacks=_sorted(all_jacks),
            jacks_of={device: tuple(jacks_of[device]) for device in sorted(self.devices)}, throughs=(),
            links=_sorted(self.links), pieces=_sorted(self.pieces), joints=tuple(self.joints), channels=_sorted(self.channels),
            open_ends=(), power_runs=_sorted(self.runs), power_sources={}, mains_feeds=tuple(self.feeds),
            vlans={}, port_setups={}, memberships={}, addresses=(), name_service=NameService("", ()), wireless=(), items=(), decisions=(),
            gaps=(), unsettled=frozenset(), provenance=Provenance(),
        )  # fmt: skip

    def _occupancy(self) -> tuple[Occupancy, ...]:
        return tuple(
            Occupancy(
                cabinet.id,
                unit,
                tuple(m for m in self.mounts if m.cabinet == cabinet.id and m.low <= unit <= m.high),
            )
            for cabinet in self.cabinets.values()
            for unit in range(1, cabinet.units + 1)
        )


def _sorted(things: dict[str, Thing]) -> dict[str, Thing]:
    return dict(sorted(things.items()))


def _owner(jack: str) -> str:
    return ids.path(jack).removesuffix("@rear").rpartition("/")[0]


def _jacks_of(device: Device) -> list[Jack]:
    faces = ("front", "rear") if device.part.kind in TERMINATION_KINDS else ("front",)
    gives = device.part.gives_poe.jacks if device.part.gives_poe else ()
    takes = device.part.takes_poe.jacks if device.part.takes_poe else ()
    return [
        Jack(
            ids.jack(device.name, spec.name, face), device.id, spec.name, order, face, spec.family, spec.rate,
            "gives" if spec.name in gives else "takes" if spec.name in takes else "", "",
        )
        for order, spec in enumerate(device.part.jacks)
        for face in faces
    ]  # fmt: skip
