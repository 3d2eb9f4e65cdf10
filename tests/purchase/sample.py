"""A small build made by hand: a house with a cabinet, an outdoor camera, a shed fed through a duct.

It stands in for a resolved plan, so that purchases and work are tested without the stages that make one.
"""

from collections.abc import Iterable
from dataclasses import replace

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Channel, Joint, Length, Link, Piece
from firstfix.build.hardware import (
    IN_A_BOX,
    IN_PLACE,
    TO_BUY,
    Cabinet,
    Device,
    Fitting,
    Item,
    Jack,
    Mount,
)
from firstfix.build.logical import AddressClaim, NameService, PortSetup, Vlan
from firstfix.build.model import Build
from firstfix.build.places import Building, Room, Site, Way
from firstfix.build.power import MainsFeed, PowerRun, PowerSource
from firstfix.build.reasons import Provenance
from firstfix.finding.model import Term
from firstfix.parts.facts import AUTHOR, NOT_SAID, TYPICAL, Fact, Figure, Unknown, exactly
from firstfix.parts.part import CableForm, GivesPoe, JackSpec, Mains, Part, TakesPoe

MAIN = ids.cabinet("main")
SHELF = "fitting:main/5"
CORD_PART = "cord"
CABLE_PART = "indoor-cable"
BURIED_PART = "buried-cable"


def known(value: float) -> Fact:
    return exactly(value, AUTHOR)


def cable_form(*lengths: float, rating: str = "indoor") -> CableForm:
    return CableForm("copper", "6", known(23), False, False, "copper", rating, lengths, "rj45")


_GIGABIT = known(1000)


def _jacks(*names: str, rate: Figure = _GIGABIT, module: str = "") -> tuple[JackSpec, ...]:
    return tuple(JackSpec(name, "rj45", rate, module) for name in names)


def _numbers(last: int) -> tuple[str, ...]:
    return tuple(str(number) for number in range(1, last + 1))


_POE_4 = TakesPoe(("1",), known(4))
_PASSIVE = Unknown("a passive jack has no rate of its own")

PARTS = {
    part.name: part
    for part in (
        Part(
            "wall-cabinet",
            "cabinet",
            "wall cabinet, 12U",
            TYPICAL,
            weight=known(14),
            price=known(120),
            units=12,
        ),
        Part(
            "router",
            "gateway",
            "small gateway",
            TYPICAL,
            jacks=_jacks("wan", "1"),
            mains=Mains("adaptor", 0),
            routes=True,
        ),
        Part(
            "poe-switch",
            "switch",
            "switch, 8 jacks, PoE",
            AUTHOR,
            jacks=_jacks(*_numbers(8)),
            price=known(180.5),
            vlan_aware=True,
            gives_poe=GivesPoe(_numbers(4), known(4), known(65), (), "class", NOT_SAID),
            mains=Mains("coupler", 0),
        ),
        Part(
            "passing-switch",
            "switch",
            "switch, 5 jacks, fed by PoE",
            AUTHOR,
            jacks=_jacks(*_numbers(5)),
            takes_poe=_POE_4,
            gives_poe=GivesPoe(("2",), known(3), NOT_SAID, ((4, 12.0),), "draw", NOT_SAID),
            vlan_aware=True,
        ),
        Part(
            "keystone-panel",
            "panel",
            "panel, 24 openings",
            TYPICAL,
            jacks=_jacks(*_numbers(24), rate=_PASSIVE, module="keystone"),
            price=known(25),
        ),
        Part(
            "wall-outlet",
            "outlet",
            "wall outlet, one opening",
            TYPICAL,
            jacks=_jacks("1", rate=_PASSIVE, module="keystone"),
        ),
        Part(
            "access-point",
            "access-point",
            "access point",
            AUTHOR,
            jacks=_jacks("1"),
            takes_poe=_POE_4,
            price=known(99),
        ),
        Part(
            "camera",
            "camera",
            "camera | outdoor",
            AUTHOR,
            jacks=_jacks("1", rate=known(100)),
            takes_poe=_POE_4,
            price=known(75.25),
        ),
        Part(
            "storage-box",
            "storage",
            "storage, 4 disks",
            AUTHOR,
            jacks=_jacks("1"),
            weight=known(7),
            mains=Mains("coupler", 0),
        ),
        Part(
            "backup-supply", "ups", "uninterruptible supply", AUTHOR, weight=known(16), mains=Mains("plug", 4)
        ),
        Part("strip", "power-strip", "outlet strip, 1U", AUTHOR, mains=Mains("plug", 8), price=known(30)),
        Part(
            "injector",
            "injector",
            "PoE injector",
            AUTHOR,
            jacks=_jacks("in", "out"),
            mains=Mains("adaptor", 0),
        ),
        Part(
            "surge",
            "surge-protector",
            "surge protector",
            AUTHOR,
            jacks=_jacks("line", "device", rate=_PASSIVE),
        ),
        Part("shelf", "shelf", "shelf, 1U", TYPICAL),
        Part("cover", "cover-panel", "hinged cover panel, 1U", TYPICAL),
        Part(CABLE_PART, "cable", "cable, category 6", TYPICAL, price=known(0.45), cable=cable_form(50, 100)),
        Part(
            BURIED_PART, "cable", "cable, category 6, buried", TYPICAL, cable=cable_form(50, rating="buried")
        ),
        Part(CORD_PART, "cord", "cord, category 6", TYPICAL, price=known(2.1), cable=cable_form(0.5, 1, 2)),
        Part("module", "jack-module", "jack module", TYPICAL, price=known(3.2), fits="keystone"),
        Part("plug", "plug", "plug for solid wire", TYPICAL, pack=10, price=known(6)),
        Part("screws", "fastener", "cage nuts and screws", TYPICAL, pack=20, price=known(9.9)),
        Part("label", "label", "cable label", TYPICAL, pack=50),
        Part("tie", "tie", "hook-and-loop tie", TYPICAL, pack=25, price=known(4)),
        Part("wall-box", "wall-box", "wall box, 45 mm deep", TYPICAL, price=known(1.5)),
        Part("mains-lead", "power-cord", "mains lead, 1.5 m", TYPICAL, price=known(4)),
        Part("earth-set", "earth-kit", "earthing set", TYPICAL, price=known(15)),
    )
}

