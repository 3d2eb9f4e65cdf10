"""What each address of a subnet is for: spans cover the subnet, and agree with ipaddress counted one by one."""

from dataclasses import replace
from ipaddress import ip_address, ip_network

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.drawing.sketch import Sketch
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.build.model import Build
from firstfix.graphs.address_spans import FREE, LENT, RESERVED, TAKEN, AddressSpan, address_spans


def build_with(vlan: Vlan, *claims: tuple[str, str]) -> Build:
    network = ip_network(vlan.subnet)
    held = tuple(AddressClaim(f"device:{name}", vlan.id, text, network.prefixlen) for name, text in claims)
    return replace(Sketch().build(), vlans={vlan.id: vlan}, addresses=held)


def vlan(subnet: str, gateway: str = "", leases: tuple[str, str] = ("", "")) -> Vlan:
    return Vlan("vlan:home", "home", 10, subnet, gateway, leases, ())


def test_a_home_network_from_end_to_end() -> None:
    home = vlan("10.9.1.0/24", "10.9.1.1", ("10.9.1.100", "10.9.1.199"))
    build = build_with(home, ("gateway", "10.9.1.1"), ("store", "10.9.1.20"))
    assert address_spans(build, home) == (
        AddressSpan("10.9.1.0", "10.9.1.0", 1, RESERVED),
        AddressSpan("10.9.1.1", "10.9.1.1", 1, TAKEN, ("device:gateway",)),
        AddressSpan("10.9.1.2", "10.9.1.19", 18, FREE),
        AddressSpan("10.9.1.20", "10.9.1.20", 1, TAKEN, ("device:store",)),
        AddressSpan("10.9.1.21", "10.9.1.99", 79, FREE),
        AddressSpan("10.9.1.100", "10.9.1.199", 100, LENT),
        AddressSpan("10.9.1.200", "10.9.1.254", 55, FREE),
        AddressSpan("10.9.1.255", "10.9.1.255", 1, RESERVED),
    )


def test_two_devices_at_one_address_share_its_span() -> None:
    home = vlan("10.9.1.0/29")
    spans = address_spans(build_with(home, ("one", "10.9.1.2"), ("two", "10.9.1.2")), home)
    (taken,) = (span for span in spans if span.what == TAKEN)
    assert taken.devices == ("device:one", "device:two")


def test_a_gateway_without_a_device_takes_its_address() -> None:
    home = vlan("10.9.1.0/29", "10.9.1.1")
    assert AddressSpan("10.9.1.1", "10.9.1.1", 1, TAKEN) in address_spans(build_with(home), home)


@pytest.mark.parametrize("subnet", ["10.9.1.4/31", "10.9.1.4/32", "fd00:9::/64"])
def test_what_has_no_broadcast_address_reserves_none(subnet: str) -> None:
    spans = address_spans(build_with(vlan(subnet)), vlan(subnet))
    assert [span.what for span in spans] == [FREE]
    assert spans[0].count == ip_network(subnet).num_addresses


def test_what_is_outside_the_subnet_or_no_address_is_in_no_span() -> None:
    home = vlan("10.9.1.0/30", "10.9.2.1")
    spans = address_spans(build_with(home, ("far", "10.9.9.9"), ("odd", "<script>")), home)
    assert [span.what for span in spans] == [RESERVED, FREE, RESERVED]
    assert address_spans(Sketch().build(), vlan("<script>")) == ()


def test_no_subnet_no_spans() -> None:
    assert address_spans(Sketch().build(), vlan("")) == ()


@settings(derandomize=True, deadline=None)
@given(
    st.integers(24, 30),
    st.sets(st.integers(1, 254), max_size=6),
    st.tuples(st.integers(1, 254), st.integers(1, 254)),
)
def test_every_address_is_in_one_span_and_for_one_thing(
    prefix: int, hosts: set[int], pair: tuple[int, int]
) -> None:
    network = ip_network(f"10.9.1.0/{prefix}")
    last = network.num_addresses - 2
    low, high = sorted(min(each, last) for each in pair)
    held = {host for host in hosts if host <= last}
    home = vlan(str(network), leases=(str(network[low]), str(network[high])))
    build = build_with(home, *((f"d{host}", str(network[host])) for host in sorted(held)))
    said = [
        (int(ip_address(span.first)) + step - int(network[0]), span.what)
        for span in address_spans(build, home)
        for step in range(span.count)
    ]
    expected = [
        (
            host,
            TAKEN if host in held else RESERVED if host in (0, last + 1) else LENT if low <= host <= high else FREE,
        )
        for host in range(network.num_addresses)
    ]  # fmt: skip
    assert said == expected
