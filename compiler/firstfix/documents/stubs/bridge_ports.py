"""The wired jacks of a VLAN bridge as bridge ports: an aggregate is one port, and each port has a number."""

from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.logical import PortSetup
from firstfix.documents.stubs.lookup import Lookup
from firstfix.documents.stubs.manageable import is_vlan_bridge
from firstfix.documents.stubs.neighbours import is_outside, members


class BridgePort(NamedTuple):
    """`number` counts the device's jacks from 1, in their order; an aggregate has its first jack's, and its
    own interface name.
    """

    interface: str
    number: int
    jacks: tuple[str, ...]
    setup: PortSetup | None

    @property
    def is_aggregate(self) -> bool:
        return len(self.jacks) > 1


def bridge_ports(look: Lookup, device: Device) -> tuple[BridgePort, ...]:
    """By number; none for what is no VLAN bridge, and none where no VLAN goes."""
    if not is_vlan_bridge(device):
        return ()
    numbers = {jack: place for place, jack in enumerate(look.build.jacks_of[device.id], start=1)}
    found: dict[str, BridgePort] = {}
    for jack in bridged_jacks(look, device):
        own = members(look, jack)
        if own[0] not in found and _has_vlan(look.setup(own[0])):
            found[own[0]] = BridgePort(_interface(look, own), numbers[own[0]], own, look.setup(own[0]))
    return tuple(sorted(found.values(), key=lambda port: port.number))


def bridged_jacks(look: Lookup, device: Device) -> tuple[str, ...]:
    """The wired jacks that frames pass between: not the provider's line, nor one that no VLAN goes to."""
    inside = (jack for jack in look.wired_jacks(device.id) if not is_outside(look, jack))
    if not look.build.vlans or not is_vlan_bridge(device):
        return tuple(inside)
    return tuple(jack for jack in inside if _has_vlan(look.setup(jack)))


def _has_vlan(setup: PortSetup | None) -> bool:
    return setup is not None and bool(setup.untagged or setup.tagged)


def _interface(look: Lookup, jacks: tuple[str, ...]) -> str:
    """A jack's own name; an aggregate's has a dash, which no jack's has."""
    first = look.build.jacks[jacks[0]].name
    return first if len(jacks) == 1 else f"aggregate-{first}"


def numbered_otherwise(ports: tuple[BridgePort, ...]) -> tuple[BridgePort, ...]:
    """The ports whose number is not simply their name."""
    return tuple(port for port in ports if port.interface != str(port.number))
