"""What a plan says. Every spec keeps its key and value nodes, outside equality, so that any attribute can be pointed at."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from firstfix.parts.part import Part
from firstfix.source.node import Node, Scalar
from firstfix.span import Span


@dataclass(frozen=True, slots=True)
class Written:
    """Where a spec was written: its name's node, or None for an item of a list, and its value's node."""

    key: Scalar | None
    node: Node

    @property
    def span(self) -> Span:
        return self.node.span if self.key is None else self.key.span


@dataclass(frozen=True, slots=True)
class RoomSpec:
    """`drop` in metres; `mains` is how many mains outlets are free in the room."""

    name: str
    floor: int
    is_outdoors: bool
    drop: float | None
    mains: int | None
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class BuildingSpec:
    name: str
    earth: str
    rooms: tuple[RoomSpec, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class SiteSpec:
    name: str
    buildings: tuple[BuildingSpec, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class WaySpec:
    """`between`: references to two rooms. Metres and degrees Celsius, None where the author did not say."""

    name: str
    between: tuple[str, ...]
    length: float | None
    kind: str
    bore: float | None
    temperature: float | None
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class SlotSpec:
    """Units `low` to `high` of a cabinet. `what` is device (then `name` is a device), fit (a part) or keep-free (a purpose)."""

    low: int
    high: int
    what: str
    name: str
    face: str
    over: str
    carries: tuple[str, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class CabinetSpec:
    name: str
    part: str
    room: str
    is_owned: bool
    slots: tuple[SlotSpec, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class DeviceSpec:
    """`host` is a host number or a full address as text; `power` a reference, "mains", "poe" or "". `drop` in metres."""

    name: str
    part: str
    room: str
    vlan: str
    tagged: tuple[str, ...]
    host: str
    power: str
    is_owned: bool
    phase: str
    drop: float | None
    mac: str
    note: str
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class HopSpec:
    """One place that a run touches: a device, and the jack or range of jacks asked for ("" for any); `shown` is both, as written."""

    device: str
    jacks: str
    shown: str
    node: Node = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class LinkSpec:
    """One chain. `tagged` and `untagged` override what would be worked out; None where the author did not say."""

    hops: tuple[HopSpec, ...]
    lanes: int
    spare_for: str
    along: tuple[str, ...]
    tagged: tuple[str, ...] | None
    untagged: str | None
    cable: str
    cord: str
    rate: float | None
    phase: str
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class VlanSpec:
    """`gateway` is a host number or address of the router in the subnet, "" for the first; `leases` such as "100-199"."""

    name: str
    vid: int
    subnet: str
    gateway: str
    leases: str
    reaches: tuple[str, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class WifiSpec:
    name: str
    ssid: str
    vlan: str
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class NamesSpec:
    domain: str
    servers: tuple[str, ...]
    written: Written | None = field(compare=False, repr=False, default=None)


@dataclass(frozen=True, slots=True)
class CablingSpec:
    """Parts used where a link does not name its own, and the allowances of the lengths, in metres."""

    indoor: str
    outdoor: str
    buried: str
    cords: str
    jacks: str
    plugs: str
    fibre: str
    direct_attach: str
    slack: float
    drop: float
    dressing: float
    desk_cord: float
    written: Written | None = field(compare=False, repr=False, default=None)


@dataclass(frozen=True, slots=True)
class Plan:
    """All that one plan says. Mappings keep the author's order; nothing that follows may depend on it."""

    name: str
    start: str
    currency: str
    sites: tuple[SiteSpec, ...]
    ways: tuple[WaySpec, ...]
    cabinets: tuple[CabinetSpec, ...]
    devices: tuple[DeviceSpec, ...]
    links: tuple[LinkSpec, ...]
    vlans: tuple[VlanSpec, ...]
    wifi: tuple[WifiSpec, ...]
    names: NamesSpec
    cabling: CablingSpec
    parts: Mapping[str, Part]
    defaults: Mapping[str, Mapping[str, str]]
    written: Written = field(compare=False, repr=False)
