"""`phases:`: the stages in which a network is built, in the order in which they are written."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.dates import date
from firstfix.plan.model import PhaseSpec, Written
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import clip

_PHASE_KEYS = ("by", "budget", "note")
_MOST_MONEY = 1e9


def read_phases(fields: Fields, start: str, faults: Collector) -> Iterator[PhaseSpec]:
    """`{spring: {by: 2027-04-15, budget: 1600}}`. The dates run in the order of the phases, from `start` on."""
    latest, before = start, "the plan's 'start'"
    for name, key, node in fields.table("phases"):
        check_name(name, key, faults)
        phase = Fields(node, faults, f"the phase '{clip(name)}'", _PHASE_KEYS)
        by = date(phase, "by")
        if by and by < latest:
            value = phase.value("by")
            assert value is not None
            phase.wrong(
                value,
                f"'{clip(name)}' is to be done by {by}, before {before} ({latest}); phases stand in order",
            )
        elif by:
            latest, before = by, f"'{clip(name)}', which stands above it"
        yield PhaseSpec(name, by, phase.number("budget", 0, _MOST_MONEY), Written(key, node))
