"""A small mill with VLANs, drawn up by hand: what the tests of the stubs look at. Everything in it is
invented.
"""

from collections.abc import Mapping
from dataclasses import replace

from documents.drawing.sketch import (
    ACCESS_POINT,
    CAMERA,
    GATEWAY,
    INJECTOR,
    OUTLET,
    SMALL_COMPUTER,
    STRIP,
    Sketch,
    fact,
    panel,
    switch,
)
from firstfix.build import ids
from firstfix.build.logical import AddressClaim, NameService, PortSetup, Vlan, WirelessNetwork
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.build.reasons import Gap
from firstfix.parts.facts import NOT_SAID

_GATEWAY = replace(GATEWAY, vlan_aware=True)
_SWITCH = replace(switch(16), vlan_aware=True, spanning_tree=True)
_SMALL_SWITCH = replace(
    switch(8, poe=False, name="switch-8", title="Switch, 8 jacks"), vlan_aware=True, spanning_tree=True
)
_PLAIN_SWITCH = replace(
    switch(5, poe=False, name="switch-5", title="Plain switch, 5 jacks"), vlan_aware=False
)
_DOUBTFUL_SWITCH = replace(_PLAIN_SWITCH, vlan_aware=NOT_SAID, spanning_tree=NOT_SAID)
_AP = replace(ACCESS_POINT, bridges=False)

VLANS = (
    ("mgmt", 99, ("internet", "names")),
    ("staff", 10, ("internet", "names", "services")),
    ("guests", 30, ("internet", "names")),
    ("cameras", 40, ()),
    ("services", 53, ("internet",)),
)


def mill() -> Build:
    """A gateway, four switches of three sorts, an access point, cameras (one fed by an injector), two name
    servers.
    """
    sketch = _hardware()
    _cabling(sketch)
    build = sketch.build()
    jacks = {
        key: jack._replace(side="outside") if jack.name == "wan" else jack
        for key, jack in build.jacks.items()
    }
    return replace(
        _one_aggregate(build),
        jacks=jacks,
        power_runs=_power_runs(build),
        vlans={ids.vlan(name): _vlan(name, vid, reaches) for name, vid, reaches in sorted(VLANS)},
        port_setups=dict(sorted(_setups().items())),
        addresses=_addresses(),
        name_service=NameService("mill.home.arpa", (ids.device("names-1"), ids.device("names-2"))),
        wireless=(
            WirelessNetwork("guests", "Millrace visitors", ids.vlan("guests")),
            WirelessNetwork("staff", "Millrace", ids.vlan("staff")),
            WirelessNetwork("yard", "Millrace yard", ids.vlan("cameras")),
        ),
        gaps=(Gap("power", ids.device("desk-switch"), "nothing feeds it", None),),
    )


def _hardware() -> Sketch:
    sketch = Sketch("Old mill")
    office, hall = (sketch.room("mill", "mill", name) for name in ("office", "hall"))
    yard = sketch.room("mill", "mill", "yard", outdoors=True)
    main = sketch.cabinet("main", office, 12)
    for name, part in (("gateway", _GATEWAY), ("panel", panel(24)), ("core", _SWITCH), ("strip", STRIP)):
        sketch.device(name, part, office, main)
    for name, part in (("names-1", SMALL_COMPUTER), ("names-2", SMALL_COMPUTER), ("injector", INJECTOR)):
        sketch.device(name, part, office)
    for name, part in (
        ("hall-switch", _SMALL_SWITCH),
        ("desk-switch", _PLAIN_SWITCH),
        ("attic-switch", _DOUBTFUL_SWITCH),
    ):
        sketch.device(name, part, hall)
    for name, part in (
        ("ap-hall", _AP),
        ("outlet-hall", OUTLET),
        ("desk", SMALL_COMPUTER),
        ("till", SMALL_COMPUTER),
    ):
        sketch.device(name, part, hall)
    sketch.device("cam-gate", CAMERA, yard)
    sketch.device("cam-race", CAMERA, yard)
    sketch.mount(main, "device:gateway", 11)
    sketch.mount(main, "device:panel", 9)
    sketch.mount(main, "device:core", 8)
    sketch.feeds += [
        MainsFeed("device:gateway", "device:strip", 1),
        MainsFeed("device:core", "device:strip", 2),
    ]
    sketch.feeds += [MainsFeed("device:hall-switch", "room:mill/hall", 1)]
    return sketch


