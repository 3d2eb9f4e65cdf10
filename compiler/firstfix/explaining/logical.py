"""Why a VLAN or an address: its number, its subnet, who is in it, which links carry it, who holds what."""

from collections.abc import Iterator
from ipaddress import ip_address, ip_network

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.device import address_line, gateway_line
from firstfix.explaining.lines import (
    counted,
    decided,
    from_decision,
    ranges,
    said,
    sections,
    shown_jack,
    vlan_names,
)
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.views import views
from firstfix.graphs.layer2 import whole_layer2

# More lines than this are counted: a VLAN of a whole school has thousands of devices.
_MOST_LINES = 40


def explain_vlan(build: Build, id_: str) -> Explanation:
    vlan = build.vlans[id_]
    parts = sections(
        ("the VLAN", _itself(build, id_)),
        ("in it untagged", _members(build, id_, True)),
        ("in it tagged", _members(build, id_, False)),
        ("links between bridges that carry it", _carried(build, id_)),
    )
    return Explanation(id_, "VLAN", f"{vlan.name}, number {vlan.vid}", build.provenance.span(id_), parts)


def _itself(build: Build, id_: str) -> Iterator[Line]:
    vlan = build.vlans[id_]
    yield said(build, id_, "number", str(vlan.vid), "id")
    if vlan.subnet:
        yield said(build, id_, "subnet", vlan.subnet)
        yield gateway_line(build, id_)
    if vlan.leases[0]:
        yield said(build, id_, "lent to who asks", f"{vlan.leases[0]} to {vlan.leases[1]}", "dhcp")
    reaches = ", ".join(vlan.reaches) or "nothing"
    yield said(build, id_, "reaches", reaches, otherwise="nothing unless the plan says so")
    for network in build.wireless:
        if network.vlan == id_:
            at = build.provenance.span(f"wifi:{network.name}")
            yield Line("wireless network", f"{network.name} (SSID {network.ssid})", WRITTEN, "", at)


def _members(build: Build, id_: str, is_untagged: bool) -> Iterator[Line]:
    found = [
        device for device, (untagged, *tagged) in build.memberships.items()
        if (untagged == id_ if is_untagged else id_ in tagged and untagged != id_)
    ]  # fmt: skip
    for device in found[:_MOST_LINES]:
        yield _member(build, id_, device, "vlan" if is_untagged else "tagged")
    if len(found) > _MOST_LINES:
        yield Line("and more", counted(len(found) - _MOST_LINES, "device"))


def _member(build: Build, vlan: str, device: str, key: str) -> Line:
    name = build.devices[device].name
    for claim in views(build).claims.get(device, ()):
        if claim.vlan == vlan:
            return address_line(build, claim)._replace(what=name, value=f"{claim.address}/{claim.prefix}")
    decision = decided(build, device, "address")
    if decision is not None and key == "vlan":
        return from_decision(name, decision, None)
    value = "has no address of its own in it"
    return said(build, device, name, value, key, otherwise="the plan does not say otherwise")


def _carried(build: Build, id_: str) -> Iterator[Line]:
    carrying = [join for join in whole_layer2(build).joins if id_ in join.carried]
    for join in carrying[:_MOST_LINES]:
        channel = build.channels[join.channels[0]]
        ends = " to ".join(shown_jack(end) for end in channel.ends)
        setup = build.port_setups.get(channel.ends[0])
        at = build.provenance.written(channel.link, "tagged")
        how = "untagged" if setup is not None and setup.untagged == id_ else "tagged"
        yield Line(ends, how, WRITTEN if at else WORKED_OUT, "", at)
    if len(carrying) > _MOST_LINES:
        yield Line("and more", counted(len(carrying) - _MOST_LINES, "link"))


def explain_address(build: Build, id_: str) -> Explanation:
    """`address:10.61.10.53`, whoever holds it; also one that nobody holds, if it lies in a subnet of the plan."""
    text = ids.path(id_)
    lines = list(_holders(build, text))
    for vlan in build.vlans.values():
        if vlan.subnet and ip_address(text) in ip_network(vlan.subnet):
            lines.append(
                said(build, vlan.id, "subnet", f"{vlan.subnet} of VLAN {vlan_names(build, (vlan.id,))}")
            )
            lines += _free(build, text, vlan.id)
    at = next((line.at for line in lines if line.at is not None), None)
    return Explanation(id_, "address", text, at, sections(("the address", lines)))


def _holders(build: Build, text: str) -> Iterator[Line]:
    for claim in build.addresses:
        if claim.address == text:
            line = address_line(build, claim)
            yield line._replace(what="held by", value=f"{build.devices[claim.device].name}, in {build.vlans[claim.vlan].name}")  # fmt: skip
    for vlan in build.vlans.values():
        if vlan.gateway == text:
            yield gateway_line(build, vlan.id)._replace(what="gateway of", value=vlan.name)
        if vlan.leases[0] and _is_within(text, vlan.leases):
            yield said(build, vlan.id, "lent", f"from {vlan.leases[0]} to {vlan.leases[1]}, to whoever asks in {vlan.name}", "dhcp")  # fmt: skip


def _is_within(text: str, leases: tuple[str, str]) -> bool:
    address, low, high = (ip_address(each) for each in (text, *leases))
    return address.version == low.version and int(low) <= int(address) <= int(high)


def _free(build: Build, text: str, vlan_id: str) -> Iterator[Line]:
    held = [each.address for each in build.addresses if each.vlan == vlan_id]
    if text not in held:
        yield Line("held by", "nobody", WORKED_OUT, "no device of the plan has it")
    hosts = sorted(int(ip_address(each)) for each in held)
    first = int(ip_network(build.vlans[vlan_id].subnet).network_address)
    if hosts:
        yield Line("hosts in use there", ", ".join(ranges(str(host - first) for host in hosts)))
