"""A device's settings as RFC 7951 instance data, in the vocabulary of published YANG modules only.

ietf-interfaces (RFC 8343), ietf-ip (RFC 8344), iana-if-type (RFC 7224), ietf-system (RFC 7317),
ieee802-dot1q-bridge (IEEE Std 802.1Q). Not in it, for want of a settled module that says it: leases, who may
reach whom, wireless networks, members of an aggregate, the default gateway; PoE and spanning tree have
modules (IEEE Std 802.3.2, 802.1Q) too new to count on. The sheet has them all.
"""

import hashlib
from typing import Any

from firstfix.build.hardware import Device
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.bridge_ports import BridgePort, bridge_ports
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.manageable import is_vlan_bridge
from firstfix.documents.stubs.name_servers import name_servers
from firstfix.documents.stubs.neighbours import connected_to, is_bridge
from firstfix.documents.stubs.ports import cable_label
from firstfix.documents.stubs.text import SAFE_NAME, visible

BRIDGE = "bridge"
COMPONENT = "vlans"
# ieee802-dot1q-types, name-type: at most 32 characters.
_LONGEST_NAME = 32
Data = dict[str, Any]


def instance_data(look: Lookup, device: Device) -> Data:
    """The whole of config.json: interfaces in the order of the jacks, VLANs and ports by number."""
    ports = bridge_ports(look, device)
    data: Data = {"ietf-interfaces:interfaces": {"interface": _interfaces(look, device, ports)}}
    if ports:
        data["ieee802-dot1q-bridge:bridges"] = {"bridge": [_bridge(look, device, ports)]}
    system = _system(look, device)
    if system:
        data["ietf-system:system"] = system
    return data


def placeholder_address(device: Device) -> str:
    """A MAC address for documentation, 00-00-5E-00-53-00 to -FF (RFC 7042, 2.1.2): the model wants one before
    unboxing shows it.

    Two devices may hold the same one. It follows from the name alone, so that a further device changes no
    other's file.
    """
    return f"00-00-5E-00-53-{hashlib.sha256(device.id.encode('utf-8', 'backslashreplace')).digest()[0]:02X}"


def bridge_address(device: Device) -> str:
    """The address on its label, once it was read at unboxing; a placeholder until then."""
    return device.mac.upper().replace(":", "-") or placeholder_address(device)


# Interfaces


def _interfaces(look: Lookup, device: Device, ports: tuple[BridgePort, ...]) -> list[Data]:
    bridged = {jack: port for port in ports for jack in port.jacks}
    found: list[Data] = []
    for jack in look.wired_jacks(device.id):
        leads_to = "; cable ".join(filter(None, (connected_to(look, jack), cable_label(look, jack))))
        interface = _interface(look.build.jacks[jack].name, "ethernetCsmacd", leads_to)
        port = bridged.get(jack)
        if port is not None and port.is_aggregate:
            interface["description"] = visible(f"{leads_to}; member of {port.interface}")
        elif port is not None:
            interface["ieee802-dot1q-bridge:bridge-port"] = _bridge_port(look, port)
        found.append(interface)
    found.extend(_aggregate(look, port) for port in ports if port.is_aggregate)
    return _with_addresses(look, device, found)


def _interface(name: str, kind: str, description: str) -> Data:
    return {
        "name": name,
        "description": visible(description),
        "type": f"iana-if-type:{kind}",
        "enabled": True,
    }


def _aggregate(look: Lookup, port: BridgePort) -> Data:
    names = ", ".join(look.build.jacks[jack].name for jack in port.jacks)
    interface = _interface(port.interface, "ieee8023adLag", f"aggregate of jacks {names}")
    interface["ieee802-dot1q-bridge:bridge-port"] = _bridge_port(look, port)
    return interface


def _bridge_port(look: Lookup, port: BridgePort) -> Data:
    """What comes in with a tag that is not expected is dropped (IEEE Std 802.1Q, 6.9 acceptable frames, 8.6.2
    ingress filtering).
    """
    untagged, tagged = _membership(look, port)
    found: Data = {
        "bridge-name": BRIDGE,
        "component-name": COMPONENT,
        "port-type": "ieee802-dot1q-bridge:c-vlan-bridge-port",
    }
    if untagged is not None:
        found["pvid"] = untagged.vid
    if untagged is not None or tagged:
        found["acceptable-frame"] = _acceptable(untagged is not None, bool(tagged))
    found["enable-ingress-filtering"] = True
    return found


def _acceptable(has_untagged: bool, has_tagged: bool) -> str:
    if has_untagged and has_tagged:
        return "admit-all-frames"
    return "admit-only-VLAN-tagged-frames" if has_tagged else "admit-only-untagged-and-priority-tagged"


def _membership(look: Lookup, port: BridgePort) -> tuple[Vlan | None, tuple[Vlan, ...]]:
    if port.setup is None:
        return None, ()
    tagged = (look.vlan(each) for each in port.setup.tagged if each != port.setup.untagged)
    return look.vlan(port.setup.untagged), tuple(vlan for vlan in tagged if vlan is not None)


