"""Why none of a device's jacks suits a run: how many fall out for which reason, and what would help.

Takes the jacks of a part, and what the run asks for; gives a clause for the finding.
"""

from collections import Counter
from collections.abc import Callable, Iterable
from typing import NamedTuple

from firstfix.parts.part import JackSpec


class Asked(NamedTuple):
    """What a run asks of a jack: one of these names, if any are written; a family that lies beyond; a side of the device."""

    names: frozenset[str] | None
    families: frozenset[str]
    side: str


def refusals(jacks: Iterable[JackSpec], asked: Asked, hindrance: Callable[[str], str]) -> str:
    """As "8 rj45 in use, 2 sfp not among those written; write …", in the order of the jacks.

    `hindrance`: of a jack by its name, IN_USE or ONE_FACE or "".
    """
    counted = Counter((spec.family, _reason(spec, asked, hindrance)) for spec in jacks)
    if not counted:
        return "it has none"
    shown = ", ".join(f"{count} {family} {reason}" for (family, reason), count in counted.items())
    return f"{shown}; {_cure({reason for _, reason in counted}, asked)}"


IN_USE = "in use"
ONE_FACE = "with one face for plugs and one for installed cable, where this run needs the same one twice"
_OUTSIDE_RANGE = "not among those written"
_UNLIKE = "that cannot be joined to what lies beyond"
_OTHER_SIDE = "on the other side, towards or away from the provider"


def _reason(spec: JackSpec, asked: Asked, hindrance: Callable[[str], str]) -> str:
    if asked.names is not None and spec.name not in asked.names:
        return _OUTSIDE_RANGE
    if spec.family not in asked.families:
        return _UNLIKE
    if asked.names is None and spec.side != asked.side:
        return _OTHER_SIDE
    return hindrance(spec.name) or "left"


def _cure(reasons: set[str], asked: Asked) -> str:
    if not asked.families:
        return "what lies on its two sides has no kind of jack in common, so mend the run or convert between copper and light"
    if reasons == {_UNLIKE}:
        return f"take a part with jacks of {' or '.join(sorted(asked.families))}, or mend the run"
    if ONE_FACE in reasons:
        return "leave it out of the run, or put it where an installed cable begins or ends"
    if IN_USE not in reasons:
        return "write other jacks, or mend the run"
    more = "write a wider range, or " if _OUTSIDE_RANGE in reasons else ""
    return f"{more}take a part with more of them, or a second one"
