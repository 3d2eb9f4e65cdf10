"""Subnets, gateways, leases and addresses: written ones honoured, the others worked out; faults of form named at their place."""

import re
from ipaddress import IPv4Address, IPv4Network, IPv6Network, ip_address, ip_network
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.logical import AddressClaim, NameService, Vlan
from firstfix.parts.part import INLINE_KINDS, MAINS_KINDS, TERMINATION_KINDS
from firstfix.plan.model import DeviceSpec, Plan, VlanSpec
from firstfix.resolve.kept import Kept
from firstfix.resolve.notes import Notes, named_span, value_span
from firstfix.resolve.vlans import Membership
from firstfix.source.node import clip
from firstfix.span import Span

Network = IPv4Network | IPv6Network
# [0-9], since \d and isdigit() take the digits of every script, "²" among them.
_LEASES = re.compile(r"([0-9]{1,5})\s*-\s*([0-9]{1,5})")
_HOST_NUMBER = re.compile(r"[0-9]{1,9}")
# Hosts that get an address without asking for one start here; the first ones are left to routers. Common practice, no source.
_FIRST_WORKED_OUT = 10
# What keeps a fixed address although its VLAN lends out others: gear that people look for. Common practice, no source.
_FIXED_KINDS = ("gateway", "switch", "access-point", "storage", "small-computer", "printer")


class Addresses(NamedTuple):
    vlans: dict[str, Vlan]
    claims: tuple[AddressClaim, ...]
    names: NameService


def resolve_addresses(
    plan: Plan,
    vlans: dict[str, Vlan],
    members: dict[str, Membership],
    devices: dict[str, Device],
    kept: Kept,
    notes: Notes,
) -> Addresses:
    planner = _Addressing(vlans, members, devices, kept, notes)
    for vlan_spec in plan.vlans:
        planner.subnet(vlan_spec)
    specs = [spec for spec in plan.devices if ids.device(spec.name) in devices]
    planner.router()
    for spec in specs:
        planner.written(spec)
    in_order = sorted(specs, key=lambda spec: spec.name)
    if kept.has_any:
        in_order = [spec for spec in in_order if not planner.kept(spec)]
    for spec in in_order:
        planner.worked_out(spec)
    return Addresses(planner.vlans, tuple(sorted(planner.claims)), _names(plan, devices, notes))


def _names(plan: Plan, devices: dict[str, Device], notes: Notes) -> NameService:
    servers: list[str] = []
    for name in plan.names.servers:
        device_id = ids.device(name)
        if device_id in devices:
            servers.append(device_id)
        else:
            known = (device.name for device in devices.values())
            at = named_span(plan.names.written, "servers", name)
            notes.unknown_name("names", name, "device", known, at)
    return NameService(plan.names.domain, tuple(servers))


def _hosts_of(network: Network) -> str:
    most = network.num_addresses - 2
    return f"whose hosts are 1 to {most}" if most > 0 else "which is too small to number its hosts"


def _is_reserved(network: Network) -> bool:
    """Whether hosts can't have addresses of the network: special-purpose ones of RFC 6890, multicast ones of RFC 5771."""
    first = network.network_address
    special = first.is_loopback or first.is_link_local or first.is_multicast or first.is_reserved
    # 0.0.0.0/8 is "this network" (RFC 6890, table 1), and :: is unspecified.
    return special or int(first) >> (first.max_prefixlen - 8) == 0


