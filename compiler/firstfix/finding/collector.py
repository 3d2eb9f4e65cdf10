"""The one place where faults of a plan file come into being, so that none can lack its file, line and kind."""

from firstfix.finding.kinds import Kind
from firstfix.finding.model import Cure, Finding, Label
from firstfix.span import Span

# Finding the nearest of thousands of names takes tens of milliseconds; the first few wrong ones get that hint.
MOST_HINTS = 40
# A hostile file can hold a million faults; nobody reads past the first few hundred.
MOST_FAULTS = 300


class Collector:
    """Gathers the faults of one run. After `MOST_FAULTS` it only counts: see `dropped`.

    A fault in what is read several times over (an alias, a series) is one fault.
    """

    def __init__(self) -> None:
        self.findings: list[Finding] = []
        self.dropped = 0
        # Names within what was left out for a fault: nothing is to be concluded from their absence.
        self.in_doubt: set[str] = set()
        self._known: set[tuple[str, str, Span]] = set()
        self._hints = 0

    def may_hint(self) -> bool:
        """Whether a wrong name may still be compared with the right ones; asking counts."""
        self._hints += 1
        return self._hints <= MOST_HINTS

    def add(
        self,
        kind: Kind,
        message: str,
        at: Span,
        subject: str = "",
        related: tuple[Label, ...] = (),
        cures: tuple[Cure, ...] = (),
    ) -> None:
        if (kind.id, message, at) in self._known:
            return
        if len(self.findings) >= MOST_FAULTS:
            self.dropped += 1
            return
        self._known.add((kind.id, message, at))
        self.findings.append(
            Finding(kind.id, kind.level, message, subject, at, kind.basis, related, None, cures)
        )
