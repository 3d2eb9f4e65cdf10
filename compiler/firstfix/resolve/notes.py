"""What the passes leave behind beside their results: decisions with reasons, gaps, and where things were written."""

from collections.abc import Iterable

from firstfix.build.reasons import KEPT, WORKED_OUT, WRITTEN, Decision, Gap, Provenance
from firstfix.finding.collector import MOST_HINTS
from firstfix.plan.model import Written
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, clip
from firstfix.span import Span


class Notes:
    """Gathered over one resolve. `by` of a decision is the pass's own name."""

    def __init__(self) -> None:
        self.decisions: list[Decision] = []
        self.gaps: list[Gap] = []
        self.provenance = Provenance()
        self._hints = 0
        self._unknown: set[tuple[str, Span]] = set()

    def wrote(self, id_: str, written: Written) -> None:
        self.provenance.record(id_, written.key, written.node)

    def decide(
        self, subject: str, attribute: str, value: str, by: str, why: str, others: tuple[str, ...] = ()
    ) -> None:
        self.decisions.append(Decision(subject, attribute, value, WORKED_OUT, by, why, others))

    def honour(self, subject: str, attribute: str, value: str, by: str) -> None:
        self.decisions.append(Decision(subject, attribute, value, WRITTEN, by, "the plan says so"))

    def keep(self, subject: str, attribute: str, value: str, by: str) -> None:
        self.decisions.append(Decision(subject, attribute, value, KEPT, by, "an earlier build chose it"))

    def gap(self, rule: str, subject: str, why: str, at: Span | None) -> None:
        self.gaps.append(Gap(rule, subject, why, at))

    def unknown_name(
        self, subject: str, name: str, expected: str, known: Iterable[str], at: Span | None
    ) -> None:
        """One finding for one wrong name, however many use what is written there; the nearest of the kind expected is offered."""
        if at is not None and (expected, at) in self._unknown:
            return
        if at is not None:
            self._unknown.add((expected, at))
        # Thousands of wrong names would each be compared with thousands of right ones; the first few get the hint.
        self._hints += 1
        hint = did_you_mean(name, known) if self._hints <= MOST_HINTS else ""
        self.gap("name-unknown", subject, f"there is no {expected} '{clip(name)}'{hint}", at)


def value_span(written: Written | None, key: str) -> Span | None:
    """The place of one attribute's value, else of the thing itself."""
    if written is None:
        return None
    node: Node = written.node
    if isinstance(node, Mapping):
        found = node.value(key)
        if found is not None:
            return found.span
    return written.span
