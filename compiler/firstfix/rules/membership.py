"""Who is in which VLAN, and whether that serves its purpose: devices, name servers, wireless networks."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Level
from firstfix.graphs.wired import wired_channels
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.rules.rule import Fine, Outcome, Rule, rule

_ASKED = tuple(kind for kind in ACTIVE_KINDS if kind not in ("switch", "gateway"))


@rule("vlan-unsaid", Level.WARNING, COMMON_PRACTICE)
def vlan_unsaid(build: Build) -> Iterator[Outcome]:
    """In a plan with several VLANs, each device that is plugged in is in one of them.

    Because: a jack that is in no VLAN takes nothing from the device and brings nothing to it.
    Compares: `vlan:` and `tagged:` of each device that is wired to a jack of the inside with the VLANs of the plan.
    Skips: plans with one VLAN, which all are in, or none; switches and gateways, whose own address is a matter of choice; the provider's box.
    Cannot tell: a device whose `vlan:` has a fault of its own.
    Remedy: write `vlan:` at the device, or once for its kind under `defaults:`.
    """
    if not build.vlans:
        return
    inside: set[str] = set()
    for _, near, far in wired_channels(build):
        if near.side == far.side == "inside":
            inside |= {near.device, far.device}
    for device in build.devices.values():
        if device.id not in inside or device.part.kind not in _ASKED:
            continue
        if any(build.memberships.get(device.id, ())):
            yield Fine(device.id)
            continue
        if build.provenance.written(device.id, "vlan") is not None or device.id in build.unsettled:
            yield vlan_unsaid.waits(device.id, build.provenance.span(device.id), "which VLAN it is to be in")
            continue
        names = ", ".join(vlan.name for vlan in build.vlans.values())
        yield vlan_unsaid.finding(
            f"'{device.name}' is plugged in, but it is in no VLAN",
            device.id,
            build.provenance.span(device.id),
            cures=(Cure(f"say which: vlan: one of {names}" if len(names) < 120 else "say which by `vlan:`"),),
        )


@rule("names-out-of-reach", Level.WARNING, COMMON_PRACTICE)
def names_out_of_reach(build: Build) -> Iterator[Outcome]:
    """A VLAN that lends addresses reaches the name servers that it hands out with them.

    Because: whoever cannot reach a name server finds nothing by name, and takes the network for broken.
    Compares: the VLANs of the devices under `names: servers:` with the VLAN itself and what it `reaches`; `names` there means
        the name servers and nothing else.
    Skips: VLANs without `dhcp:`; plans without name servers of their own.
    Remedy: add `names` to the VLAN's `reaches:`.
    """
    homes = {build.memberships.get(server, ("",))[0] for server in build.name_service.servers}
    for vlan in build.vlans.values():
        if not vlan.leases[0] or not build.name_service.servers:
            continue
        reached = {f"vlan:{each}" for each in vlan.reaches} | {vlan.id}
        if "names" in vlan.reaches or homes & reached:
            yield Fine(vlan.id)
            continue
        servers = " and ".join(f"'{build.devices[each].name}'" for each in build.name_service.servers)
        yield names_out_of_reach.finding(
            f"the VLAN '{vlan.name}' lends addresses, but does not reach the name servers {servers}",
            vlan.id,
            build.provenance.span(vlan.id, "reaches"),
            cures=(Cure("add 'names' to its reaches: it means the name servers and nothing else"),),
        )


@rule("wifi-not-carried", Level.WARNING, COMMON_PRACTICE)
def wifi_not_carried(build: Build) -> Iterator[Outcome]:
    """The VLAN of each wireless network comes to at least one access point.

    Because: a network name that no access point sends is never seen by anybody.
    Compares: the VLAN of each entry under `wifi:` with `vlan:` and `tagged:` of all access points.
    Cannot tell: a device that has an unknown name for its part or its VLANs.
    Remedy: add the VLAN to `tagged:` of the access points that are to send it.
    """
    points = [device for device in build.devices.values() if device.part.kind == "access-point"]
    for network in build.wireless:
        subject = f"wifi:{network.name}"
        if any(network.vlan in build.memberships.get(point.id, ()) for point in points):
            yield Fine(subject)
            continue
        if any(gap.rule == "name-unknown" and gap.subject.startswith("device:") for gap in build.gaps):
            at = build.provenance.span(subject)
            yield wifi_not_carried.waits(subject, at, "what a device with an unknown name in it is and takes")
            continue
        name = build.vlans[network.vlan].name
        yield wifi_not_carried.finding(
            f"no access point carries the VLAN '{name}' of the wireless network '{network.name}'",
            subject,
            build.provenance.span(subject),
            cures=(Cure(f"add '{name}' to tagged: of the access points that are to send it"),),
        )


RULES: tuple[Rule, ...] = (vlan_unsaid, names_out_of_reach, wifi_not_carried)
