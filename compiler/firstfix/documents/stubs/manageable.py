"""Whether there is anything to set in a device, and whether it is set as a bridge that knows VLANs."""

from enum import StrEnum

from firstfix.build.hardware import Device
from firstfix.documents.stubs.lookup import Lookup
from firstfix.parts.facts import Unknown
from firstfix.parts.part import ACTIVE_KINDS


class Manageable(StrEnum):
    """yes · no: it only passes frames on · unsure: its part does not say"""

    YES = "yes"
    NO = "no"
    UNSURE = "unsure"


def has_ports(device: Device) -> bool:
    return device.part.kind in ACTIVE_KINDS and bool(device.part.jacks)


def manageable(look: Lookup, device: Device) -> Manageable:
    """Gateways and end devices have settings; a bridge has them if it knows VLANs or has an address."""
    part = device.part
    if part.bridges is False or part.routes is True or part.vlan_aware is True or look.claims.get(device.id):
        return Manageable.YES
    return Manageable.UNSURE if isinstance(part.vlan_aware, Unknown) else Manageable.NO


def is_vlan_bridge(device: Device) -> bool:
    """Whether its ports are those of a VLAN bridge (IEEE Std 802.1Q), as its part says for certain."""
    return device.part.bridges is True and device.part.vlan_aware is True
