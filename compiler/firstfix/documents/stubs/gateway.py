"""What a gateway's sheet adds: its interface in each VLAN it routes for, leases there, who may reach whom."""

from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.addresses import mask, routed_claims
from firstfix.documents.stubs.lookup import Lookup


class InterfaceRow(NamedTuple):
    vlan: str
    address: str
    mask: str
    leases: str
    at: str
    reaches: str


def line_words(look: Lookup) -> tuple[str, ...]:
    """How the router's outside is set up, a sentence each; nothing where the plan says nothing of the line."""
    line = look.build.internet
    if line is None:
        return ()
    box = look.build.devices.get(line.through)
    behind = f" behind {box.name}" if box is not None else ""
    said = [
        _OUTSIDE[line.addresses].format(
            behind=behind, address=line.address or "an address that the plan does not say"
        )
    ]
    if line.router:
        said.append(f"The provider's router is {line.router}.")
    if line.translates is True:
        said.append(
            "The provider's box translates addresses, too: what is to come in from outside is let in at both."
        )
    return tuple(said)


_OUTSIDE = {
    "dhcp": "The outside{behind} takes its address from the provider (DHCP, RFC 2131).",
    "fixed": "The outside{behind} has the fixed address {address}.",
    "pppoe": "The outside{behind} dials in (PPPoE, RFC 2516) with the provider's access data, which no plan holds.",
}


def interface_rows(look: Lookup, device: Device) -> tuple[InterfaceRow, ...]:
    return tuple(
        InterfaceRow(
            f"{vlan.vid} {vlan.name}",
            claim.address,
            mask(claim.prefix),
            f"{vlan.leases[0]} to {vlan.leases[1]}" if any(vlan.leases) else "none",
            _jacks_of_vlan(look, device, vlan.id),
            ", ".join(vlan.reaches) or "nothing outside itself",
        )
        for claim, vlan in routed_claims(look, device)
    )


def _jacks_of_vlan(look: Lookup, device: Device, vlan: str) -> str:
    places = []
    for setup in vlans.setups(look, device):
        if vlan == setup.untagged or vlan in setup.tagged:
            how = "untagged" if vlan == setup.untagged else "tagged"
            places.append(f"{look.build.jacks[setup.jack].name} ({how})")
    return ", ".join(places) or "no jack of it carries this VLAN"
