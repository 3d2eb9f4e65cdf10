"""What somebody must be able to answer who sees only the sheets of a plan: twenty questions for each of three plans.

Kept beside this as PLAN.yaml: what is asked (`ask`), the answer, other wordings that count as right (`also`), the texts that tell it on
a sheet (`reads`, the answer itself where it is left out) and the name of the thing asked about (`about`), which stand together on one
sheet for each name of `sheets` (with * for the rest of a name); and `from`: the function of `truths` that works the answer out of the
build, with its arguments.

`python tests/reader/questions.py school` prints the bare questions for the reader.
"""

import sys
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import yaml

HERE = Path(__file__).parent
NAMES = ("honey-farm", "rowing-club", "school")
_KEYS = frozenset(("ask", "answer", "also", "reads", "about", "sheets", "from"))
_LISTS = ("also", "reads", "sheets", "from")


class Question(NamedTuple):
    plan: str
    number: int
    ask: str
    answer: str
    also: tuple[str, ...]
    reads: tuple[str, ...]
    about: str
    sheets: tuple[str, ...]
    truth: str
    given: tuple[str, ...]

    @property
    def id(self) -> str:
        return f"{self.plan} {self.number}"


@cache
def questions(plan: str) -> tuple[Question, ...]:
    """In the order in which they are asked. Raises ValueError for a key that isn't known, and for what is no text."""
    entries = yaml.safe_load((HERE / f"{plan}.yaml").read_text(encoding="utf-8"))
    return tuple(_question(plan, number, entry) for number, entry in enumerate(entries, 1))


def _question(plan: str, number: int, entry: dict[str, Any]) -> Question:
    if unknown := entry.keys() - _KEYS:
        raise ValueError(f"{plan} {number} has {', '.join(sorted(unknown))}, which no question has")
    truth, *given = entry["from"]
    said = (
        entry["ask"],
        entry["answer"],
        entry["about"],
        *(each for key in _LISTS for each in entry.get(key, ())),
    )
    if not all(isinstance(each, str) for each in said):
        raise ValueError(f"{plan} {number} holds a number without quotes")
    return Question(
        plan,
        number,
        entry["ask"],
        entry["answer"],
        tuple(entry.get("also", ())),
        tuple(entry.get("reads", (entry["answer"],))),
        entry["about"],
        tuple(entry["sheets"]),
        truth,
        tuple(given),
    )


if __name__ == "__main__":
    for each in questions(sys.argv[1]):
        sys.stdout.write(f"{each.number}. {each.ask}\n")