# Addresses


def _with_addresses(look: Lookup, device: Device, interfaces: list[Data]) -> list[Data]:
    """Each address on the jack that carries its VLAN untagged; in what bridges or routes, on an interface of
    the VLAN itself.
    """
    by_name: dict[str, Data] = {interface["name"]: interface for interface in interfaces}
    claims = ((look.vlan(claim.vlan), claim) for claim in look.claims.get(device.id, ()))
    settled = ((vlan, claim) for vlan, claim in claims if vlan is not None)
    for vlan, claim in sorted(settled, key=lambda pair: (pair[0].vid, pair[1].address)):
        family = _family(claim)
        if not family:
            continue
        bearer = _bearer(look, device, vlan)
        interface = by_name.setdefault(bearer["name"], bearer)
        addresses = interface.setdefault(f"ietf-ip:{family}", {"address": []})["address"]
        addresses.append({"ip": claim.address, "prefix-length": claim.prefix})
    return list(by_name.values())


def _bearer(look: Lookup, device: Device, vlan: Vlan) -> Data:
    """The interface that bears an address in `vlan`, as it is where no jack has that name already."""
    of_vlan = _interface(f"vlan-{vlan.vid}", "l2vlan", f"VLAN {vlan.vid} {vlan.name}")
    if is_vlan_bridge(device) or device.part.routes is True:
        return of_vlan
    if is_bridge(device):
        return _interface(BRIDGE, "bridge", "all jacks together")
    setups = vlans.setups(look, device)
    jack = next((look.build.jacks[setup.jack].name for setup in setups if setup.untagged == vlan.id), "")
    return _interface(jack, "ethernetCsmacd", "") if jack else of_vlan


def _family(claim: AddressClaim) -> str:
    """ipv4 or ipv6, or "" for a text that is no address with such a prefix (a rule reports it)."""
    import ipaddress

    try:
        version = ipaddress.ip_interface(f"{claim.address}/{claim.prefix}").version
    except ValueError:
        return ""
    return "" if "%" in claim.address else f"ipv{version}"


# The bridge


def _bridge(look: Lookup, device: Device, ports: tuple[BridgePort, ...]) -> Data:
    component: Data = {
        "name": COMPONENT,
        "id": 1,
        "type": "ieee802-dot1q-bridge:c-vlan-component",
        "filtering-database": {"vlan-registration-entry": _registrations(look, device, ports)},
        "bridge-vlan": {"vlan": [_vlan(vlan) for vlan in vlans.vlans_of(look, device)]},
    }
    return {
        "name": BRIDGE,
        "address": bridge_address(device),
        "bridge-type": "ieee802-dot1q-bridge:customer-vlan-bridge",
        "component": [component],
    }


def _vlan(vlan: Vlan) -> Data:
    return {"vid": vlan.vid, "name": visible(vlan.name)[:_LONGEST_NAME]}


def _registrations(look: Lookup, device: Device, ports: tuple[BridgePort, ...]) -> list[Data]:
    """One static entry for each VLAN: the ports in it, each tagged or untagged (IEEE Std 802.1Q, 8.8.2)."""
    found = []
    for vlan in vlans.vlans_of(look, device):
        port_map = [_port_in_vlan(port, how) for port in ports if (how := _how(look, port, vlan))]
        if port_map:
            found.append(
                {"database-id": 1, "vids": str(vlan.vid), "entry-type": "static", "port-map": port_map}
            )
    return found


def _how(look: Lookup, port: BridgePort, vlan: Vlan) -> str:
    untagged, tagged = _membership(look, port)
    return "untagged" if vlan == untagged else "tagged" if vlan in tagged else ""


def _port_in_vlan(port: BridgePort, how: str) -> Data:
    entry = {"registrar-admin-control": "fixed-new-ignored", "vlan-transmitted": how}
    return {"port-ref": port.number, "static-vlan-registration-entries": entry}


# The system


def _system(look: Lookup, device: Device) -> Data:
    """Host name; name servers only where the device has an address of its own: a lease brings them along."""
    system: Data = {"hostname": device.name} if SAFE_NAME.fullmatch(device.name) else {}
    if not look.claims.get(device.id):
        return system
    servers = [
        {"name": visible(server.name), "udp-and-tcp": {"address": server.address}}
        for server in name_servers(look, device)
        if server.address
    ]
    resolver: Data = {"server": servers} if servers else {}
    if _is_domain(look.build.name_service.domain):
        resolver["search"] = [look.build.name_service.domain]
    return {**system, "dns-resolver": resolver} if resolver else system


def _is_domain(text: str) -> bool:
    labels = text.split(".")
    return len(text) <= 253 and all(SAFE_NAME.fullmatch(each) and each.strip("-") == each for each in labels)
