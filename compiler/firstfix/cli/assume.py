"""`--assume CHANGE`: the plan with changes laid over it, and what that would mean. Nothing is written anywhere."""

import sys
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.reading import compiled
from firstfix.cli.showing import show_report
from firstfix.cli.streams import palette, put
from firstfix.cli.trouble import TroubleError

if TYPE_CHECKING:
    from firstfix.documents.what_if import WhatIf
    from firstfix.finding.model import Finding
    from firstfix.pipeline import Compiled
    from firstfix.plan.assumption import Assumption

OPTION = "--assume"
MOST = 50
# What a slip of the pen in an assumption becomes, beside the faults of reading it.
_NO_SUCH_NAME = "name-unknown"


def read_assumptions(given: list[str]) -> "tuple[Assumption, ...]":
    """Each in a file of its own, called by the option and its number."""
    from firstfix.plan.assumption import AssumptionError, read_assumption

    if len(given) > MOST:
        raise TroubleError(f"{len(given)} assumptions are given; at most {MOST} are made at a time")
    try:
        return tuple(read_assumption(text, f"{OPTION} {number}") for number, text in enumerate(given, 1))
    except AssumptionError as fault:
        raise TroubleError(str(fault)) from None


def compiled_with(path: Path, given: str, assumptions: "tuple[Assumption, ...]") -> "Compiled":
    """The plan with `assumptions`. Raises TroubleError where one of them is at fault itself, not the network that it makes."""
    result = compiled(path, given, assumptions=assumptions)
    own = {each.file for each in assumptions}
    wrong = [
        each
        for each in result.report.findings
        if each.primary is not None
        and each.primary.file in own
        and (each in result.faults or each.rule == _NO_SUCH_NAME)
    ]
    if wrong:
        _tell(result, wrong)
        first = wrong[0].primary
        assert first is not None
        raise TroubleError(f"{first.file}: {wrong[0].message}")
    return result


def _tell(result: "Compiled", wrong: "list[Finding]") -> None:
    """Beyond the one sentence only what it does not say: further faults."""
    from firstfix.finding.render_text import render_entries

    if len(wrong) > 1 and sys.stderr is not None:
        sys.stderr.write(render_entries(wrong, (), result.source.texts) + "\n\n")


def show_what_if(before: "Compiled", after: "Compiled", texts: list[str], form: str) -> None:
    """What differs from the plan as it stands; of a plan that cannot be read, what is wrong with it."""
    from firstfix.documents.what_if import what_if_json, what_if_text

    if before.build is None or after.build is None:
        show_report(after, form)
        return
    asked = _what_if(before, after, texts)
    put(what_if_json(asked) if form == "json" else what_if_text(asked, palette()))


def _what_if(before: "Compiled", after: "Compiled", texts: list[str]) -> "WhatIf":
    from firstfix.allocations.moved import moved_choices
    from firstfix.compare.changes import compare
    from firstfix.compare.room_left import room_left
    from firstfix.compare.verdicts import verdict_changes
    from firstfix.documents.changes import ComparedPlans
    from firstfix.documents.what_if import WhatIf
    from firstfix.graphs.headroom import headroom
    from firstfix.pipeline import choices_to_keep
    from firstfix.purchase.difference import purchases
    from firstfix.purchase.needs import needs
    from firstfix.purchase.two_lists import two_lists
    from firstfix.remaining.pulled import pulled
    from firstfix.remaining.reckon import ordered_already

    assert before.build is not None
    assert after.build is not None
    old, new = before.build, after.build
    changes = compare(old, new)
    names = changes.delta.names
    compared = ComparedPlans(
        "as written",
        "as assumed",
        changes,
        verdict_changes(before.report, after.report, names),
        room_left(headroom(old), headroom(new), names),
        purchases(old, new, names, pulled(old, before.progress)),
    )
    lying = pulled(old, before.progress)
    lists = two_lists(old, new, lying, ordered_already(needs(old), before.progress) if lying else {})
    moved = moved_choices(choices_to_keep(before), choices_to_keep(after), before.choices)
    return WhatIf(tuple(texts), compared, after.report, after.source.texts, lists, moved)
