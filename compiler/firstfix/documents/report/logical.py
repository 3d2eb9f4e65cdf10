"""What is set up, in tables: VLANs, addresses, name service, wireless networks, and each device's settings in short."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.documents.report.made import Made
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.addresses import lease_note
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.manageable import Manageable, has_ports, manageable
from firstfix.documents.stubs.place import place_of
from firstfix.documents.stubs.power import feeds_of
from firstfix.documents.stubs.text import folder_name

_NONE = "–"


class VlanRow(NamedTuple):
    number: str
    name: str
    subnet: str
    gateway: str
    leases: str
    reaches: str


class AddressRow(NamedTuple):
    device: str
    vlan: str
    address: str


class ServerRow(NamedTuple):
    name: str
    addresses: str


class WirelessRow(NamedTuple):
    name: str
    ssid: str
    vlan: str


class DeviceRow(NamedTuple):
    """`folder` is the path of its stub files below the page's own folder, or "" without any; `has_file` of config.json."""

    name: str
    part: str
    place: str
    fed: str
    address: str
    folder: str
    has_file: bool


class Logical(NamedTuple):
    vlans: tuple[VlanRow, ...]
    addresses: tuple[AddressRow, ...]
    domain: str
    servers: tuple[ServerRow, ...]
    wireless: tuple[WirelessRow, ...]
    devices: tuple[DeviceRow, ...]


def logical(made: Made) -> Logical:
    build, look = made.build, made.look
    return Logical(
        _vlans(build),
        _addresses(look),
        build.name_service.domain,
        tuple(_server(look, each) for each in build.name_service.servers),
        tuple(WirelessRow(each.name, each.ssid, vlans.shown(look, each.vlan)) for each in build.wireless),
        tuple(
            _device(look, each)
            for each in sorted(build.devices.values(), key=lambda device: natural(device.name))
        ),
    )


def _vlans(build: Build) -> tuple[VlanRow, ...]:
    return tuple(
        VlanRow(
            str(vlan.vid),
            vlan.name,
            vlan.subnet or _NONE,
            vlan.gateway or _NONE,
            f"{vlan.leases[0]} to {vlan.leases[1]}" if any(vlan.leases) else _NONE,
            ", ".join(vlan.reaches) or "nothing else",
        )
        for vlan in sorted(build.vlans.values(), key=lambda vlan: (vlan.vid, vlan.name))
    )


def _addresses(look: Lookup) -> tuple[AddressRow, ...]:
    claims = sorted(
        look.build.addresses, key=lambda claim: (vlans.shown(look, claim.vlan), natural(claim.address))
    )
    return tuple(
        AddressRow(ids.path(claim.device), vlans.shown(look, claim.vlan), f"{claim.address}/{claim.prefix}")
        for claim in claims
    )


def _server(look: Lookup, device: str) -> ServerRow:
    addresses = ", ".join(claim.address for claim in look.claims.get(device, ()))
    return ServerRow(ids.path(device), addresses or "no address known")


def _device(look: Lookup, device: Device) -> DeviceRow:
    with_ports = has_ports(device)
    claims = look.claims.get(device.id, ())
    return DeviceRow(
        device.name,
        device.part.title,
        place_of(look, device),
        "; ".join(feeds_of(look, device)) if with_ports or look.feeds.get(device.id) else _NONE,
        ", ".join(claim.address for claim in claims) or (lease_note(look, device) if with_ports else _NONE),
        f"stubs/{folder_name(device.name)}" if with_ports else "",
        with_ports and manageable(look, device) != Manageable.NO,
    )