def _cabling(sketch: Sketch) -> None:
    sketch.wire("gateway/1", "core/14", lengths=(0.5,))
    sketch.wire("names-1", "core/11", lengths=(0.5,))
    sketch.wire("names-2", "core/12", lengths=(0.5,))
    sketch.wire("ap-hall", "outlet-hall/1", "panel/1", "core/1", lengths=(1, 24, 0.5), watts=12.5)
    sketch.wire("cam-gate", "panel/2", "core/2", lengths=(31, 0.5), watts=6.1)
    sketch.wire("cam-race", "injector", "panel/3", "core/3", lengths=(31, 0.5, 0.5))
    sketch.wire("core/15", "panel/23", "hall-switch/7", lengths=(0.5, 28))
    sketch.wire("core/16", "panel/24", "hall-switch/8", lengths=(0.5, 28))
    sketch.wire("hall-switch/1", "desk-switch/1", lengths=(2,))
    sketch.wire("hall-switch/2", "attic-switch/1", lengths=(2,))
    sketch.wire("hall-switch/3", "till", lengths=(2,))
    sketch.wire("desk-switch/2", "desk", lengths=(2,))


def _one_aggregate(build: Build) -> Build:
    """The two cables to the hall are lanes of one link."""
    first, second = "link:core/15--hall-switch/7", "link:core/16--hall-switch/8"
    channels = {
        key: each._replace(link=first) if each.link == second else each
        for key, each in build.channels.items()
    }
    links = {
        key: each._replace(lanes=2) if key == first else each
        for key, each in build.links.items()
        if key != second
    }
    return replace(build, channels=channels, links=links)


def _power_runs(build: Build) -> Mapping[str, PowerRun]:
    """Class 3 for all (IEEE 802.3: 15.4 W at the source, 12.95 W at the device); the injector's begins at the
    injector.
    """
    runs = {
        key: run._replace(granted=fact(12.95), reserved=fact(15.4)) for key, run in build.power_runs.items()
    }
    channel = build.channels["channel:cam-race--core/3"]
    first = next(iter(runs.values()))
    runs["power:cam-race--core/3"] = first._replace(
        id="power:cam-race--core/3", source=ids.jack("injector", "out"), sink=ids.jack("cam-race", "1"),
        channel=channel.id, pieces=channel.pieces[:1], drawn=fact(6.1),
    )  # fmt: skip
    return dict(sorted(runs.items()))


def _vlan(name: str, vid: int, reaches: tuple[str, ...]) -> Vlan:
    subnet = f"10.40.{vid}"
    leases = (f"{subnet}.100", f"{subnet}.199") if name in ("staff", "guests") else ("", "")
    return Vlan(ids.vlan(name), name, vid, f"{subnet}.0/24", f"{subnet}.1", leases, reaches)


def _setups() -> Mapping[str, PortSetup]:
    everything = ("staff", "guests", "cameras", "services")
    plan = {
        "gateway/1": ("mgmt", everything), "core/14": ("mgmt", everything),
        "core/15": ("mgmt", ("staff",)), "core/16": ("mgmt", ("staff",)),
        "hall-switch/7": ("mgmt", ("staff",)), "hall-switch/8": ("mgmt", ("staff",)),
        "core/1": ("mgmt", ("staff", "guests")), "ap-hall/1": ("mgmt", ("staff", "guests")),
        "core/2": ("cameras", ()), "cam-gate/1": ("cameras", ()),
        "core/3": ("cameras", ()), "cam-race/1": ("cameras", ()),
        "core/11": ("services", ()), "names-1/1": ("services", ()),
        "core/12": ("services", ()), "names-2/1": ("services", ()),
        "hall-switch/1": ("staff", ()), "hall-switch/2": ("staff", ()), "hall-switch/3": ("staff", ()),
        "till/1": ("staff", ()), "desk/1": ("staff", ()),
    }  # fmt: skip
    return {
        ids.jack(*at.split("/")): PortSetup(
            ids.jack(*at.split("/")), ids.vlan(own), tuple(map(ids.vlan, tagged)), "by hand"
        )
        for at, (own, tagged) in plan.items()
    }


def _addresses() -> tuple[AddressClaim, ...]:
    claims = [
        AddressClaim(ids.device("gateway"), ids.vlan(name), f"10.40.{vid}.1", 24) for name, vid, _ in VLANS
    ]
    hosts = (
        ("core", "mgmt", "10.40.99.2"), ("hall-switch", "mgmt", "10.40.99.3"), ("ap-hall", "mgmt",
        "10.40.99.11"), ("names-1", "services", "10.40.53.53"), ("names-2", "services", "10.40.53.54"),
        ("cam-gate", "cameras", "10.40.40.21"),
    )  # fmt: skip
    claims += [AddressClaim(ids.device(name), ids.vlan(vlan), address, 24) for name, vlan, address in hosts]
    return tuple(sorted(claims))
