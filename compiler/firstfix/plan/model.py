"""What a plan says. Every spec keeps its key and value nodes, outside equality, so that any attribute can be pointed at."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from firstfix.finding.model import Exemption
from firstfix.offers.model import NO_WISH, Shop, Wish
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
    """`drop` in metres; `mains` is how many mains outlets are free in the room, `circuit` what they hang on.

    `size` is (east to west, south to north, height) and `position` (east, north) of its south-west corner in the site, in metres.
    `walls`: side to what it is made of. `ambient`: lowest and highest degrees Celsius.
    """

    name: str
    floor: int
    is_outdoors: bool
    drop: float | None
    mains: int | None
    size: tuple[float, float, float | None] | None
    position: tuple[float, float] | None
    walls: tuple[tuple[str, str], ...]
    ambient: tuple[float, float] | None
    written: Written = field(compare=False, repr=False)
    circuit: str = ""
    label: str = ""


@dataclass(frozen=True, slots=True)
class BuildingSpec:
    """`altitude` in metres above the sea."""

    name: str
    earth: str
    altitude: float | None
    rooms: tuple[RoomSpec, ...]
    written: Written = field(compare=False, repr=False)
    label: str = ""


@dataclass(frozen=True, slots=True)
class SiteSpec:
    name: str
    buildings: tuple[BuildingSpec, ...]
    written: Written = field(compare=False, repr=False)
    label: str = ""


@dataclass(frozen=True, slots=True)
class WaySpec:
    """`between`: references to two rooms. Metres and degrees Celsius, None where the author did not say.

    `bundle`: how many cables are tied into one bundle at the most. `material`: the part it is made of, or "" where the author
    buys that apart; `bends`: how many quarter bends it makes.
    """

    name: str
    between: tuple[str, ...]
    length: float | None
    kind: str
    bore: float | None
    temperature: float | None
    phase: str
    written: Written = field(compare=False, repr=False)
    bundle: int | None = None
    is_owned: bool = False
    material: str = ""
    bends: int | None = None


@dataclass(frozen=True, slots=True)
class SlotSpec:
    """Units `low` to `high` of a cabinet. `what` is device (then `name` is a device), fit (a part) or keep-free (a purpose).

    `side` is left or right for one of two that share their units, else "". `heat` in watts, of what units are kept free for.
    """

    low: int
    high: int
    what: str
    name: str
    face: str
    side: str
    over: str
    carries: tuple[str, ...]
    heat: float | None
    is_owned: bool
    phase: str
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class CabinetSpec:
    """`cooling`: closed, meshed, fan or "" and the fan's air flow in m³/h. `above_floor`, `clear_in_front`: metres."""

    name: str
    part: str
    room: str
    is_owned: bool
    phase: str
    cooling: str
    air_flow: float | None
    above_floor: float | None
    clear_in_front: float | None
    slots: tuple[SlotSpec, ...]
    written: Written = field(compare=False, repr=False)
    label: str = ""


@dataclass(frozen=True, slots=True)
class DeviceSpec:
    """`host` is a host number or a full address as text; `power` what feeds it: references, "mains", "wall", "poe", or nothing. `drop` in metres.

    `poe_priority`: critical, high, low, or "" where the author did not say.
    """

    name: str
    part: str
    room: str
    vlan: str
    tagged: tuple[str, ...]
    host: str
    power: tuple[str, ...]
    is_owned: bool
    phase: str
    drop: float | None
    mac: str
    cable: str
    cord: str
    note: str
    written: Written = field(compare=False, repr=False)
    poe_priority: str = ""
    label: str = ""


@dataclass(frozen=True, slots=True)
class HopSpec:
    """One place that a run touches: a device, and the jack or range of jacks asked for ("" for any); `shown` is both, as written."""

    device: str
    jacks: str
    shown: str
    node: Node = field(compare=False, repr=False)


# What of a link is there already.
RUNS = "runs"
ALL = "all"


@dataclass(frozen=True, slots=True)
class LinkSpec:
    """One chain. `tagged` and `untagged` override what would be worked out; None where the author did not say.

    `colour`: its cords'. `owned`: what of it is there already, "" (nothing), RUNS or ALL. `length`: metres of its one
    installed run, or of its one cord, as the author knows it.
    """

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
    colour: str = ""
    owned: str = ""
    length: float | None = None


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
    colour: str = ""


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
class CircuitSpec:
    """Amperes of what protects the circuit, volts between its conductors; None where the author did not say."""

    name: str
    rating: float | None
    volts: float | None
    written: Written = field(compare=False, repr=False)


class MainsSpec(NamedTuple):
    """What every outlet of the plan is like: `plug`, a letter of IEC/TR 60083, or ""; `volts`, None where nobody said it."""

    plug: str = ""
    volts: float | None = None


NO_MAINS_SAID = MainsSpec()


class StockLength(NamedTuple):
    """`number` cords or coils of `length` metres; `colour` is "" where nobody said it."""

    length: float
    colour: str
    number: int


@dataclass(frozen=True, slots=True)
class StockSpec:
    """What is at hand of one part: `count` pieces, or, of cords and cable, by `lengths`."""

    part: str
    count: int
    lengths: tuple[StockLength, ...]
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class InternetSpec:
    """The line: the device it comes in `through`, how the router's outside gets its address (dhcp, fixed, pppoe), and for
    a fixed one the address with its prefix, and the provider's router. `translates`: whether the provider's box does, None unsaid.
    """

    through: str
    addresses: str
    address: str
    router: str
    translates: bool | None
    written: Written = field(compare=False, repr=False)


