"""What is set up in the devices: VLANs, port setups, subnets, addresses, name service, who may reach whom."""

from typing import NamedTuple

from firstfix.parts.facts import Unknown


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


class InternetLine(NamedTuple):
    """The provider's line. `through` is the id of the device it comes in through, or "" where that is not known.

    `addresses`: how the outside of the router behind it gets its address: dhcp (RFC 2131), fixed, or pppoe (RFC 2516).
    `address` with its prefix, for a fixed one; `router`: the provider's. `translates`: whether the provider's box does.
    """

    through: str
    addresses: str
    address: str
    router: str
    translates: bool | Unknown


class WirelessNetwork(NamedTuple):
    name: str
    ssid: str
    vlan: str
