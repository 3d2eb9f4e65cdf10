"""What a rule is: a function over the build, registered with its id, level and basis; its docstring is the help."""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Basis, Cure, Finding, Label, Level, Measurement, Undetermined
from firstfix.rules.typical import in_terms
from firstfix.span import Span


class Fine(NamedTuple):
    """The subject was examined and nothing is wrong with it."""

    subject: str


class FineMany(NamedTuple):
    """So many further subjects were examined and nothing is wrong with any of them."""

    count: int  # type: ignore[assignment]  # what it is; tuple.count is not used


Outcome = Fine | FineMany | Finding | Undetermined
Check = Callable[[Build], Iterator[Outcome]]


class Rule(NamedTuple):
    """`check` yields exactly one or more outcomes for each subject it examines: fine, finding, or cannot tell."""

    kind: Kind
    check: Check

    def finding(
        self,
        message: str,
        subject: str,
        at: Span | None,
        related: tuple[Label, ...] = (),
        measurement: Measurement | None = None,
        cures: tuple[Cure, ...] = (),
        level: Level | None = None,
        basis: Basis | None = None,
    ) -> Finding:
        # Whatever a rule measures, a summand that is a typical figure is named as such; a rule adds what else it rests on.
        related = (*related, *(each for each in in_terms(measurement) if each not in related))
        return Finding(
            self.kind.id, level or self.kind.level, message, subject, at, basis or self.kind.basis, related, measurement, cures
        )  # fmt: skip

    def waits(self, subject: str, at: Span | None, *missing: str) -> Undetermined:
        """Cannot tell for a fault that has a finding of its own."""
        return self.cannot_tell(subject, at, *missing)._replace(waits=True)

    def cannot_tell(self, subject: str, at: Span | None, *missing: str) -> Undetermined:
        return Undetermined(self.kind.id, subject, at, tuple(Label(None, text) for text in missing))


def rule(id: str, level: Level, basis: Basis) -> Callable[[Check], Rule]:
    """Makes a rule of a check. The docstring's first line says what is checked; headings: Because, Compares, Skips, Cannot tell, Remedy."""

    def wrap(check: Check) -> Rule:
        return Rule(Kind(id, level, check.__doc__ or "", basis), check)

    return wrap
