"""VLANs as a sheet shows them, and which of them a device has to do with."""

from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.logical import PortSetup, Vlan
from firstfix.documents.stubs.lookup import Lookup


class VlanRow(NamedTuple):
    number: str
    name: str
    subnet: str
    untagged_at: str
    tagged_at: str


def shown(look: Lookup, id_: str) -> str:
    """`30 guests`; a VLAN whose number can't be set up, or that is missing, says so."""
    vlan = look.vlan(id_)
    if vlan is not None:
        return f"{vlan.vid} {vlan.name}"
    known = look.build.vlans.get(id_)
    return f"{ids.path(id_)} (number {known.vid} can't be used)" if known else f"{ids.path(id_)} (no number)"


def all_shown(look: Lookup, vlans: tuple[str, ...]) -> str:
    return ", ".join(shown(look, each) for each in vlans)


def setups(look: Lookup, device: Device) -> tuple[PortSetup, ...]:
    """The setups of the device's wired jacks, in the jacks' order."""
    found = (look.setup(jack) for jack in look.wired_jacks(device.id))
    return tuple(setup for setup in found if setup is not None)


def untagged_of(look: Lookup, device: Device) -> tuple[str, ...]:
    """The untagged VLANs at its jacks; with no setup of its own, those at the jacks it is plugged into."""
    far = (look.setup(look.far_jack(jack)) for jack in look.wired_jacks(device.id))
    own = [setup.untagged for setup in setups(look, device) if setup.untagged]
    found = own or [setup.untagged for setup in far if setup is not None and setup.untagged]
    return tuple(dict.fromkeys(found))


def vlans_of(look: Lookup, device: Device) -> tuple[Vlan, ...]:
    """Every VLAN that a port carries or that the device has an address in, by number."""
    named = {each for setup in setups(look, device) for each in (setup.untagged, *setup.tagged)}
    named.update(claim.vlan for claim in look.claims.get(device.id, ()))
    found = (look.vlan(each) for each in named)
    return tuple(sorted((vlan for vlan in found if vlan is not None), key=lambda vlan: (vlan.vid, vlan.name)))


def vlan_rows(look: Lookup, device: Device) -> tuple[VlanRow, ...]:
    jacks = look.build.jacks
    own = setups(look, device)
    return tuple(
        VlanRow(
            str(vlan.vid),
            vlan.name,
            vlan.subnet,
            ", ".join(jacks[setup.jack].name for setup in own if setup.untagged == vlan.id),
            ", ".join(jacks[setup.jack].name for setup in own if vlan.id in setup.tagged),
        )
        for vlan in vlans_of(look, device)
    )