_ROOMS = {
    room.id: room
    for room in (
        Room(
            ids.room("home", "office"),
            "office",
            ids.site("home"),
            "building:home/house",
            0,
            False,
            known(3),
            known(4),
        ),
        Room(
            ids.room("home", "hall"),
            "hall",
            ids.site("home"),
            "building:home/house",
            1,
            False,
            known(2),
            known(0),
        ),
        Room(
            ids.room("home", "yard"),
            "yard",
            ids.site("home"),
            "building:home/house",
            0,
            True,
            known(2),
            known(0),
        ),
        Room(
            ids.room("home", "bench"),
            "bench",
            ids.site("home"),
            "building:home/shed",
            0,
            False,
            known(2),
            known(2),
        ),
    )
}
_OFFICE, _HALL, _YARD, _BENCH = _ROOMS


def _way(name: str, far: str, length: float, kind: str, exposure: str, joins: bool = False) -> Way:
    return Way(ids.way(name), name, (_OFFICE, far), known(length), kind, exposure, NOT_SAID, NOT_SAID, joins)


_WAYS = {
    way.id: way
    for way in (
        _way("duct", _BENCH, 25, "buried duct", "buried", joins=True),
        _way("eaves", _YARD, 12, "clipped outdoors", "outdoor"),
        _way("stairs", _HALL, 9, "trunking", "indoor"),
    )
}


def _device(
    name: str, part: str, room: str, cabinet: str = "", carried_by: str = "", owned: bool = False
) -> Device:
    return Device(ids.device(name), name, PARTS[part], room, cabinet, carried_by, owned, "", "")


DEVICES = {
    device.id: device
    for device in (
        _device("ap-hall", "access-point", _HALL),
        _device("cam-yard", "camera", _YARD),
        _device("core", "poe-switch", _OFFICE, MAIN),
        _device("gateway", "router", _OFFICE, MAIN, owned=True),
        _device("injector", "injector", _OFFICE, MAIN, SHELF),
        _device("out-hall", "wall-outlet", _HALL),
        _device("panel", "keystone-panel", _OFFICE, MAIN),
        _device("shed-switch", "passing-switch", _BENCH),
        _device("storage", "storage-box", _OFFICE, MAIN, SHELF),
        _device("strip", "strip", _OFFICE, MAIN),
        _device("surge-house", "surge", _OFFICE),
        _device("surge-shed", "surge", _BENCH),
        _device("ups", "backup-supply", _OFFICE, MAIN),
    )
}
_FITTINGS = {
    SHELF: Fitting(SHELF, PARTS["shelf"], MAIN, False),
    "fitting:main/2": Fitting("fitting:main/2", PARTS["cover"], MAIN, False),
}


