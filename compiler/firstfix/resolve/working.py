"""What a plan says of the work, laid over what is usual."""

from firstfix.build.working import USUAL_WORK, Working
from firstfix.plan.model import WorkSpec


def resolve_work(spec: WorkSpec | None) -> Working:
    if spec is None:
        return USUAL_WORK
    return Working(
        spec.days or USUAL_WORK.days,
        USUAL_WORK.minutes if spec.minutes is None else spec.minutes,
        spec.crew or USUAL_WORK.crew,
        spec.closed,
        spec.takes,
        spec.lead,
    )
