"""What was decided about one thing of a build, by whom, and what else was looked at."""

import json
from collections.abc import Iterator
from typing import TYPE_CHECKING

from firstfix.build.reasons import WRITTEN, Decision
from firstfix.cli.streams import put
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut, wrapped

if TYPE_CHECKING:
    from firstfix.build.model import Build

_WIDTH = 110
_MOST_OTHERS = 12


def show_why(build: "Build", name: str, form: str) -> None:
    from firstfix.resolve.why import explain_choice

    if form == "sarif":
        raise TroubleError("decisions are no findings, so they have no SARIF; take --format json")
    decisions = explain_choice(build, name)
    if form != "text":
        put(json.dumps([decision._asdict() for decision in decisions], indent=2) + "\n")
    elif decisions:
        put("\n".join(line for decision in decisions for line in _lines(decision)) + "\n")
    else:
        put(_nothing_decided(build, name))


def _nothing_decided(build: "Build", name: str) -> str:
    from firstfix.resolve.why import known_names
    from firstfix.source.nearest import did_you_mean

    names = known_names(build)
    if name not in names:
        raise TroubleError(f"nothing in the plan is called '{cut(name, 60)}'{did_you_mean(name, names)}")
    return f"nothing had to be decided about {cut(name, 60)}: it is as the plan says\n"


def _lines(decision: Decision) -> Iterator[str]:
    yield cut(f"{decision.subject}  {decision.attribute}: {decision.value}", _WIDTH)
    by = "written in the plan" if decision.origin == WRITTEN else f"{decision.origin} by {decision.by}"
    yield from (
        f"  {line}" for line in wrapped(f"{by}: {decision.why}" if decision.why else by, _WIDTH - 2, 3)
    )
    if decision.others:
        shown = "; ".join(decision.others[:_MOST_OTHERS])
        more = len(decision.others) - _MOST_OTHERS
        and_more = f"; and {more} more" if more > 0 else ""
        yield from (f"  {line}" for line in wrapped(f"not taken: {shown}{and_more}", _WIDTH - 2, 4))
