"""Random slips in a plan's values: a key left out, misspelt or moved, a value of another kind, a list of one too many."""

import copy
import random
from collections.abc import Callable, Iterator
from typing import Any

# One of each kind that YAML has, and texts that are right somewhere else.
VALUES: tuple[Any, ...] = (
    None, True, False, 0, 1, -1, 7, 2.5, 99999, "", "text", "Big Text", "3 m", "-3 m", "12 W", "2U", "1 Gb/s", "20 °C",
    "green", "unknown", "core", "core/3", "core/1-8", "cam-1..4", "2027-03-01", "10.0.0.0/24", "none", "a/b/c", "1-8", [],
    {}, [1], ["core"], ["a", "b"], ["a", "b", "c"], [None], [[]], {"a": 1}, {"x-a": 1}, {"most": "3 m"}, {"class": 3},
)  # fmt: skip
# The ones that tell most, for where there are many places to try them.
FEW_VALUES: tuple[Any, ...] = (
    None,
    True,
    -1,
    2.5,
    7,
    "",
    "Big Text",
    "3 m",
    "core/3",
    "unknown",
    [None],
    ["a", "b"],
    {},
    {"a": 1},
)

Place = tuple[Any, Any]


def places(value: Any) -> Iterator[Place]:
    """Each container of the tree with each of its keys or indexes."""
    entries = (
        value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    )
    for key, below in entries:
        yield value, key
        yield from places(below)


def mutated(plan: Any, source: random.Random) -> Any:
    """A copy of `plan` with one slip in it."""
    made = copy.deepcopy(plan)
    spots = list(places(made))
    holder, key = source.choice(spots)
    source.choice(_SLIPS)(holder, key, spots, source)
    return made


def _leave_out(holder: Any, key: Any, _spots: list[Place], _source: random.Random) -> None:
    del holder[key]


def _misspell(holder: Any, key: Any, _spots: list[Place], source: random.Random) -> None:
    if isinstance(holder, dict):
        at = source.randrange(len(key))
        holder[key[:at] + source.choice(("", "q", "-", "X", "_", "9")) + key[at + 1 :]] = holder.pop(key)


def _another_kind(holder: Any, key: Any, _spots: list[Place], source: random.Random) -> None:
    holder[key] = copy.deepcopy(source.choice(VALUES))


def _from_elsewhere(holder: Any, key: Any, spots: list[Place], source: random.Random) -> None:
    other, at = source.choice(spots)
    holder[key] = copy.deepcopy(other[at])


def _key_from_elsewhere(holder: Any, key: Any, spots: list[Place], source: random.Random) -> None:
    other, at = source.choice(spots)
    if isinstance(holder, dict) and isinstance(other, dict):
        holder[at] = copy.deepcopy(other[at])


def _in_a_list(holder: Any, key: Any, _spots: list[Place], _source: random.Random) -> None:
    holder[key] = [holder[key]]


def _twice(holder: Any, key: Any, _spots: list[Place], _source: random.Random) -> None:
    if isinstance(holder, list):
        holder.insert(key, copy.deepcopy(holder[key]))


def _one_letter(holder: Any, key: Any, _spots: list[Place], source: random.Random) -> None:
    text = holder[key]
    if isinstance(text, str) and text:
        at = source.randrange(len(text))
        holder[key] = text[:at] + source.choice("aZ0 -./_°") + text[at + source.randrange(2) :]


_SLIPS: tuple[Callable[[Any, Any, list[Place], random.Random], None], ...] = (
    _leave_out, _misspell, _another_kind, _another_kind, _another_kind, _from_elsewhere, _key_from_elsewhere, _in_a_list,
    _twice, _one_letter, _one_letter,
)  # fmt: skip
