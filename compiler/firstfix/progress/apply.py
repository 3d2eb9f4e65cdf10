"""A plan with what was found out on site: MAC addresses, serial numbers, and lengths that outrank the planned ones."""

from collections.abc import Iterator
from dataclasses import replace

from firstfix.finding.model import Finding, Label
from firstfix.plan.model import FoundOnSite, Plan
from firstfix.progress.kinds import OUTDATED
from firstfix.progress.model import Progress


def with_progress(plan: Plan, progress: Progress) -> Plan:
    """`plan` itself where nothing was found out. What is done or bought changes nothing in a plan."""
    found = FoundOnSite(
        macs={label.device: label.mac for label in progress.labels.values() if label.mac},
        serials={label.device: label.serial for label in progress.labels.values() if label.serial},
        lengths={
            each.run: (each.length, each.as_planned) for each in progress.measured.values() if each.length
        },
    )
    return replace(plan, found=found) if found != FoundOnSite() else plan


def said_otherwise(plan: Plan, progress: Progress) -> Iterator[Finding]:
    """MAC addresses that the plan says, too, and says differently: what was read from the label stands."""
    for spec in plan.devices:
        label = progress.labels.get(spec.name)
        if label is not None and label.mac and spec.mac not in ("", label.mac):
            message = (
                f"the label of '{spec.name}' says {label.mac} and the plan {spec.mac}; the label's is taken"
            )
            at_plan = Label(spec.written.span, "written in the plan")
            yield Finding(
                OUTDATED.id, OUTDATED.level, message, spec.name, label.at, OUTDATED.basis, (at_plan,)
            )