class _Addressing:
    def __init__(
        self,
        vlans: dict[str, Vlan],
        members: dict[str, Membership],
        devices: dict[str, Device],
        kept: Kept,
        notes: Notes,
    ) -> None:
        self.vlans = dict(vlans)
        self.claims: list[AddressClaim] = []
        self._members = members
        self._devices = devices
        self._kept = kept
        self._notes = notes
        self._networks: dict[str, Network] = {}
        # Of each subnet, who holds which address; "" holds what is nobody's to take.
        self._used: dict[str, dict[int, str]] = {}
        self._next_free: dict[str, int] = {}
        self._leases: dict[str, tuple[int, int]] = {}
        self._stay: set[str] = set()

    def subnet(self, spec: VlanSpec) -> None:
        vlan_id = ids.vlan(spec.name)
        if not spec.subnet:
            return
        at = value_span(spec.written, "subnet")
        try:
            # A scope (`fe80::1%anything`) is of one machine, and any text at all.
            network = ip_network("" if "%" in spec.subnet or "/" not in spec.subnet else spec.subnet)
        except ValueError:
            self._notes.gap("subnet-form", vlan_id, *_subnet_problem(spec.subnet, at))
            self.vlans[vlan_id] = self.vlans[vlan_id]._replace(subnet="")
            return
        if _is_reserved(network):
            why = f"{network} is kept for loopback, link-local, multicast or future use (RFC 6890, RFC 5771)"
            self._notes.gap("subnet-form", vlan_id, f"{why}; no VLAN can have it", at)
            self.vlans[vlan_id] = self.vlans[vlan_id]._replace(subnet="")
            return
        self._networks[vlan_id] = network
        gateway = self._host(spec.gateway or "1", network, vlan_id, value_span(spec.written, "gateway"))
        if not spec.gateway and gateway:
            self._notes.decide(
                vlan_id,
                "gateway",
                gateway,
                "addresses",
                "the first host of a subnet is its gateway: common practice, no source",
            )
        self.vlans[vlan_id] = self.vlans[vlan_id]._replace(
            subnet=str(network), gateway=gateway, leases=self._lease_range(spec, vlan_id, network)
        )
        self._used[vlan_id] = {address_key(gateway): ""}

    def _lease_range(self, spec: VlanSpec, vlan_id: str, network: Network) -> tuple[str, str]:
        if not spec.leases:
            return "", ""
        at = value_span(spec.written, "dhcp")
        match = _LEASES.fullmatch(spec.leases)
        low, high = (int(each) for each in match.groups()) if match else (1, 0)
        if low > high or not low >= 1 or high > network.num_addresses - 2:
            most = network.num_addresses - 2
            instead = _better_leases(spec.leases, most)
            better = f"write '{instead}'" if instead else "write one such as '100-199'"
            message = f"'{clip(spec.leases)}' is no range of hosts of {network}; {better}, within 1 to {most}"
            self._notes.gap("lease-range", vlan_id, message, at, instead)
            return "", ""
        self._leases[vlan_id] = (low, high)
        first = network.network_address
        return str(first + low), str(first + high)

    def _host(self, text: str, network: Network, subject: str, at: Span | None) -> str:
        """A host number or a full address as an address of `network`, or "" with a gap."""
        if _HOST_NUMBER.fullmatch(text):
            if 0 < int(text) < network.num_addresses - 1:
                return str(network.network_address + int(text))
            self._notes.gap(
                "address-form",
                subject,
                f"host {text} does not exist in {network}, {_hosts_of(network)}",
                at,
            )
            return ""
        try:
            address = ip_address("" if "%" in text else text)
        except ValueError:
            hint, instead = _host_hint(text, network)
            message = f"'{clip(text)}' is neither a host number nor an address; {hint}"
            self._notes.gap("address-form", subject, message, at, instead)
            return ""
        if address not in network:
            self._notes.gap(
                "address-outside-subnet",
                subject,
                f"{address} lies outside the subnet {network}; the host number alone would do",
                at,
            )
            return ""
        # A /31 has neither of the two addresses (RFC 3021, section 2.1); elsewhere no host has them (RFC 1122, 3.2.1.3).
        if (
            isinstance(network, IPv4Network)
            and network.prefixlen < 31
            and address in (network.network_address, network.broadcast_address)
        ):
            what = "network itself" if address == network.network_address else "broadcast address"
            self._notes.gap("address-form", subject, f"{address} is the {what} of {network}, not a host", at)
            return ""
        return str(address)

    def _claim(self, device_id: str, vlan_id: str, address: str) -> None:
        self.claims.append(AddressClaim(device_id, vlan_id, address, self._networks[vlan_id].prefixlen))
        self._used[vlan_id][address_key(address)] = device_id

    def router(self) -> None:
        """One router holds each subnet's gateway address: the one that held it before, else the one whose name sorts first."""
        routers = sorted(device.id for device in self._devices.values() if device.part.routes is True)
        kept = self._kept.router()
        if not routers:
            return
        device_id = ids.device(kept.device) if kept is not None else ""
        if device_id not in routers:
            if kept is not None:
                self._kept.impossible(kept, f"'{kept.device}' was the router, and is none now")
            device_id = routers[0]
        for vlan_id in self._members[device_id].tagged:
            if vlan_id in self._networks and self.vlans[vlan_id].gateway:
                self._claim(device_id, vlan_id, self.vlans[vlan_id].gateway)

    def written(self, spec: DeviceSpec) -> None:
        if not spec.host:
            return
        device_id = ids.device(spec.name)
        at = value_span(spec.written, "host")
        vlan_id = self._members[device_id].untagged
        if not vlan_id and spec.vlan:
            return
        if not vlan_id:
            self._notes.gap(
                "address-form",
                device_id,
                f"'{spec.name}' has a host number but is in no VLAN; write its 'vlan'",
                at,
            )
            return
        network = self._networks.get(vlan_id)
        if network is None:
            if self.vlans[vlan_id].subnet == "" and self._notes.provenance.written(vlan_id, "subnet") is None:
                self._notes.gap(
                    "address-form",
                    device_id,
                    f"'{spec.name}' has a host number, but the VLAN '{ids.path(vlan_id)}' has no subnet",
                    at,
                )
            return
        address = self._host(spec.host, network, device_id, at)
        if address and not (
            self._devices[device_id].part.routes is True and address == self.vlans[vlan_id].gateway
        ):
            self._claim(device_id, vlan_id, address)
            self._notes.honour(device_id, "address", address, "addresses")

    def _is_ours(self, spec: DeviceSpec) -> bool:
        """Whether the plan leaves it to us to find an address for the device."""
        device = self._devices[ids.device(spec.name)]
        in_subnet = self._members[device.id].untagged in self._networks
        return not spec.host and in_subnet and device.part.routes is not True and _has_address(device)

    def _is_lent(self, device: Device, vlan_id: str) -> bool:
        return vlan_id in self._leases and device.part.kind not in _FIXED_KINDS

    def kept(self, spec: DeviceSpec) -> bool:
        """Whether the device has the host number that it had before."""
        device_id = ids.device(spec.name)
        vlan_id = self._members[device_id].untagged
        if not self._is_ours(spec) or self._is_lent(self._devices[device_id], vlan_id):
            return False
        kept = self._kept.host(spec.name, ids.path(vlan_id))
        if kept is None:
            return False
        network = self._networks[vlan_id]
        low, high = self._leases.get(vlan_id, (0, -1))
        address = int(network.network_address) + kept.host
        was = f"host {kept.host} was kept for '{spec.name}'"
        if kept.host >= network.num_addresses - 1:
            self._kept.impossible(kept, f"{was}, and {network} has no such host")
        elif low <= kept.host <= high:
            self._kept.impossible(kept, f"{was}, and the VLAN lends that one out now")
        elif address in self._used[vlan_id]:
            holder = self._used[vlan_id][address]
            other = f"'{ids.path(holder)}'" if holder else "the gateway"
            if holder in self._stay:
                self._kept.twice(kept, f"{was}, and for {other}", other)
            else:
                self._kept.impossible(kept, f"{was}, and the plan gives it to {other}")
        else:
            shown = str(network.network_address + kept.host)
            self._claim(device_id, vlan_id, shown)
            self._stay.add(device_id)
            self._notes.keep(device_id, "address", shown, "addresses")
            return True
        return False

    def worked_out(self, spec: DeviceSpec) -> None:
        device_id = ids.device(spec.name)
        device = self._devices[device_id]
        vlan_id = self._members[device_id].untagged
        if not self._is_ours(spec):
            return
        if self._is_lent(device, vlan_id):
            low, high = self.vlans[vlan_id].leases
            self._notes.decide(
                device_id,
                "address",
                "leased",
                "addresses",
                f"its VLAN lends {low} to {high}, and nobody needs to know it by heart",
            )
            return
        address = self._free_host(vlan_id)
        if not address:
            self._notes.gap(
                "addresses-exhausted",
                device_id,
                f"the subnet {self._networks[vlan_id]} has no free address for '{spec.name}'",
                self._notes.provenance.span(device_id),
            )
            return
        self._claim(device_id, vlan_id, address)
        self._notes.decide(
            device_id,
            "address",
            address,
            "addresses",
            "the lowest free host from 10 on, outside what is lent",
        )

    def _free_host(self, vlan_id: str) -> str:
        """The lowest free host; reckoned in whole numbers, and from where the last search ended."""
        network = self._networks[vlan_id]
        low, high = self._leases.get(vlan_id, (0, -1))
        used = self._used[vlan_id]
        first = int(network.network_address)
        start = _FIRST_WORKED_OUT if network.num_addresses > 2 * _FIRST_WORKED_OUT else 1
        host = max(start, self._next_free.get(vlan_id, 0))
        while host < network.num_addresses - 1:
            if low <= host <= high:
                host = high + 1
                continue
            if first + host not in used:
                self._next_free[vlan_id] = host + 1
                return str(network.network_address + host)
            host += 1
        return ""


