"""What a part is: its facts. What it has not (it takes no PoE) is None; a figure nobody gave is Unknown."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from firstfix.parts.facts import NOT_SAID, Figure, Unknown
from firstfix.parts.forms import (
    Battery,
    CabinetForm,
    Cooling,
    CoverForm,
    EarthLead,
    Exposure,
    FastenerForm,
    LowVoltage,
    Optics,
    PathwayForm,
    ShelfForm,
    Size,
    SurgeForm,
    Word,
    YesNo,
)

# The closed list of kinds, by what the compiler does with them.
ACTIVE_KINDS = (
    "gateway", "switch", "access-point", "camera", "small-computer", "computer", "storage", "sensor", "phone",
    "printer", "end-device",
)  # fmt: skip
TERMINATION_KINDS = ("panel", "outlet")
INLINE_KINDS = ("injector", "surge-protector", "coupler", "splitter")
MAINS_KINDS = ("power-strip", "ups")
FITTING_KINDS = ("cabinet", "shelf", "cover-panel")
CABLE_KINDS = ("cable", "cord", "power-cord")
MATERIAL_KINDS = (
    "jack-module", "plug", "fibre-end", "fastener", "label", "tie", "wall-box", "transceiver", "earth-kit",
    "pathway-material", "consumable", "tool",
)  # fmt: skip
KINDS: tuple[str, ...] = (
    *ACTIVE_KINDS, *TERMINATION_KINDS, *INLINE_KINDS, *MAINS_KINDS, *FITTING_KINDS, *CABLE_KINDS,
    *MATERIAL_KINDS,
)  # fmt: skip

# Families of data jacks, by the trade's names. rj45 is the eight-contact modular jack of IEC 60603-7.
COPPER_FAMILIES = ("rj45",)
CAGE_FAMILIES = ("sfp", "sfp-plus")
FIBRE_FAMILIES = ("lc", "sc")
JACK_FAMILIES: tuple[str, ...] = (*COPPER_FAMILIES, *CAGE_FAMILIES, *FIBRE_FAMILIES)

# What a fastener goes into: cage nuts into square holes, screws into threaded ones.
RAILS = ("square holes", "round holes", "threaded")


class RackForm(NamedTuple):
    """How a part sits between rails. `width` is full (482.6 mm) or half; `depth` in metres, behind the rails.

    The depth is without plugs and their bends. A thing that stands by itself has height 0 and width none;
    its depth then says whether it fits on a shelf.
    `front_depth`: metres that its handles, plugs and their bends stand out before the rails.
    `plug_space`: metres that plugs and their bends need behind its depth. `ears`: whether they come with it.
    """

    height: int
    width: str
    depth: Figure
    front_depth: Figure = NOT_SAID
    plug_space: Figure = NOT_SAID
    ears: Word = NOT_SAID

    @property
    def depth_with_plugs(self) -> float | None:
        """Metres behind the rails with plugs and bends, at the most; None where either is not known."""
        if isinstance(self.depth, Unknown) or isinstance(self.plug_space, Unknown):
            return None
        return self.depth.high + self.plug_space.high


class Outside(NamedTuple):
    """A cabinet's outer size in metres: what it takes of the room, and the surface that lets its heat out."""

    width: Figure
    height: Figure
    depth: Figure


class JackSpec(NamedTuple):
    """One jack of a part. `needs_module`: the opening that a module must fill first, "" where it is built in.

    `rate` is the highest data rate in Mb/s; Unknown for a passive jack, whose rate follows from its category.
    `side` is outside for a jack towards the provider's line, which a gateway never bridges to its inside.
    """

    name: str
    family: str
    rate: Figure
    needs_module: str = ""
    side: str = "inside"


class Pass(NamedTuple):
    """Two jacks of an in-line part, joined for data; `power` passes, blocks or injects (towards `far`)."""

    near: str
    far: str
    power: str


class TakesPoe(NamedTuple):
    """`poe_class` 0 to 8 as the device asks for (IEEE 802.3 clauses 33 and 145); jacks it may be fed at.

    `pairs`: over how many pairs it can be fed, 2 or 4.
    `least_class`: the lowest it works with, if with less than all it can do. `negotiates`: asks for steps of 0.1 W over the cable.
    """

    jacks: tuple[str, ...]
    poe_class: Figure
    pairs: Figure = NOT_SAID
    least_class: Figure = NOT_SAID
    negotiates: YesNo = NOT_SAID


class GivesPoe(NamedTuple):
    """`poe_class`: the highest a jack grants. `budget`: watts at the jacks, all together, on mains power.

    `when_fed`: for a part that is itself fed by PoE, (class granted to it, watts it can give on).
    `counts`: how it counts what it has given: "class" or "draw".
    `efficiency`: of the conversion inside, 0 to 1.
    `poe_type`: 1 to 4 (IEEE 802.3); `pairs`: 2 or 4; `jack_limit`: watts that one jack gives at the most.
    `negotiates`: reserves what a device asks for in steps of 0.1 W, where the device asks.
    """

    jacks: tuple[str, ...]
    poe_class: Figure
    budget: Figure
    when_fed: tuple[tuple[int, float], ...]
    counts: str | Unknown
    efficiency: Figure
    poe_type: Figure = NOT_SAID
    pairs: Figure = NOT_SAID
    jack_limit: Figure = NOT_SAID
    negotiates: YesNo = NOT_SAID