def _mount(item: str, low: int, high: int, face: str = "front", over: bool = False) -> Mount:
    return Mount(MAIN, item, low, high, face, "", False, over)


_MOUNTS = (
    _mount(ids.device("strip"), 2, 2, "rear"),
    _mount("fitting:main/2", 2, 2, over=True),
    _mount(ids.device("ups"), 3, 4),
    _mount(SHELF, 5, 8),
    _mount(ids.device("gateway"), 9, 9),
    _mount(ids.device("core"), 10, 10),
    _mount(ids.device("panel"), 11, 11),
)


def _piece(
    link: str, hop: int, kind: str, near: str, far: str, length: float, part: str, way: str = ""
) -> Piece:
    sold = length if kind == CORD else 0.0
    terms = (Term("reckoned", length),) if length else ()
    missing = () if length else ("its way has no length",)
    route = (ids.way(way),) if way else ()
    return Piece(ids.piece(link, hop, 1), link, kind, part, (near, far), route, Length(terms, missing, sold))


def _jack(text: str) -> str:
    name, _, jack = text.partition("/")
    return ids.jack(name, jack.removesuffix("@rear"), "rear" if jack.endswith("@rear") else "front")


_AP = ids.link("ap-hall", "core/1", 1)
_CAM = ids.link("cam-yard", "core/2", 1)
_SHED = ids.link("shed-switch", "core/3", 1)
_STORE = ids.link("storage", "core/5", 1)
_OUT = ids.link("gateway", "core/6", 1)

PIECES = {
    piece.id: piece
    for piece in (
        _piece(_AP, 1, CORD, _jack("ap-hall/1"), _jack("out-hall/1"), 1, CORD_PART),
        _piece(_AP, 2, RUN, _jack("out-hall/1@rear"), _jack("panel/1@rear"), 18.5, CABLE_PART, "stairs"),
        _piece(_AP, 3, CORD, _jack("panel/1"), _jack("core/1"), 0.5, CORD_PART),
        _piece(_CAM, 1, RUN, _jack("cam-yard/1"), _jack("panel/2@rear"), 21, CABLE_PART, "eaves"),
        _piece(_CAM, 2, CORD, _jack("panel/2"), _jack("core/2"), 0.5, CORD_PART),
        _piece(_SHED, 1, CORD, _jack("shed-switch/1"), _jack("surge-shed/device"), 1, CORD_PART),
        _piece(_SHED, 2, RUN, _jack("surge-shed/line"), _jack("surge-house/line"), 34.2, BURIED_PART, "duct"),
        _piece(_SHED, 3, CORD, _jack("surge-house/device"), _jack("injector/out"), 2, CORD_PART),
        _piece(_SHED, 4, CORD, _jack("injector/in"), _jack("core/3"), 1, CORD_PART),
        _piece(_STORE, 1, CORD, _jack("storage/1"), _jack("core/5"), 1, CORD_PART),
        _piece(_OUT, 1, CORD, _jack("gateway/1"), _jack("core/6"), 0.5, CORD_PART),
    )
}


def _joints() -> Iterable[Joint]:
    for piece in PIECES.values():
        for number, end in enumerate(piece.ends):
            how = "wires on block" if end.endswith("@rear") else "plug"
            yield Joint(f"joint:{ids.path(piece.id)}@{number}", piece.id, end, how, how == "wires on block")


def _all_jacks() -> dict[str, Jack]:
    found: dict[str, Jack] = {}
    for device in DEVICES.values():
        passive = device.part.kind in ("panel", "outlet")
        for order, spec in enumerate(device.part.jacks):
            for face in ("front", "rear") if passive else ("front",):
                id_ = ids.jack(device.name, spec.name, face)
                found[id_] = Jack(
                    id_, device.id, spec.name, order, face, spec.family, spec.rate, "", spec.needs_module
                )
    return dict(sorted(found.items()))


def _link(id_: str, *hops: str) -> Link:
    return Link(id_, " – ".join(hops), tuple(map(ids.device, hops)), 1, "", "")


