"""What a part is: its facts. What it has not (it takes no PoE) is None; a figure nobody gave is Unknown."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.parts.facts import NOT_SAID, Figure, Unknown

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
    "jack-module", "plug", "fastener", "label", "tie", "wall-box", "transceiver", "earth-kit",
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

YesNo = bool | Unknown


class RackForm(NamedTuple):
    """How a part sits between rails. `width` is full (482.6 mm) or half; `depth` in metres, behind the rails.

    The depth is without plugs and their bends. A thing that stands by itself has height 0 and width none;
    its depth then says whether it fits on a shelf.
    """

    height: int
    width: str
    depth: Figure


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
    """`poe_class` 0 to 8 as the device asks for (IEEE 802.3 clauses 33 and 145); jacks it may be fed at."""

    jacks: tuple[str, ...]
    poe_class: Figure


class GivesPoe(NamedTuple):
    """`poe_class`: the highest a jack grants. `budget`: watts at the jacks, all together, on mains power.

    `when_fed`: for a part that is itself fed by PoE, (class granted to it, watts it can give on).
    `counts`: how it counts what it has given: "class" or "draw".
    `efficiency`: of the conversion inside, 0 to 1.
    """

    jacks: tuple[str, ...]
    poe_class: Figure
    budget: Figure
    when_fed: tuple[tuple[int, float], ...]
    counts: str | Unknown
    efficiency: Figure


class Mains(NamedTuple):
    """`inlet`: "" (none), plug (on its own lead), coupler (IEC 60320, needs a power cord), adaptor (plug-in).

    `outlets`: how many it offers to others; `rating`: watts that it can pass on through them, all together.
    """

    inlet: str
    outlets: int
    rating: Figure = NOT_SAID


NO_MAINS = Mains("", 0)


class CableForm(NamedTuple):
    """What a cable or cord is made of. `category` such as 6 or 6a for copper, om4 or os2 for fibre.

    `lengths`: metres in which a cord is sold, or the box and reel lengths of a cable.
    `rating`: indoor, outdoor or buried. `diameter`: metres over the jacket, for bores and bends.
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


@dataclass(frozen=True, slots=True)
class Part:
    """A thing that can be bought. Facts only; where a thing stands and what it is for is the build's.

    `price` is for one `pack`; a cable's is for one metre, a cord's for one of any length.
    `rail_width` (full or half), `units`, `usable_depth`, `outside`: a cabinet's.
    `rails` and `thread`: a cabinet's, or those that a fastener suits. `fixings`: how many fasteners it needs.
    `fits`: the opening that a module fills.
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
    units: int = 0
    rail_width: str = ""
    usable_depth: Figure = NOT_SAID
    outside: Outside | None = None
    rails: str = ""
    thread: str = ""
    fixings: int = 0
    pack: int = 1
    in_box: tuple[tuple[str, int], ...] = ()
    needs: tuple[tuple[str, int], ...] = ()
    note: str = ""

    def jack(self, name: str) -> JackSpec | None:
        return next((each for each in self.jacks if each.name == name), None)


Library = Mapping[str, Part]
