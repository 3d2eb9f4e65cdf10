"""The build itself. Total: what could not be settled is a gap, what is not known is Unknown; nothing below meets a hole."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from firstfix.build.administration import USUAL_ADMINISTRATION, Administration
from firstfix.build.cabling import Channel, Joint, Link, OpenEnd, Piece
from firstfix.build.hardware import Cabinet, Device, Fitting, Item, Jack, Mount, Occupancy, Through
from firstfix.build.logical import AddressClaim, InternetLine, NameService, PortSetup, Vlan, WirelessNetwork
from firstfix.build.looks import USUAL_LOOKS, Looks
from firstfix.build.phases import Phase
from firstfix.build.places import Building, Room, Site, Way
from firstfix.build.power import NO_MAINS_SAID, Circuit, HouseMains, MainsFeed, PowerRun, PowerSource
from firstfix.build.reasons import Decision, Gap, Provenance
from firstfix.build.stock import StockLot
from firstfix.build.working import USUAL_WORK, Working
from firstfix.offers.model import NO_WISH, Shop, Wish
from firstfix.parts.part import Library


@dataclass(frozen=True, slots=True)
class Build:
    """One network as it will stand. Every mapping goes from id to the thing, in sorted order of ids.

    `name`, `start` (a date as text or "") and `currency` are the plan's. `jacks_of` gives a device's jacks in their order.
    `mains_feeds` maps a device to its feeds, `addresses` lists claims sorted by device and VLAN.
    `memberships`: device to the VLAN it is untagged in ("" for none), then those it takes tagged.
    `unsettled`: devices named by a link that has a fault, about which nothing may be concluded.
    `stock`: what was at hand, what is taken of it and what stays. `spares`: one spare cord is bought for each so many of a
    lot, 0 for none.
    `phases` in their order. `renames`: id of a thing to the id that it had under its old name, if the plan tells one.
    `shops` by name, whose offers are of parts that there are; `purchase` is how the author wishes to buy.
    `working`: when and by how many the work is done. `looks`: of the drawings. `administration`: of labels.
    `items` hold every physical thing; `joints` are made when they are asked for.
    `provenance` is a side table: it takes no part in equality, and isn't written out.
    """

    name: str
    start: str
    currency: str
    library: Library = field(compare=False, repr=False)
    sites: Mapping[str, Site]
    buildings: Mapping[str, Building]
    rooms: Mapping[str, Room]
    ways: Mapping[str, Way]
    cabinets: Mapping[str, Cabinet]
    devices: Mapping[str, Device]
    fittings: Mapping[str, Fitting]
    mounts: tuple[Mount, ...]
    occupancy: tuple[Occupancy, ...]
    jacks: Mapping[str, Jack]
    jacks_of: Mapping[str, tuple[str, ...]] = field(compare=False, repr=False)
    throughs: tuple[Through, ...]
    links: Mapping[str, Link]
    pieces: Mapping[str, Piece]
    joints: Sequence[Joint]
    channels: Mapping[str, Channel]
    open_ends: tuple[OpenEnd, ...]
    power_runs: Mapping[str, PowerRun]
    power_sources: Mapping[str, PowerSource]
    mains_feeds: tuple[MainsFeed, ...]
    vlans: Mapping[str, Vlan]
    port_setups: Mapping[str, PortSetup]
    memberships: Mapping[str, tuple[str, ...]]
    addresses: tuple[AddressClaim, ...]
    name_service: NameService
    wireless: tuple[WirelessNetwork, ...]
    items: tuple[Item, ...]
    decisions: tuple[Decision, ...]
    gaps: tuple[Gap, ...] = field(compare=False, repr=False)
    unsettled: frozenset[str] = field(compare=False, repr=False)
    provenance: Provenance = field(compare=False, repr=False)
    circuits: Mapping[str, Circuit] = field(default_factory=dict)
    mains: HouseMains = NO_MAINS_SAID
    stock: tuple[StockLot, ...] = ()
    spares: int = 0
    internet: InternetLine | None = None
    phases: tuple[Phase, ...] = ()
    renames: Mapping[str, str] = field(default_factory=dict)
    shops: tuple[Shop, ...] = ()
    purchase: Wish = NO_WISH
    working: Working = USUAL_WORK
    administration: Administration = USUAL_ADMINISTRATION
    looks: Looks = USUAL_LOOKS
