"""What each address of a subnet is for, from its first to its last: taken, lent, kept by the protocol, free.

Takes a build and a VLAN; gives spans in order of addresses, without a hole and without an overlap of free ones.
"""

from ipaddress import IPv4Network, IPv6Network, ip_address, ip_network
from typing import NamedTuple

from firstfix.build.logical import Vlan
from firstfix.build.model import Build

TAKEN = "taken"
LENT = "lent"
FREE = "free"
RESERVED = "reserved"


class AddressSpan(NamedTuple):
    """`first` to `last` address, `count` of them. `devices` hold a single taken one: more than one where they clash."""

    first: str
    last: str
    count: int  # type: ignore[assignment]  # the word people count with; tuple.count is not used on spans
    what: str
    devices: tuple[str, ...] = ()


class _Mark(NamedTuple):
    low: int
    high: int
    what: str
    devices: tuple[str, ...] = ()


def address_spans(build: Build, vlan: Vlan) -> tuple[AddressSpan, ...]:
    """Nothing for a VLAN without a subnet, or with one that can't be read. A taken address within those
    lent stands on its own, and splits them; one outside the subnet is in no span."""
    network = _network(vlan.subnet)
    if network is None:
        return ()
    low, high = int(network[0]), int(network[-1])
    marks = _single(build, vlan, network)
    first, last = (_value(each) for each in vlan.leases)
    lent = (1, 0) if first is None or last is None else (first, last)
    found: list[AddressSpan] = []
    here = low
    for mark in (*marks, _Mark(high + 1, high + 1, "")):
        found += _between(network, here, mark.low - 1, lent)
        if mark.what:
            found.append(_span(network, mark))
        here = max(here, mark.high + 1)
    return tuple(found)


def _network(text: str) -> IPv4Network | IPv6Network | None:
    try:
        return ip_network(text)
    except ValueError:
        return None


def _value(text: str) -> int | None:
    try:
        return int(ip_address(text))
    except ValueError:
        return None


def _single(build: Build, vlan: Vlan, network: IPv4Network | IPv6Network) -> list[_Mark]:
    """Addresses that are for one thing, in order."""
    holders: dict[int, list[str]] = {}
    for claim in build.addresses:
        value = _value(claim.address)
        if claim.vlan == vlan.id and value is not None and int(network[0]) <= value <= int(network[-1]):
            holders.setdefault(value, []).append(claim.device)
    marks = {value: _Mark(value, value, TAKEN, tuple(devices)) for value, devices in holders.items()}
    gateway = _value(vlan.gateway)
    if gateway is not None and int(network[0]) <= gateway <= int(network[-1]):
        marks.setdefault(gateway, _Mark(gateway, gateway, TAKEN))
    if network.version == 4 and network.prefixlen < 31:
        # The network itself and its broadcast address are nobody's (RFC 919, RFC 922; two hosts need neither, RFC 3021).
        for end in (int(network[0]), int(network[-1])):
            marks.setdefault(end, _Mark(end, end, RESERVED))
    return sorted(marks.values())


def _between(
    network: IPv4Network | IPv6Network, low: int, high: int, lent: tuple[int, ...]
) -> list[AddressSpan]:
    """What lies between two single addresses: free up to the lent ones, those, and free again."""
    cuts = ((low, min(high, lent[0] - 1), FREE), (max(low, lent[0]), min(high, lent[1]), LENT))
    after = (max(low, lent[1] + 1), high, FREE)
    if lent[0] > lent[1]:
        cuts, after = ((low, high, FREE), (1, 0, LENT)), (1, 0, FREE)
    return [_span(network, _Mark(first, last, what)) for first, last, what in (*cuts, after) if first <= last]


def _span(network: IPv4Network | IPv6Network, mark: _Mark) -> AddressSpan:
    def shown(value: int) -> str:
        return str(network[value - int(network[0])])

    return AddressSpan(shown(mark.low), shown(mark.high), mark.high - mark.low + 1, mark.what, mark.devices)
