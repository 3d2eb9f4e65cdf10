"""What a plan says of its drawings, laid over what is usual."""

from firstfix.build.looks import USUAL_LOOKS, Looks
from firstfix.plan.model import DrawingsSpec


def looks(spec: DrawingsSpec) -> Looks:
    return Looks(
        spec.theme or USUAL_LOOKS.theme, spec.paper or USUAL_LOOKS.paper, spec.credit or USUAL_LOOKS.credit
    )
