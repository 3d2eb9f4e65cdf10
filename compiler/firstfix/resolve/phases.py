"""Phases in their order, and every `phase:` of the plan known to be one of them."""

from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.build.phases import Phase, ranks
from firstfix.parts.facts import AUTHOR, Unknown, exactly
from firstfix.plan.model import Plan, Written
from firstfix.resolve.notes import Notes, value_span

_UNSAID = Unknown("the plan does not say")


class PhaseOrder:
    """`phases` in order: those of `phases:` as written. Without that key, those that are used, in the order of their names."""

    def __init__(self, phases: tuple[Phase, ...]) -> None:
        self.phases = phases
        self._ranks = ranks(phases)

    def latest(self, *names: str) -> str:
        """The one of `names` that comes last; "" comes before all."""
        return max(names, key=self._ranks.__getitem__) if self.phases else ""

    def in_order(self, names: Iterable[str]) -> list[str]:
        """Each once, "" first."""
        return sorted(set(names), key=self._ranks.__getitem__)


def resolve_phases(plan: Plan, notes: Notes) -> PhaseOrder:
    declared = tuple(
        Phase(spec.name, spec.by, _UNSAID if spec.budget is None else exactly(spec.budget, AUTHOR))
        for spec in plan.phases
    )
    names = {phase.name for phase in declared}
    unknown = _used(plan) - names - {""}
    if unknown and declared:
        for subject, phase, written in _places(plan):
            if phase in unknown:
                notes.unknown_name(subject, phase, "phase", names, value_span(written, "phase"))
    return PhaseOrder((*declared, *(Phase(each) for each in sorted(unknown, key=ids.natural))))


def _used(plan: Plan) -> set[str]:
    """Fast, for a plan may have a hundred thousand things of which none has a phase."""
    found = {spec.phase for spec in plan.devices}
    found |= {spec.phase for spec in plan.links}
    found |= {spec.phase for spec in plan.ways}
    found |= {spec.phase for spec in plan.work.own} if plan.work else set()
    for cabinet in plan.cabinets:
        found |= {cabinet.phase, *(slot.phase for slot in cabinet.slots)}
    return found


def _places(plan: Plan) -> Iterator[tuple[str, str, Written]]:
    for device in plan.devices:
        yield ids.device(device.name), device.phase, device.written
    for link in plan.links:
        yield "links", link.phase, link.written
    for way in plan.ways:
        yield ids.way(way.name), way.phase, way.written
    for step in plan.work.own if plan.work else ():
        yield ids.own_step(step.name), step.phase, step.written
    for cabinet in plan.cabinets:
        yield ids.cabinet(cabinet.name), cabinet.phase, cabinet.written
        for slot in cabinet.slots:
            yield ids.cabinet(cabinet.name), slot.phase, slot.written