class Mains(NamedTuple):
    """`inlet`: "" (none), plug (on its own lead), coupler (IEC 60320, needs a power cord), adaptor (plug-in).

    `outlets`: how many it offers to others; `rating`: watts that it can pass on through them, all together.
    `inlets`: how many leads may feed it, each of which can carry it alone; where there is no inlet it means nothing.
    `shape`: a plug's or adaptor's letter, or a coupler's sheet of IEC 60320; `sockets`: the same of its outlets.
    `current`: amperes that its outlets carry. `protection`: what guards them. `leakage`: amperes to earth in use.
    `blocks`: neighbouring outlets that its adaptor covers. `surge`: whether it holds surge arresters.
    """

    inlet: str
    outlets: int
    rating: Figure = NOT_SAID
    inlets: int = 1
    shape: Word = NOT_SAID
    sockets: Word = NOT_SAID
    current: Figure = NOT_SAID
    protection: Word = NOT_SAID
    leakage: Figure = NOT_SAID
    blocks: Figure = NOT_SAID
    surge: YesNo = NOT_SAID


NO_MAINS = Mains("", 0)
NO_EXPOSURE = Exposure()


class CableForm(NamedTuple):
    """What a cable or cord is made of. `category` such as 6 or 6a for copper, om4 or os2 for fibre.

    `lengths`: metres in which a cord is sold, or the box and reel lengths of a cable.
    `rating`: indoor, outdoor or buried. `diameter`: metres over the jacket, for bores and bends.
    `bend`: least radius of its bends in metres once it lies; `bend_pulling`: while it is pulled in.
    `fire_class`: of EN 50575. `reels`: those of the lengths that come on a reel, the others in a box.
    `plug_length`: metres that a cord's plug stands out of its jack before the cord may bend.
    `ends`: what a mains cord has at its two ends, a plug's letter or a coupler's sheet; `current`: amperes.
    """

    medium: str
    category: str
    gauge_awg: Figure
    is_stranded: bool
    is_screened: bool
    conductor: str
    rating: str
    lengths: tuple[float, ...]
    family: str
    diameter: Figure = NOT_SAID
    bend: Figure = NOT_SAID
    bend_pulling: Figure = NOT_SAID
    fire_class: Word = NOT_SAID
    plug_length: Figure = NOT_SAID
    fibres: int = 0
    reels: tuple[float, ...] = ()
    ends: tuple[str, ...] = ()
    current: Figure = NOT_SAID


@dataclass(frozen=True, slots=True)
class Part:
    """A thing that can be bought. Facts only; where a thing stands and what it is for is the build's.

    `price` is for one `pack`; a cable's is for one metre, a cord's for one of any length.
    `rail_width` (full or half), `units`, `usable_depth`, `outside`: a cabinet's.
    `rails` and `thread`: a cabinet's, or those that a fastener suits. `fixings`: how many fasteners it needs.
    `fits`: the opening that a module fills. `wire`: what a plug or module is made for. `spacing`: metres from
    one tie or clip to the next. `said`: keys written for it or for what it is like; "unknown" is written too.
    """

    name: str
    kind: str
    title: str
    basis: str
    like: str = ""
    rack: RackForm | None = None
    weight: Figure = NOT_SAID
    draw: Figure = NOT_SAID
    price: Figure = NOT_SAID
    jacks: tuple[JackSpec, ...] = ()
    passes: tuple[Pass, ...] = ()
    takes_poe: TakesPoe | None = None
    gives_poe: GivesPoe | None = None
    mains: Mains = NO_MAINS
    bridges: YesNo = False
    spanning_tree: YesNo = False
    vlan_aware: YesNo = False
    routes: YesNo = False
    cable: CableForm | None = None
    fits: str = ""
    category: str = ""
    screened: YesNo = NOT_SAID
    wire: Word = NOT_SAID
    spacing: Figure = NOT_SAID
    exposure: Exposure = NO_EXPOSURE
    cooling: Cooling | None = None
    size: Size | None = None
    units: int = 0
    rail_width: str = ""
    usable_depth: Figure = NOT_SAID
    outside: Outside | None = None
    cabinet: CabinetForm | None = None
    shelf: ShelfForm | None = None
    cover: CoverForm | None = None
    fastener: FastenerForm | None = None
    optics: Optics | None = None
    battery: Battery | None = None
    surge: SurgeForm | None = None
    gives_low_voltage: LowVoltage | None = None
    pathway: PathwayForm | None = None
    earth: EarthLead | None = None
    rails: str = ""
    thread: str = ""
    fixings: int = 0
    pack: int = 1
    in_box: tuple[tuple[str, int], ...] = ()
    needs: tuple[tuple[str, int], ...] = ()
    note: str = ""
    said: frozenset[str] = field(default=frozenset(), compare=False, repr=False)

    def jack(self, name: str) -> JackSpec | None:
        return next((each for each in self.jacks if each.name == name), None)


Library = Mapping[str, Part]
