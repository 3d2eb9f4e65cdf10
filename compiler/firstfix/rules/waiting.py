"""Which cannot-tells only wait for a fault that has a finding of its own, so that they can be summed up in one line.

Takes what the rules could not tell, the build and the places of all error findings; gives the same with those marked. One is marked only
if every single fact it lacks is accounted for: by a gap of the build in the very words, or by a value that the plan states and that
was refused. A fact that nobody wrote is never taken for one.
"""

import re
from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.reasons import LOST_WAY, NO_ROOM
from firstfix.finding.model import Finding, Level, Undetermined
from firstfix.rules.spending_kinds import SPENDING_KINDS
from firstfix.source.node import Mapping
from firstfix.span import Span

_QUOTED = re.compile(r"'([^']{1,200})'")
_WORD = re.compile(r"[a-z]+(?:-[a-z]+)*")
# A sum over all that is bought is no sum while any of it is at fault.
_OF_EVERYTHING = frozenset(kind.id for kind in SPENDING_KINDS)
_KINDS = (ids.device, ids.way, ids.cabinet, ids.vlan)


def mark_waiting(
    undetermined: Iterable[Undetermined], build: Build, findings: Iterable[Finding]
) -> tuple[Undetermined, ...]:
    entries = tuple(undetermined)
    if not entries:
        return entries
    errors = {each.primary for each in findings if each.level is Level.ERROR and each.primary is not None}
    if not errors or all(each.waits for each in entries):
        return entries
    judge = _Judge(build, errors)
    return tuple(each if each.waits else each._replace(waits=judge.waits(each)) for each in entries)


class _Judge:
    def __init__(self, build: Build, errors: set[Span]) -> None:
        self._build = build
        self._errors = errors
        self._gaps = tuple(sorted({gap.why.partition("; ")[0] for gap in build.gaps}))

    def waits(self, entry: Undetermined) -> bool:
        if entry.rule in _OF_EVERYTHING:
            return True
        return bool(entry.missing) and all(
            self._is_explained(entry.subject, each.text) for each in entry.missing
        )

    def _is_explained(self, subject: str, text: str) -> bool:
        if text.endswith(NO_ROOM):
            # In a plan with rooms, each device without one has a finding.
            return bool(self._build.rooms)
        return text.endswith((LOST_WAY, *self._gaps)) or any(
            self._is_refused(thing, text) for thing in self._things(subject, text)
        )

    def _things(self, subject: str, text: str) -> Iterator[str]:
        yield subject
        for name in _QUOTED.findall(text):
            yield from (make(name) for make in _KINDS)

    def _is_refused(self, thing: str, text: str) -> bool:
        """Whether the text speaks of a key that the plan writes of the thing, with a value that has an error finding."""
        node = self._build.provenance.node(thing)
        if not isinstance(node, Mapping):
            return False
        words = set(_WORD.findall(text))
        return any(key in words and value.span in self._errors for key, (_, value) in node.entries.items())
