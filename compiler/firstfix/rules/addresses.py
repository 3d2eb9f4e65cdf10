"""Subnets that overlap, and addresses that two things have."""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Basis, Cure, Label, Level
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.wording import listed
from firstfix.span import Span

# Longest-prefix routing: an address belongs to one network only. RFC 4632, section 5.1, from memory.
_ROUTING = Basis("RFC 4632", "section 5.1")
# A host checks that nobody else has its address, for two can't. RFC 5227, section 1, from memory.
_CONFLICT = Basis("RFC 5227", "address conflict detection")


@rule("subnet-overlap", Level.ERROR, _ROUTING)
def subnet_overlap(build: Build) -> Iterator[Outcome]:
    """Whether the subnets of two VLANs have addresses in common.

    Because: a router sends to one of the two only; devices in the other are cut off, sometimes only some of them
    Compares: the subnet of each VLAN with all others; each is reported with the narrowest one that it lies in
    Skips: VLANs without a subnet
    Cannot tell: a subnet that can't be read
    Remedy: give one of the two another subnet
    """
    from ipaddress import ip_network

    unreadable = {gap.subject for gap in build.gaps if gap.rule == "subnet-form"}
    for vlan_id in sorted(unreadable & set(build.vlans)):
        yield subnet_overlap.waits(
            vlan_id, build.provenance.span(vlan_id, "subnet"), "a subnet that can be read"
        )
    networks = [(ip_network(vlan.subnet), vlan) for vlan in build.vlans.values() if vlan.subnet]
    # Blocks are nested or apart, never crossed: in this order, the open ones that hold the next are a stack.
    networks.sort(
        key=lambda pair: (pair[0].version, int(pair[0][0]), pair[0].prefixlen, _place(build, pair[1].id))
    )
    around: list[tuple[int, int, Vlan]] = []
    for network, vlan in networks:
        low, high = int(network[0]), int(network[-1])
        while around and (around[-1][0] != network.version or around[-1][1] < low):
            around.pop()
        yield _overlap(build, around[-1][2], vlan) if around else Fine(vlan.id)
        around.append((network.version, high, vlan))


def _overlap(build: Build, outer: Vlan, inner: Vlan) -> Outcome:
    if outer.subnet == inner.subnet:
        message = f"the VLANs '{outer.name}' and '{inner.name}' have the same subnet {inner.subnet}"
    else:
        message = f"the subnet {inner.subnet} of '{inner.name}' lies within {outer.subnet} of '{outer.name}'"
    related = (Label(build.provenance.span(outer.id, "subnet"), f"the subnet of '{outer.name}'"),)
    cure = Cure(f"give '{inner.name}' a subnet that no other VLAN has")
    return subnet_overlap.finding(
        message, inner.id, build.provenance.span(inner.id, "subnet"), related, cures=(cure,)
    )


def _place(build: Build, id_: str) -> tuple[Span, str]:
    """Order as written: a later thing is in the way of an earlier one."""
    return build.provenance.span(id_) or Span("", 0, 0, 0, 0), id_


@rule("address-duplicate", Level.ERROR, _CONFLICT)
def address_duplicate(build: Build) -> Iterator[Outcome]:
    """Whether two devices have the same fixed address, or a fixed one lies among those that are lent out.

    Because: with two on one address, now one is reached and now the other; it shows as a fault that comes and goes
    Compares: the addresses of all devices in one VLAN with each other, and with the range that is lent (a warning: a careful lender
    asks first whether somebody has the address, but not every one does, and a device may be off at that time)
    Skips: devices that get their address lent; equal addresses in two VLANs, which overlap then: that is subnet-overlap
    Cannot tell: a written address that can't be read
    Remedy: leave out the host number, and a free one is worked out; or write another
    """
    for subject in sorted(
        {gap.subject for gap in build.gaps if gap.rule == "address-form"} & set(build.devices)
    ):
        yield address_duplicate.waits(
            subject, build.provenance.span(subject, "host"), "an address that can be read"
        )
    holders: defaultdict[tuple[str, str], list[AddressClaim]] = defaultdict(list)
    for claim in build.addresses:
        holders[claim.vlan, claim.address].append(claim)
    for (vlan_id, address), claims in holders.items():
        if len(claims) > 1:
            # A router is there by right: the others are in its way.
            claims.sort(key=lambda claim: (not _is_gateway(build, claim), _place(build, claim.device)))
        first, *others = claims
        yield from (_duplicate(build, first, other) for other in others)
        vlan = build.vlans[vlan_id]
        if _is_lent(vlan, address):
            yield _lent(build, vlan, first)
        elif not others:
            yield Fine(first.device)


def _is_gateway(build: Build, claim: AddressClaim) -> bool:
    return (
        claim.address == build.vlans[claim.vlan].gateway and build.devices[claim.device].part.routes is True
    )


def _is_lent(vlan: Vlan, address: str) -> bool:
    from ipaddress import ip_address

    low, high = vlan.leases
    return bool(low) and int(ip_address(low)) <= int(ip_address(address)) <= int(ip_address(high))


def _duplicate(build: Build, first: AddressClaim, other: AddressClaim) -> Outcome:
    names = listed((ids.path(first.device), ids.path(other.device)))
    held = "the gateway of the VLAN has it" if _is_gateway(build, first) else "has it too"
    where = (
        build.provenance.span(first.vlan, "gateway")
        if _is_gateway(build, first)
        else build.provenance.span(first.device, "host")
    )
    return address_duplicate.finding(
        f"{names} both have the address {other.address} in the VLAN '{ids.path(other.vlan)}'",
        other.device,
        build.provenance.span(other.device, "host"),
        (Label(where, held),),
        cures=(
            Cure("leave out 'host', and a free one is worked out"),
            Cure("write a host number that nobody has"),
        ),
    )


def _lent(build: Build, vlan: Vlan, claim: AddressClaim) -> Outcome:
    is_gateway = _is_gateway(build, claim)
    low, high = vlan.leases
    return address_duplicate.finding(
        f"the fixed address {claim.address} of '{ids.path(claim.device)}' lies among those that '{vlan.name}' lends, {low} to {high}",
        claim.device,
        build.provenance.span(vlan.id, "gateway")
        if is_gateway
        else build.provenance.span(claim.device, "host"),
        (Label(build.provenance.span(vlan.id, "dhcp"), "these are lent"),),
        cures=(Cure("take a host number outside what is lent"), Cure("lend a range that leaves it out")),
        level=Level.WARNING,
        basis=COMMON_PRACTICE,
    )


RULES: tuple[Rule, ...] = (subnet_overlap, address_duplicate)
