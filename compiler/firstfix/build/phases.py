"""The stages in which a network is built, in their order. What names no phase is there before the first."""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from firstfix.build.ids import NaturalKey, natural
from firstfix.parts.facts import Figure, Unknown


class Phase(NamedTuple):
    """`by`: a day as text, or "". `budget` in the plan's currency."""

    name: str
    by: str = ""
    budget: Figure = Unknown("the plan does not say")


def ranks(phases: Iterable[Phase]) -> Mapping[str, int]:
    """A phase's place in the order; "", what is there before all of them, is 0.

    >>> ranks([Phase("spring"), Phase("autumn")])
    {'': 0, 'spring': 1, 'autumn': 2}
    """
    return {"": 0} | {phase.name: place for place, phase in enumerate(phases, 1)}


class PhaseKey:
    """A sort key for names of phases: "" first, then those of the build in their order, then any other by its name."""

    def __init__(self, phases: Iterable[Phase]) -> None:
        self._ranks = ranks(phases)

    def __call__(self, name: str) -> tuple[int, NaturalKey]:
        rank = self._ranks.get(name)
        return (len(self._ranks), natural(name)) if rank is None else (rank, ())
