"""What is set up in the devices: VLANs, port setups, subnets, addresses, name service, who may reach whom."""

from typing import NamedTuple


class Vlan(NamedTuple):
    """`vid` 1 to 4094 (IEEE 802.1Q)."""

    id: str
    name: str
    vid: int
    subnet: str
    gateway: str
    leases: tuple[str, str]
    reaches: tuple[str, ...]


class PortSetup(NamedTuple):
    """Settings of one jack: the untagged VLAN's id or "", and the tagged ones' ids, in order of their numbers."""

    jack: str
    untagged: str
    tagged: tuple[str, ...]
    basis: str


class AddressClaim(NamedTuple):
    """`address` in text, `prefix` its length. One device may claim one address in each VLAN it is in."""

    device: str
    vlan: str
    address: str
    prefix: int


class NameService(NamedTuple):
    """`servers` are device ids in the order in which clients ask them."""

    domain: str
    servers: tuple[str, ...]


class WirelessNetwork(NamedTuple):
    name: str
    ssid: str
    vlan: str