class CordColours(NamedTuple):
    """Colours where neither link nor VLAN says one: of cords, of cords that carry VLANs tagged, of installed runs. "" for any."""

    cords: str = ""
    tagged: str = ""
    runs: str = ""


NO_COLOURS = CordColours()


# How installed fibre gets its plugs: pigtails are spliced to it, or whoever sells the cable puts plugs on it.
SPLICED = "spliced"
PLUGS = "plugs"


@dataclass(frozen=True, slots=True)
class CablingSpec:
    """Parts used where a link does not name its own, and the allowances of the lengths, in metres.

    `bundle`: how many cables are tied into one bundle at the most, where a way does not say.
    `spares`: one spare for each so many of a lot, 0 for none. `fibre_ends`: how installed fibre gets its plugs, SPLICED or PLUGS.
    """

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
    bundle: int | None = None
    colours: CordColours = NO_COLOURS
    spares: int = 0
    fibre_ends: str = SPLICED


@dataclass(frozen=True, slots=True)
class FoundOnSite:
    """What the site itself said, by name of device and of run (`core--desk/2`). It is laid over what the plan reckons.

    `lengths`: metres, and the run as it was planned when it was measured, or "".
    """

    macs: Mapping[str, str] = field(default_factory=dict)
    serials: Mapping[str, str] = field(default_factory=dict)
    lengths: Mapping[str, tuple[float, str]] = field(default_factory=dict)


NOTHING_FOUND = FoundOnSite()


@dataclass(frozen=True, slots=True)
class PhaseSpec:
    """`by`: a day or ""; `budget` in the plan's currency."""

    name: str
    by: str
    budget: float | None
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class ShopSpec:
    """`offers`: where each of the shop's offers is written, in their order."""

    shop: Shop
    offers: tuple[Written, ...] = field(compare=False, repr=False)
    written: Written = field(compare=False, repr=False)


@dataclass(frozen=True, slots=True)
class WishSpec:
    """`instead_at`: where each of the other parts is written, in their order; `sold_out_at`: where each is that can't be had."""

    wish: Wish = NO_WISH
    written: Written | None = field(compare=False, repr=False, default=None)
    instead_at: tuple[Span, ...] = field(compare=False, repr=False, default=())
    sold_out_at: Mapping[str, Span] = field(compare=False, repr=False, default_factory=dict)
    runs_at: Mapping[str, Span] = field(compare=False, repr=False, default_factory=dict)


@dataclass(frozen=True, slots=True)
class DrawingsSpec:
    """None: not said."""

    theme: str | None = None
    paper: str | None = None
    credit: str | None = None


@dataclass(frozen=True, slots=True)
class OwnStepSpec:
    """A step that no build asks for. `takes` in seconds; `crew`: how many of the crew do it, None where nobody said it."""

    name: str
    does: str
    room: str
    phase: str
    takes: float
    crew: int | None
    written: Written = field(compare=False, repr=False)


class AfterSpec(NamedTuple):
    """The step `before` is to be done before `step`, for the reason `why` or ""."""

    step: str
    before: str
    why: str


@dataclass(frozen=True, slots=True)
class WorkSpec:
    """`days` of the week (Monday is 0), none where nothing is said; `minutes` of work on each; `lead` in days. None: not said.

    `takes`: minutes by kind of step. `own`: steps of the author's own. `after`: what the author wants before what.
    """

    days: tuple[int, ...]
    minutes: int | None
    crew: int | None
    closed: tuple[str, ...]
    takes: tuple[tuple[str, int], ...]
    lead: int | None
    written: Written = field(compare=False, repr=False)
    own: tuple[OwnStepSpec, ...] = ()
    after: tuple[AfterSpec, ...] = ()


class LabelsSpec(NamedTuple):
    """How things are identified, and what labels are printed on; "" where nobody said it."""

    scheme: str = ""
    sheets: str = ""


NO_LABELS = LabelsSpec()


@dataclass(frozen=True, slots=True)
class Plan:
    """All that one plan says. Mappings keep the author's order; nothing that follows may depend on it.

    `renames`: id of a thing to the id it had under its old name (`was:`).
    `in_doubt`: names within what was left out for a fault; that such a thing seems to be missing is no second fault.
    """

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
    phases: tuple[PhaseSpec, ...]
    parts: Mapping[str, Part]
    renames: Mapping[str, str]
    written: Written = field(compare=False, repr=False)
    found: FoundOnSite = NOTHING_FOUND
    circuits: tuple[CircuitSpec, ...] = ()
    mains: MainsSpec = NO_MAINS_SAID
    stock: tuple[StockSpec, ...] = ()
    internet: InternetSpec | None = None
    exceptions: tuple[Exemption, ...] = ()
    shops: tuple[ShopSpec, ...] = ()
    purchase: WishSpec = WishSpec()  # frozen, so it may be shared
    drawings: DrawingsSpec = DrawingsSpec()
    work: WorkSpec | None = None
    labels: LabelsSpec = NO_LABELS
    in_doubt: frozenset[str] = field(default=frozenset(), compare=False, repr=False)
