"""What the passes leave behind beside their results: decisions with reasons, gaps, and where things were written."""

from collections.abc import Iterable

from firstfix.build import ids
from firstfix.build.reasons import KEPT, WORKED_OUT, WRITTEN, Decision, Gap, Provenance
from firstfix.finding.collector import MOST_HINTS
from firstfix.plan.model import Written
from firstfix.resolve.other_names import OtherNames
from firstfix.source.nearest import nearest
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip
from firstfix.span import Span

# So many names that there are stand in a message, where none is near.
_FEW = 6


class Notes:
    """Gathered over one resolve. `by` of a decision is the pass's own name."""

    def __init__(self, in_doubt: frozenset[str] = frozenset(), others: OtherNames | None = None) -> None:
        self.decisions: list[Decision] = []
        self.gaps: list[Gap] = []
        self.provenance = Provenance()
        self.in_doubt = in_doubt
        # Names that somebody probably meant where another one stands.
        self.meant: set[str] = set()
        # Whether a way is missing that the plan declares.
        self.has_lost_way = False
        self._others = others
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

    def gap(self, rule: str, subject: str, why: str, at: Span | None, instead: str = "") -> None:
        self.gaps.append(Gap(rule, subject, why, at, instead))

    def doubtful(self, devices: Iterable[str]) -> frozenset[str]:
        """Those of the devices (ids) that a value at fault names or was meant to name."""
        doubted = self.in_doubt | self.meant
        return frozenset(each for each in devices if ids.path(each) in doubted) if doubted else frozenset()

    def unknown_name(
        self, subject: str, name: str, expected: str, known: Iterable[str], at: Span | None, written: str = ""
    ) -> None:
        """One finding for one wrong name, however many use what is written there; the nearest of the kind expected is offered.

        `written`: all that stands at `at`, if that is more than the name. A name that stands in what was left out for a fault
        has its finding there.
        """
        if name in self.in_doubt:
            return
        if at is not None and (expected, at) in self._unknown:
            return
        if at is not None:
            self._unknown.add((expected, at))
        # Thousands of wrong names would each be compared with thousands of right ones; the first few get the hint.
        self._hints += 1
        hint, near = self._hint(name, expected, known) if self._hints <= MOST_HINTS else ("", "")
        written = written or name
        is_all = at is not None and at.end_line == at.line and at.end_column - at.column == len(written)
        instead = written.replace(name, near, 1) if near and is_all else ""
        self.gap("name-unknown", subject, f"there is no {expected} '{clip(name)}'{hint}", at, instead)

    def _hint(self, name: str, expected: str, known: Iterable[str]) -> tuple[str, str]:
        """A clause on what was meant, and the nearest name of the kind expected, if that is it."""
        self.meant.add(name)
        clause = "" if self._others is None else self._others.clause(name, expected)
        # Thousands of names are parts, so that may be chance.
        if clause and clause != f"; '{name}' is a part":
            return clause, ""
        possible = sorted(set(known))
        near = nearest(name, possible) or ""
        if clause:
            self.meant |= {near} if near else set()
            return (f"; did you mean '{near}'? ({clause.removeprefix('; ')})", near) if near else (clause, "")
        if not near:
            few = 0 < len(possible) <= _FEW
            return f"; there {'are' if len(possible) > 1 else 'is'} {_listed(possible)}" if few else "", ""
        self.meant.add(near)
        return f"; did you mean '{near}'?", near


def _listed(names: list[str]) -> str:
    return ", ".join(f"'{clip(each)}'" for each in names)


def named_span(written: Written | None, key: str, name: str) -> Span | None:
    """The place of one name in the list at `key`, else that of the whole value."""
    node = written.node.value(key) if written is not None and isinstance(written.node, Mapping) else None
    if isinstance(node, Sequence):
        for item in node.items:
            if isinstance(item, Scalar) and item.text == name:
                return item.span
    return value_span(written, key)


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