def _channel(link: str, near: str, far: str, through: tuple[str, ...], *hops: int) -> Channel:
    pieces = tuple(ids.piece(link, hop, 1) for hop in hops)
    id_ = f"channel:{ids.path(link)}/{hops[0]}"
    return Channel(
        id_, link, (_jack(near), _jack(far)), pieces, tuple(map(ids.device, through)), len(through), "copper"
    )


_CHANNELS = (
    _channel(_AP, "ap-hall/1", "core/1", ("out-hall", "panel"), 1, 2, 3),
    _channel(_CAM, "cam-yard/1", "core/2", ("panel",), 1, 2),
    _channel(_SHED, "shed-switch/1", "core/3", ("surge-shed", "surge-house", "injector"), 1, 2, 3, 4),
    _channel(_STORE, "storage/1", "core/5", (), 1),
    _channel(_OUT, "gateway/1", "core/6", (), 1),
)


def _power_run(
    name: str, source: str, sink: str, channel: Channel, poe_class: int, granted: float, drawn: Figure
) -> PowerRun:
    return PowerRun(
        f"power:{name}",
        _jack(source),
        _jack(sink),
        channel.id,
        channel.pieces,
        2,
        known(poe_class),
        known(4),
        known(poe_class),
        known(granted),
        known(30),
        drawn,
    )


_RUNS = (
    _power_run("ap-hall", "core/1", "ap-hall/1", _CHANNELS[0], 4, 25.5, known(16)),
    _power_run("cam-yard", "core/2", "cam-yard/1", _CHANNELS[1], 3, 12.95, NOT_SAID),
    _power_run("shed-switch", "injector/out", "shed-switch/1", _CHANNELS[2], 4, 25.5, known(9)),
)
_SOURCES = (
    PowerSource(
        ids.device("core"),
        known(65),
        (),
        "class",
        "the part says so",
        "",
        ("power:ap-hall", "power:cam-yard"),
    ),
    PowerSource(
        ids.device("injector"), known(30), (), "class", "the part says so", "", ("power:shed-switch",)
    ),
    PowerSource(
        ids.device("shed-switch"), known(12), (), "draw", "the part says so", "power:shed-switch", ()
    ),
)


def _items() -> Iterable[Item]:
    def item(
        id_: str,
        part: str,
        for_id: str,
        why: str,
        count: int = 1,
        length: float = 0.0,
        standing: str = TO_BUY,
    ) -> Item:
        return Item(f"item:{id_}", part, count, length, _OFFICE, for_id, why, standing, "")

    for device in DEVICES.values():
        yield item(
            device.name,
            device.part.name,
            device.id,
            "the device itself",
            standing=IN_PLACE if device.is_owned else TO_BUY,
        )
    yield item("main", "wall-cabinet", MAIN, "the cabinet itself")
    for fitting in _FITTINGS.values():
        yield item(ids.path(fitting.id), fitting.part.name, fitting.id, "the fitting itself")
    for mount in _MOUNTS:
        if mount.item != ids.device("gateway"):
            in_box = mount.item == ids.device("ups")
            yield item(
                f"{ids.path(mount.item)}/screws",
                "screws",
                mount.item,
                "fixing to the rails",
                4,
                0,
                IN_A_BOX if in_box else TO_BUY,
            )
    for piece in PIECES.values():
        yield from _items_of(piece, item)
    yield item("out-hall/box", "wall-box", ids.device("out-hall"), "behind the outlet")
    for name in ("core", "storage"):
        yield item(f"{name}/lead", "mains-lead", ids.device(name), "its mains inlet")
    yield item("main/earth", "earth-set", MAIN, "bonding the cabinet")
    for name in ("surge-house", "surge-shed"):
        yield item(f"{name}/earth", "earth-set", ids.device(name), "bonding the surge protector")
    yield item("main/ties", "tie", MAIN, "dressing its cables", 10)


def _items_of(piece: Piece, item: object) -> Iterable[Item]:
    assert callable(item)
    path = ids.path(piece.id)
    if piece.kind == CORD:
        yield item(path, piece.part, piece.id, "patching")
        return
    yield item(path, piece.part, piece.id, "installed run", 1, sum(term.value for term in piece.length.terms))
    yield item(f"{path}/labels", "label", piece.id, "both ends", 2)
    for number, end in enumerate(piece.ends):
        device, _, jack = ids.path(end).partition("/")
        if jack.endswith("@rear"):
            name = jack.removesuffix("@rear")
            yield item(f"{device}/{name}+jack", "module", ids.device(device), f"fills opening {name}")
        else:
            yield item(f"{path}@{number}+plug", "plug", piece.id, f"ends the run at {device}/{jack}")