def _has_address(device: Device) -> bool:
    part = device.part
    if part.kind in (*TERMINATION_KINDS, *INLINE_KINDS, *MAINS_KINDS):
        return False
    return not (part.kind == "switch" and part.vlan_aware is False) and bool(part.jacks)


def _subnet_problem(text: str, at: Span | None) -> tuple[str, Span | None, str]:
    """What is wrong, its place, and what to write instead, if that can be told."""
    try:
        loose = ip_network("" if "%" in text else text, strict=False)
    except ValueError:
        dotted = re.fullmatch(r"([0-9]{1,3}(?:\.[0-9]{1,3}){2})((?:\.[x*0-9]{0,3})?)(/[0-9]{1,2})?", text)
        instead = f"{dotted[1]}.0{dotted[3] or '/24'}" if dotted is not None else ""
        instead = instead if instead and _is_network(instead) else ""
        return f"'{clip(text)}' is no subnet; write one such as '{instead or '10.20.30.0/24'}'", at, instead
    if "/" not in text:
        instead = f"{text}/24" if _is_network(f"{text}/24") else ""
        return (
            f"'{clip(text)}' has no prefix length; write it such as '{instead or '10.20.30.0/24'}'",
            at,
            instead,
        )
    return f"'{clip(text)}' has host bits set; the subnet is {loose}", at, str(loose)


