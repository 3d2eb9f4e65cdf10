"""schedule.json: the schedule for programs. Minutes count working time only, from the start of the first working day."""

import json
from collections.abc import Mapping
from typing import Any

from firstfix.finding.model import COMMON_PRACTICE
from firstfix.schedule.model import OrderBy, Planned, Schedule

FORMAT = 1


def schedule_json(
    schedule: Schedule,
    after: Mapping[str, tuple[str, ...]],
    is_draft: bool,
    done: frozenset[str] = frozenset(),
) -> str:
    """`after`: by step, the steps that it waits for. Keys sorted, steps in the order in which they begin; `done` ones have no days."""
    chain = frozenset(schedule.chain)
    data: dict[str, Any] = {
        "format": FORMAT,
        "draft": is_draft,
        "crew": schedule.crew,
        "minutes-a-day": schedule.day,
        "finish": _end(schedule, schedule.finish),
        "no-order-is-done-before": _end(schedule, schedule.bound),
        "walks": schedule.walks,
        "durations": {"basis": str(COMMON_PRACTICE.document), "said-by-the-plan": dict(schedule.said)},
        "without-a-known-length": sorted(schedule.without_length),
        "longest-chain": list(schedule.chain),
        "steps": [_step(schedule, each, after.get(each.id, ()), each.id in chain) for each in schedule.steps],
        "done": sorted(done),
        "order-by": [_order(schedule, each) for each in schedule.orders],
        "interruptions": [
            {
                "of": list(each.names),
                "from": {"step": each.since, **_begin(schedule, each.start)},
                "to": {"step": each.until, **_end(schedule, each.finish)},
            }
            for each in schedule.outages
        ],
        "phases": [
            {
                "name": each.name,
                "begin": _begin(schedule, each.start),
                "end": _end(schedule, each.finish),
                "by": each.by,
                "late": each.is_late,
            }
            for each in schedule.phases
        ],
    }
    return json.dumps(data, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _step(schedule: Schedule, step: Planned, after: tuple[str, ...], is_in_chain: bool) -> dict[str, Any]:
    return {
        "id": step.id,
        "room": step.room,
        "phase": step.phase,
        "minutes": step.minutes,
        "people": step.people,
        "done-by": [who + 1 for who in step.who],
        "after": sorted(after),
        "begin": _begin(schedule, step.start),
        "end": _end(schedule, step.finish),
        "with-hands-enough": {
            "early-start": step.dates.early_start,
            "early-finish": step.dates.early_finish,
            "late-start": step.dates.late_start,
            "late-finish": step.dates.late_finish,
            "total-float": step.dates.total_float,
            "free-float": step.dates.free_float,
            "critical": step.dates.is_critical,
        },
        "in-longest-chain": is_in_chain,
        "waits-for-parts": step.waits_for_parts,
    }


def _begin(schedule: Schedule, minute: int) -> dict[str, Any]:
    return _moment(schedule, schedule.first_day(minute), minute)


def _end(schedule: Schedule, minute: int) -> dict[str, Any]:
    return _moment(schedule, schedule.last_day(minute), minute)


def _moment(schedule: Schedule, index: int, minute: int) -> dict[str, Any]:
    day = schedule.days[index]
    return {"minute": minute, "day": day.number, "date": day.date or None}


def _order(schedule: Schedule, order: OrderBy) -> dict[str, Any]:
    return {
        "shop": order.shop or None,
        "lead-days": order.lead,
        "by": None if order.by is None else _offset(schedule, order.by),
        "needed": _offset(schedule, order.needed),
        "first-needed-by": order.first or None,
        "for-nothing-to-wait": None if order.by is None else _offset(schedule, order.unheld or order.by),
    }


def _offset(schedule: Schedule, offset: int) -> dict[str, Any]:
    return {"days-after-start": offset, "date": schedule.days.date_at(offset) or None}
