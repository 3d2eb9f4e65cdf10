"""A device's addresses, and where they come from."""

from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.neighbours import is_outside

_NO_ADDRESS = "No address of its own in the plan"


class AddressRow(NamedTuple):
    vlan: str
    address: str
    mask: str
    gateway: str


def address_rows(look: Lookup, device: Device) -> tuple[AddressRow, ...]:
    """One row for each address that the device is not itself a VLAN's gateway by.

    Only the first has the default gateway, for a device has one.
    """
    routed = {claim for claim, _ in routed_claims(look, device)}
    rows: list[AddressRow] = []
    for claim in claims_of(look, device):
        if claim not in routed:
            vlan = look.build.vlans.get(claim.vlan)
            gateway = "" if rows or vlan is None else vlan.gateway
            rows.append(AddressRow(vlans.shown(look, claim.vlan), claim.address, mask(claim.prefix), gateway))
    return tuple(rows)


def claims_of(look: Lookup, device: Device) -> tuple[AddressClaim, ...]:
    """The one in an untagged VLAN first: by it the device is managed."""
    untagged = {setup.untagged for setup in vlans.setups(look, device)}
    return tuple(
        sorted(look.claims.get(device.id, ()), key=lambda claim: (claim.vlan not in untagged, claim.vlan))
    )


def routed_claims(look: Lookup, device: Device) -> tuple[tuple[AddressClaim, Vlan], ...]:
    """The addresses under which the device is a VLAN's gateway, by the VLAN's number."""
    pairs = ((claim, look.build.vlans.get(claim.vlan)) for claim in look.claims.get(device.id, ()))
    routed = [(claim, vlan) for claim, vlan in pairs if vlan is not None and claim.address == vlan.gateway]
    return tuple(sorted(routed, key=lambda pair: (pair[1].vid, pair[1].name)))


def mask(prefix: int) -> str:
    """The dotted mask of an IPv4 prefix length, with the length; beyond 32 (IPv6) the length alone.

    >>> mask(24), mask(64)
    ('255.255.255.0 (/24)', '/64')
    """
    if not 0 <= prefix <= 32:
        return f"/{prefix}"
    bits = (0xFFFFFFFF << (32 - prefix)) & 0xFFFFFFFF
    return ".".join(str(bits >> shift & 0xFF) for shift in (24, 16, 8, 0)) + f" (/{prefix})"


def lease_note(look: Lookup, device: Device) -> str:
    """Where the address of a device without one of its own comes from."""
    far = [look.far_jack(jack) for jack in look.wired_jacks(device.id)]
    if far and all(each and is_outside(look, each) for each in far):
        return "On the provider's side of the gateway: its address is not this plan's."
    vlan = _own_vlan(look, device)
    if vlan is None:
        return f"{_NO_ADDRESS}, and no VLAN at its jacks to get one in: it cannot be told."
    if not any(vlan.leases):
        return f"{_NO_ADDRESS}, and VLAN {vlan.vid} {vlan.name} leases none: it needs one by hand."
    return f"By lease (DHCP), from {vlan.leases[0]} to {vlan.leases[1]} in VLAN {vlan.vid} {vlan.name}."


def _own_vlan(look: Lookup, device: Device) -> Vlan | None:
    """The untagged VLAN at its jacks; where there is none, the tagged one, if it is the only one."""
    tagged = {vlan for setup in vlans.setups(look, device) for vlan in setup.tagged}
    named = vlans.untagged_of(look, device) or (tuple(tagged) if len(tagged) == 1 else ())
    return next((found for each in named if (found := look.build.vlans.get(each)) is not None), None)
