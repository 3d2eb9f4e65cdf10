"""Kinds of seeded fault: a function that puts one fault into a plan, and what must be said about it.

`kinds()` gives all; each module `*_faults.py` beside adds its own by the decorator `fault`.
"""

import random
from collections.abc import Callable
from typing import NamedTuple

from seeded.page import NotHere, Page

Plant = Callable[[Page], None]
MOST_FINDINGS = 3


class Kind(NamedTuple):
    """`rules`: any of them must name a touched line, at one of `levels`. `most`: so many findings in all may follow from one fault."""

    name: str
    plant: Plant
    rules: tuple[str, ...]
    levels: tuple[str, ...]
    most: int


class Seeded(NamedTuple):
    """The plan with the fault in it, and the lines on which it may be named."""

    plan: str
    text: str
    lines: frozenset[int]


_KINDS: dict[str, Kind] = {}


def fault(*rules: str, level: str = "error", most: int = MOST_FINDINGS) -> Callable[[Plant], Plant]:
    """Registers a kind; its function's name is the kind's."""

    def registered(plant: Plant) -> Plant:
        name = plant.__name__.replace("_", "-")
        assert name not in _KINDS, name
        _KINDS[name] = Kind(name, plant, rules, tuple(level.split("|")), most)
        return plant

    return registered


def kinds() -> tuple[Kind, ...]:
    from seeded import cabinet_faults, cable_faults, logical_faults, poe_faults, text_faults, wiring_faults

    assert all((cable_faults, cabinet_faults, logical_faults, poe_faults, text_faults, wiring_faults))
    return tuple(_KINDS[name] for name in sorted(_KINDS))


def seeded(kind: Kind, seed: int, texts: dict[str, str]) -> Seeded:
    """One fault of the kind, in one of the plans that have a place for it. Same seed, same fault."""
    rng = random.Random(f"{kind.name} {seed}")  # noqa: S311 - repeatable
    for name in rng.sample(sorted(texts), len(texts)):
        page = Page(texts[name], rng)
        try:
            kind.plant(page)
        except NotHere:
            continue
        assert page.text != texts[name], kind.name
        assert page.touched, kind.name
        return Seeded(name, page.text, page.touched)
    raise AssertionError(f"no plan has a place for {kind.name}")
