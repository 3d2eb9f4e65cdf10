"""Whether every device that is plugged into the network is in a VLAN, once there are any."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Level
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.rules.rule import Fine, Outcome, Rule, rule

_ASKED = tuple(kind for kind in ACTIVE_KINDS if kind not in ("switch", "gateway"))


@rule("vlan-unsaid", Level.WARNING, COMMON_PRACTICE)
def vlan_unsaid(build: Build) -> Iterator[Outcome]:
    """In a plan with several VLANs, each device that is plugged in is in one of them.

    Because: a jack that is in no VLAN takes nothing from the device and brings nothing to it.
    Compares: `vlan:` and `tagged:` of each device that is wired to a jack of the inside with the VLANs of the plan.
    Skips: plans with one VLAN, which all are in, or none; switches and gateways, whose own address is a matter of choice; the provider's box.
    Remedy: write `vlan:` at the device, or once for its kind under `defaults:`.
    """
    if not build.vlans:
        return
    inside = {
        build.jacks[jack].device
        for channel in build.channels.values()
        if all(build.jacks[end].side == "inside" for end in channel.ends)
        for jack in channel.ends
    }
    for device in build.devices.values():
        if device.id not in inside or device.part.kind not in _ASKED:
            continue
        if any(build.memberships.get(device.id, ())):
            yield Fine(device.id)
            continue
        names = ", ".join(vlan.name for vlan in build.vlans.values())
        yield vlan_unsaid.finding(
            f"'{device.name}' is plugged in, but it is in no VLAN",
            device.id,
            build.provenance.span(device.id),
            cures=(Cure(f"say which: vlan: one of {names}" if len(names) < 120 else "say which by `vlan:`"),),
        )


RULES: tuple[Rule, ...] = (vlan_unsaid,)