_VLAN = Vlan(ids.vlan("mgmt"), "mgmt", 10, "10.0.10.0/24", "10.0.10.1", ("", ""), ("cameras",))
_CAMERAS = Vlan(ids.vlan("cameras"), "cameras", 20, "10.0.20.0/24", "10.0.20.1", ("", ""), ())
_SETUPS = (
    PortSetup(_jack("core/1"), _VLAN.id, (), "worked out"),
    PortSetup(_jack("core/2"), _CAMERAS.id, (), "worked out"),
    PortSetup(_jack("core/3"), "", (_VLAN.id,), "worked out"),
    PortSetup(_jack("core/6"), "", (_VLAN.id, _CAMERAS.id), "worked out"),
)
_ADDRESSES = (
    AddressClaim(ids.device("cam-yard"), _CAMERAS.id, "10.0.20.2", 24),
    AddressClaim(ids.device("core"), _VLAN.id, "10.0.10.2", 24),
    AddressClaim(ids.device("gateway"), _VLAN.id, "10.0.10.1", 24),
    AddressClaim(ids.device("shed-switch"), _VLAN.id, "10.0.10.3", 24),
)
_FEEDS = (
    MainsFeed(ids.device("core"), ids.device("ups"), 1),
    MainsFeed(ids.device("gateway"), ids.device("ups"), 2),
    MainsFeed(ids.device("injector"), ids.device("strip"), 1),
    MainsFeed(ids.device("storage"), ids.device("ups"), 3),
    MainsFeed(ids.device("strip"), _OFFICE, 1),
    MainsFeed(ids.device("ups"), ids.device("strip"), 2),
)


def sample() -> Build:
    jacks = _all_jacks()
    jacks_of = {
        device: tuple(id_ for id_, jack in jacks.items() if jack.device == device) for device in DEVICES
    }
    return Build(
        name="House and shed",
        start="",
        currency="EUR",
        library=PARTS,
        sites={ids.site("home"): Site(ids.site("home"), "home")},
        buildings={
            "building:home/house": Building("building:home/house", "house", ids.site("home"), "house"),
            "building:home/shed": Building("building:home/shed", "shed", ids.site("home"), "shed"),
        },
        rooms=_ROOMS,
        ways=_WAYS,
        cabinets={
            MAIN: Cabinet(MAIN, "main", PARTS["wall-cabinet"], _OFFICE, 12, known(0.4), "square", "M6", False)
        },
        devices=DEVICES,
        fittings=_FITTINGS,
        mounts=_MOUNTS,
        occupancy=(),
        jacks=jacks,
        jacks_of=jacks_of,
        throughs=(),
        links={
            link.id: link
            for link in (
                _link(_AP, "ap-hall", "out-hall", "panel", "core"),
                _link(_CAM, "cam-yard", "panel", "core"),
                _link(_SHED, "shed-switch", "surge-shed", "surge-house", "injector", "core"),
                _link(_STORE, "storage", "core"),
                _link(_OUT, "gateway", "core"),
            )
        },
        pieces=PIECES,
        joints=tuple(_joints()),
        channels={each.id: each for each in _CHANNELS},
        open_ends=(),
        power_runs={run.id: run for run in _RUNS},
        power_sources={source.device: source for source in _SOURCES},
        mains_feeds=_FEEDS,
        vlans={_VLAN.id: _VLAN, _CAMERAS.id: _CAMERAS},
        port_setups={setup.jack: setup for setup in _SETUPS},
        memberships={},
        addresses=_ADDRESSES,
        name_service=NameService("", ()),
        wireless=(),
        items=tuple(_items()),
        decisions=(),
        gaps=(),
        unsettled=frozenset(),
        provenance=Provenance(),
    )


def with_items(build: Build, items: Iterable[Item]) -> Build:
    return replace(build, items=tuple(items))


def with_parts(build: Build, *parts: Part) -> Build:
    """The build with some parts of its library replaced or added."""
    return replace(build, library={**build.library, **{part.name: part for part in parts}})
