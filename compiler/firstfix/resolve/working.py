"""What a plan says of the work, laid over what is usual; its own steps with the rooms that they name."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.working import USUAL_WORK, OwnStep, Wanted, Working
from firstfix.plan.model import OwnStepSpec, WorkSpec
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.places import Places, find_room

_DAY = 86_400.0


def resolve_work(spec: WorkSpec | None, places: Places, notes: Notes) -> Working:
    if spec is None:
        return USUAL_WORK
    minutes = USUAL_WORK.minutes if spec.minutes is None else spec.minutes
    return Working(
        spec.days or USUAL_WORK.days,
        minutes,
        spec.crew or USUAL_WORK.crew,
        spec.closed,
        spec.takes,
        spec.lead,
        tuple(sorted(_own(spec.own, minutes, places, notes))),
        tuple(Wanted(*each) for each in spec.after),
    )


def _own(specs: tuple[OwnStepSpec, ...], day: int, places: Places, notes: Notes) -> Iterator[OwnStep]:
    for spec in specs:
        id_ = ids.own_step(spec.name)
        notes.wrote(id_, spec.written)
        at = value_span(spec.written, "room")
        room = find_room(spec.room, id_, places, notes, at) if spec.room else ""
        crew = 1 if spec.crew is None else spec.crew
        yield OwnStep(id_, spec.name, spec.does, room, spec.phase, _minutes(spec.takes, day), crew)


def _minutes(seconds: float, day: int) -> int:
    """Whole days are days of work: the plasterer who takes two days goes home at night, too."""
    days, left = divmod(seconds, _DAY)
    return int(days) * day if days and not left else -int(-seconds // 60)
