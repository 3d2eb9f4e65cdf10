"""Kinds of findings: what an id means, on which level and basis, and the help that `explain` prints."""

from typing import NamedTuple

from firstfix.finding.model import PLAN_LANGUAGE, Basis, Level


class Kind(NamedTuple):
    """One kind of finding. `help` has the headings of a rule's docstring: Because, Compares, Cannot tell, Remedy, Example."""

    id: str
    level: Level
    help: str
    basis: Basis = PLAN_LANGUAGE

    @property
    def summary(self) -> str:
        return self.help.strip().split("\n", 1)[0]


def error(id: str, help: str) -> Kind:
    return Kind(id, Level.ERROR, help)


def warning(id: str, help: str) -> Kind:
    return Kind(id, Level.WARNING, help)
