"""The name servers that a device asks: those of the plan that it reaches from its own VLANs."""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.logical import Vlan
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.addresses import routed_claims
from firstfix.documents.stubs.lookup import Lookup


class NameServer(NamedTuple):
    name: str
    address: str
    is_self: bool


def name_servers(look: Lookup, device: Device) -> tuple[NameServer, ...]:
    """In the order in which they are asked; of a server's addresses, one in the device's own VLANs if any."""
    own = set(_own_vlans(look, device))
    return tuple(
        NameServer(look.build.devices[each].name, _address_for(look, each, own), each == device.id)
        for each in _servers(look)
        if _is_reached(look, device, each, own)
    )


def out_of_reach(look: Lookup, device: Device) -> tuple[str, ...]:
    """Names of the plan's servers that the device does not reach."""
    own = set(_own_vlans(look, device))
    return tuple(
        look.build.devices[each].name for each in _servers(look) if not _is_reached(look, device, each, own)
    )


def nameless(look: Lookup, routed: Iterable[Vlan]) -> tuple[str, ...]:
    """Of the VLANs that a gateway lends addresses in, those from which no name server of the plan is reached."""
    servers = _servers(look)
    return tuple(
        vlans.shown(look, vlan.id)
        for vlan in routed
        if servers and any(vlan.leases) and not any(_leads_to(look, vlan.id, each) for each in servers)
    )


def _servers(look: Lookup) -> tuple[str, ...]:
    return tuple(each for each in look.build.name_service.servers if each in look.build.devices)


def _own_vlans(look: Lookup, device: Device) -> tuple[str, ...]:
    """Those it has an address in; without one, those of its jacks: what a bridge only hands on it does not ask by."""
    claims = look.claims.get(device.id, ())
    return tuple(claim.vlan for claim in claims) or vlans.untagged_of(look, device)


def _is_reached(look: Lookup, device: Device, server: str, own: set[str]) -> bool:
    """A router reaches all that it routes for; of a device in no VLAN nothing can be told, and all are shown."""
    if server == device.id or not own or routed_claims(look, device):
        return True
    return any(_leads_to(look, vlan, server) for vlan in sorted(own))


def _leads_to(look: Lookup, vlan: str, server: str) -> bool:
    homes = {claim.vlan for claim in look.claims.get(server, ())} or set(
        look.build.memberships.get(server, ())
    )
    found = look.build.vlans.get(vlan)
    reaches = found.reaches if found is not None else ()
    return vlan in homes or "names" in reaches or any(f"vlan:{each}" in homes for each in reaches)


def _address_for(look: Lookup, server: str, vlans_here: set[str]) -> str:
    claims = sorted(look.claims.get(server, ()), key=lambda claim: (claim.vlan not in vlans_here, claim.vlan))
    return claims[0].address if claims else ""
