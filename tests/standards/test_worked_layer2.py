"""Worked checks 49, 50 and 53 to 58: layer 2 and addresses."""

import ipaddress

import pytest

from firstfix.standards.addresses import lease_timers, site_subnets, usable_hosts
from firstfix.standards.layer2 import (
    NumberRange,
    layer2_limits,
    lldp_life_s,
    long_path_cost,
    number_ranges,
    path_costs,
    timers_agree,
)
from standards.worked import Calculations, Check, parametrized, verify

LAYER2: Calculations = {
    "admits": lambda name, value: number_ranges()[name].admits(value),
    "path cost": long_path_cost,
    "lldp life": lldp_life_s,
}
ADDRESSES: Calculations = {
    "usable hosts": lambda prefix: usable_hosts(prefix),
    "site subnets": site_subnets,
    "renewing": lambda lease_s: lease_timers(lease_s).renewing_s,
    "rebinding": lambda lease_s: lease_timers(lease_s).rebinding_s,
}


@parametrized("layer2")
def test_layer2(check: Check) -> None:
    verify(check, LAYER2)


@parametrized("addresses")
def test_addresses(check: Check) -> None:
    verify(check, ADDRESSES)


@pytest.mark.parametrize("prefix", range(16, 33))
def test_usable_hosts_as_the_standard_library_counts_them(prefix: int) -> None:
    assert usable_hosts(prefix) == sum(1 for _ in ipaddress.ip_network(f"10.0.0.0/{prefix}").hosts())


@pytest.mark.parametrize("prefix", [-1, 33])
def test_a_prefix_that_is_none_is_refused(prefix: int) -> None:
    with pytest.raises(ValueError, match="prefix length"):
        usable_hosts(prefix)


@pytest.mark.parametrize(("rate_mbps", "lanes"), [(0, 1), (1000, 0)])
def test_no_link_has_no_cost(rate_mbps: float, lanes: int) -> None:
    with pytest.raises(ValueError, match="no link"):
        long_path_cost(rate_mbps, lanes)


def test_each_listed_cost_follows_from_its_rate() -> None:
    for row in path_costs().values():
        assert long_path_cost(row.rate_mbps) == row.cost_long, row


def test_the_usual_timers_agree_and_lie_in_their_ranges() -> None:
    ranges = number_ranges()
    assert all(row.admits(row.usual) for row in ranges.values())
    usual = [ranges[name].usual for name in ("hello-time-s", "max-age-s", "forward-delay-s")]
    assert timers_agree(*usual)
    assert timers_agree(hello_s=9, max_age_s=20, forward_delay_s=11), "both exactly at their limits"
    assert not timers_agree(hello_s=10, max_age_s=20, forward_delay_s=15)
    assert not timers_agree(hello_s=2, max_age_s=20, forward_delay_s=10)


def test_steps_count_from_the_lowest() -> None:
    odd = NumberRange("odd", 3, 9, 4, 3, layer2_limits().lldp_hold.basis, "")
    assert [value for value in range(12) if odd.admits(value)] == [3, 7]


def test_costs_and_lives_have_ends() -> None:
    assert long_path_cost(20_000_000) == 1
    assert long_path_cost(50_000_000) == 1
    assert long_path_cost(10_000_000) == 2
    assert long_path_cost(0.1) == long_path_cost(0.01) == 200_000_000
    assert lldp_life_s(32_768, 2) == 65_535
