"""Addresses and names that the RFCs set aside. Blocks are text, because `ipaddress` is slow to import."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class AddressBlock(NamedTuple):
    """A block and its use: private, shared, documentation, link-local and so on, as the table has them."""

    block: str
    use: str
    basis: Basis
    note: str


class ReservedName(NamedTuple):
    name: str
    use: str
    basis: Basis
    note: str


class AddressLimits(NamedTuple):
    renewing_after: Limit
    rebinding_after: Limit
    site_prefix_length: Limit
    subnet_prefix_length: Limit


class LeaseTimers(NamedTuple):
    renewing_s: float
    rebinding_s: float


@cache
def address_blocks() -> tuple[AddressBlock, ...]:
    return tuple(
        AddressBlock(row.text("block"), row.text("use"), row.basis, row.note)
        for row in read("address_blocks")
    )


def blocks_for(use: str) -> tuple[AddressBlock, ...]:
    """The blocks of one use; empty where no block has it."""
    return tuple(block for block in address_blocks() if block.use == use)


@cache
def reserved_names() -> Mapping[str, ReservedName]:
    """Top-level names (and home.arpa) by name, without dots around."""
    rows = (
        ReservedName(row.text("name"), row.text("use"), row.basis, row.note) for row in read("reserved_names")
    )
    return keyed(rows, lambda row: row.name)


@cache
def address_limits() -> AddressLimits:
    return limits("address_limits", AddressLimits)


def usable_hosts(prefix_length: int) -> int:
    """How many hosts an IPv4 prefix holds: 2^(32-n) - 2; a /31 holds 2 and a /32 one.

    Raises ValueError outside 0 to 32. Source: RFC 1122, section 3.2.1.3; RFC 3021 for /31.
    """
    if not 0 <= prefix_length <= 32:
        raise ValueError(f"no IPv4 prefix length: {prefix_length}")
    addresses: int = 2 ** (32 - prefix_length)
    return addresses if prefix_length >= 31 else addresses - 2


def site_subnets() -> int:
    """How many subnets a site's own IPv6 prefix holds. Source: RFC 4193, section 3.1."""
    spare = address_limits().subnet_prefix_length.value - address_limits().site_prefix_length.value
    return 1 << int(spare)


def lease_timers(lease_s: float) -> LeaseTimers:
    """When a client asks its own server again, and when any.

    Both are shares of the lease [s]. Source: RFC 2131, section 4.4.5.
    """
    shares = address_limits()
    return LeaseTimers(lease_s * shares.renewing_after.value, lease_s * shares.rebinding_after.value)
