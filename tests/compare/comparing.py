"""Two plans as data, compared in full, as the command does it."""

from firstfix.build.model import Build
from firstfix.compare.changes import compare
from firstfix.compare.room_left import room_left
from firstfix.compare.verdicts import verdict_changes
from firstfix.documents.changes import ComparedPlans
from firstfix.graphs.headroom import headroom
from firstfix.pipeline import Compiled
from firstfix.purchase.difference import purchases


def build_in(result: Compiled) -> Build:
    assert result.build is not None
    return result.build


def compared(old: Compiled, new: Compiled) -> ComparedPlans:
    before, after = build_in(old), build_in(new)
    changes = compare(before, after)
    names = changes.delta.names
    return ComparedPlans(
        "old.yaml",
        "new.yaml",
        changes,
        verdict_changes(old.report, new.report, names),
        room_left(headroom(before), headroom(after), names),
        purchases(before, after, names),
    )
