"""The wireless networks that an access point offers. A passphrase is never in a plan, so never here."""

from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.documents.stubs import vlans
from firstfix.documents.stubs.lookup import Lookup


class NetworkRow(NamedTuple):
    name: str
    ssid: str
    vlan: str
    at_port: str


def network_rows(look: Lookup, device: Device) -> tuple[NetworkRow, ...]:
    """For an access point all networks, each with how its VLAN comes to its port; for others none."""
    if device.part.kind != "access-point":
        return ()
    own = vlans.setups(look, device)
    untagged = {setup.untagged for setup in own}
    tagged = {vlan for setup in own for vlan in setup.tagged}
    rows = []
    for network in sorted(look.build.wireless):
        how = "tagged" if network.vlan in tagged else "untagged" if network.vlan in untagged else ""
        shown = vlans.shown(look, network.vlan)
        rows.append(
            NetworkRow(
                network.name, network.ssid, shown, how or "not at its port: leave this network off here"
            )
        )
    return tuple(rows)
