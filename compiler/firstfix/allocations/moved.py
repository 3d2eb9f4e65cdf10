"""Which choices of one build are another in a second one. Takes the choices of both; gives those that both make, and make otherwise."""

from typing import NamedTuple

from firstfix.allocations.choices import Choice, Choices


class MovedChoice(NamedTuple):
    """`is_kept`: an earlier build had chosen it and it was kept until now."""

    about: str
    was: str
    now: str
    is_kept: bool


def moved_choices(before: Choices, after: Choices, kept: Choices) -> tuple[MovedChoice, ...]:
    """In sorted order. What only one of them has to choose has not moved: it came, went, or is written now."""
    was, now, held = _by_about(before), _by_about(after), _by_about(kept)
    return tuple(
        MovedChoice(about, was[about], now[about], about in held)
        for about in sorted(was.keys() & now.keys())
        if was[about] != now[about]
    )


def _by_about(choices: Choices) -> dict[str, str]:
    found: dict[str, str] = {}
    every: tuple[tuple[Choice, ...], ...] = choices
    for each in every:
        found |= {choice.about: choice.chosen for choice in each}
    return found
