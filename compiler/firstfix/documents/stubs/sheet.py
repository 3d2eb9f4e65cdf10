"""All that one device's settings sheet says, as frozen data: made from the build here, laid out by
templates/stubs/settings.md.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.addresses import AddressRow, address_rows, lease_note, routed_claims
from firstfix.documents.stubs.bridge_ports import BridgePort, bridge_ports, bridged_jacks, numbered_otherwise
from firstfix.documents.stubs.gateway import InterfaceRow, interface_rows, line_words
from firstfix.documents.stubs.instance import placeholder_address
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.manageable import manageable
from firstfix.documents.stubs.name_servers import NameServer, name_servers, nameless, out_of_reach
from firstfix.documents.stubs.neighbours import is_bridge, leads_to_bridge, may_loop, own_words
from firstfix.documents.stubs.place import place_of
from firstfix.documents.stubs.ports import PortRow, free_jacks, port_rows, provider_jacks
from firstfix.documents.stubs.power import feeds_of
from firstfix.documents.stubs.tree import TreeAdvice
from firstfix.documents.stubs.vlans import VlanRow, vlan_rows
from firstfix.documents.stubs.wireless import NetworkRow, network_rows
from firstfix.graphs.administration import identifiers
from firstfix.parts.facts import Unknown


class TreeLines(NamedTuple):
    """`speaks` is yes, no or unknown; the jacks are named, edge ones have only end devices behind them."""

    speaks: str
    priority: int
    is_root: bool
    root: str
    second: str
    is_alone: bool
    bridge_jacks: str
    edge_jacks: str


class FileNotes(NamedTuple):
    """What to know of config.json: the bridge's placeholder address ("" without a bridge, and once the real one
    was read at unboxing), ports that have a
    number unlike their name, and what is left out of the file.
    """

    address: str
    has_bridge: bool
    port_numbers: str
    left_out: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SettingsSheet:
    """Texts are raw, as in the plan: whoever lays them out makes them harmless first (`text.printed`).

    `state` is a Manageable. `lies_in` are its untagged VLANs. `sets_vlans`: whether VLANs are to be set in
    it, not only in what it is plugged into. `servers` are the name servers that it reaches, `out_of_reach` names
    the others, `nameless` the VLANs that it lends addresses in and that reach none. `tree` is None for what does
    not bridge. `unsettled` are the build's gaps about the device and its jacks.
    """

    plan: str
    device: str
    state: str
    mac: str
    serial: str
    identity: tuple[tuple[str, str], ...]
    feeds: tuple[str, ...]
    lies_in: str
    sets_vlans: bool
    addresses: tuple[AddressRow, ...]
    lease: str
    servers: tuple[NameServer, ...]
    out_of_reach: str
    nameless: str
    domain: str
    ports: tuple[PortRow, ...]
    free: str
    provider_jacks: str
    vlans: tuple[VlanRow, ...]
    interfaces: tuple[InterfaceRow, ...]
    line: tuple[str, ...]
    is_access_point: bool
    networks: tuple[NetworkRow, ...]
    tree: TreeLines | None
    file: FileNotes
    unsettled: tuple[str, ...]


def settings_sheet(look: Lookup, device: Device, advice: TreeAdvice | None) -> SettingsSheet:
    state = manageable(look, device)
    addresses = address_rows(look, device)
    return SettingsSheet(
        plan=look.build.name,
        device=device.name,
        state=state.value,
        mac=device.mac,
        serial=device.serial,
        identity=_identity(look, device),
        feeds=feeds_of(look, device),
        lies_in=vlans.all_shown(look, vlans.untagged_of(look, device)),
        sets_vlans=is_bridge(device) or any(setup.tagged for setup in vlans.setups(look, device)),
        addresses=addresses,
        lease="" if addresses else lease_note(look, device),
        servers=name_servers(look, device),
        out_of_reach=", ".join(out_of_reach(look, device)),
        nameless=", ".join(nameless(look, [vlan for _, vlan in routed_claims(look, device)])),
        domain=look.build.name_service.domain,
        ports=port_rows(look, device),
        free=free_jacks(look, device),
        provider_jacks=provider_jacks(look, device),
        vlans=vlan_rows(look, device),
        interfaces=interface_rows(look, device),
        line=line_words(look),
        is_access_point=device.part.kind == "access-point",
        networks=network_rows(look, device),
        tree=_tree(look, device, advice),
        file=_file_notes(look, device),
        unsettled=_unsettled(look, device),
    )


def _identity(look: Lookup, device: Device) -> tuple[tuple[str, str], ...]:
    domain = look.build.name_service.domain
    lines = (
        ("Name", f"{device.name}.{domain}" if domain else device.name),
        ("Label", _label(look, device)),
        ("Part", f"{device.part.title} ({device.part.name})"),
        ("Stands", place_of(look, device)),
        ("Phase", device.phase),
        ("MAC address", device.mac),
        ("Serial number", device.serial),
        ("Note", device.note),
    )
    return tuple(line for line in lines if line[1])


def _label(look: Lookup, device: Device) -> str:
    names = identifiers(look.build)
    return names.devices[device.id] if names.says_more(device) else ""


def _tree(look: Lookup, device: Device, advice: TreeAdvice | None) -> TreeLines | None:
    jacks = bridged_jacks(look, device)
    if not may_loop(look, device) or not jacks:
        return None
    names = look.build.jacks
    onward = ", ".join(names[jack].name for jack in jacks if leads_to_bridge(look, jack))
    edge = ", ".join(
        names[jack].name for jack in jacks if look.far_jack(jack) and not leads_to_bridge(look, jack)
    )
    if advice is None:
        speaks = "unknown" if isinstance(device.part.spanning_tree, Unknown) else "no"
        return TreeLines(speaks, 0, False, "", "", False, onward, edge)
    is_root = advice.root == device.name
    return TreeLines(
        "yes", advice.priority, is_root, advice.root, advice.second, advice.bridges == 1, onward, edge
    )  # fmt: skip


def _file_notes(look: Lookup, device: Device) -> FileNotes:
    ports = bridge_ports(look, device)
    odd = ", ".join(f"{port.interface} is {port.number}" for port in numbered_otherwise(ports))
    return FileNotes(
        "" if device.mac or not ports else placeholder_address(device),
        bool(ports),
        odd,
        tuple(_left_out(look, device, ports)),
    )


def _left_out(look: Lookup, device: Device, ports: tuple[BridgePort, ...]) -> Iterator[str]:
    """What the sheet says and config.json does not (see `instance`)."""
    if any(row.gateway for row in address_rows(look, device)):
        yield "default gateway"
    if interface_rows(look, device):
        yield from ("leases", "who may reach whom")
    if network_rows(look, device):
        yield "wireless networks"
    if any(jack in look.powering for jack in look.build.jacks_of.get(device.id, ())):
        yield "PoE"
    if device.part.spanning_tree is True:
        yield "spanning tree"
    if any(port.is_aggregate for port in ports):
        yield "which jacks make an aggregate"


def _unsettled(look: Lookup, device: Device) -> tuple[str, ...]:
    subjects = (device.id, *look.build.jacks_of.get(device.id, ()))
    return tuple(
        f"{own_words(gap.subject)}: {gap.why}" for each in subjects for gap in look.gaps.get(each, ())
    )