def _is_network(text: str) -> bool:
    try:
        ip_network(text)
    except ValueError:
        return False
    return True


def _host_hint(text: str, network: Network) -> tuple[str, str]:
    """How to write what was probably meant, and what to write in its place, if that can be told."""
    if re.fullmatch(r"\.[0-9]{1,3}", text):
        return f"write the host number {text[1:]}", text[1:]
    if text.lower() in ("dhcp", "auto", "dynamic"):
        return "leave 'host' out, and the device gets one", ""
    address, slash, _ = text.partition("/")
    numbers = address.split(".")
    if len(numbers) == 4 and all(each.isascii() and each.isdigit() and len(each) < 5 for each in numbers):
        plain = ".".join(str(int(each)) for each in numbers)
        if all(int(each) < 256 for each in numbers) and ip_address(plain) in network:
            why = (
                "without the prefix, which the VLAN's subnet has"
                if slash
                else "without zeros before a number"
            )
            return f"write '{plain}', {why}", plain
    return f"write a host number of {network} such as 53, or the whole address", ""


def _better_leases(text: str, most: int) -> str:
    """The range in a text such as `100..199`, `199-100` or `10.1.10.100-10.1.10.199`, or ""."""
    ends = re.split(r"\s*(?:\.\.+|-|\u2013|\bto\b)\s*", text[:80])
    numbers = [each.rpartition(".")[2] for each in ends]
    if len(ends) != 2 or not all(re.fullmatch(r"[0-9]{1,5}", each) for each in numbers):
        return ""
    low, high = sorted(map(int, numbers))
    return f"{low}-{high}" if 1 <= low <= high <= most else ""


def address_key(text: str) -> int:
    """For sorting addresses by value."""
    return int(ip_address(text)) if text else int(IPv4Address(0))
