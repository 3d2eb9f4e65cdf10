"""The nearest of the names that were possible, for a name that is not among them."""

from collections.abc import Iterable

# Comparing a wrong name with ten thousand right ones costs more than the hint is worth.
_MOST_COMPARED = 3000


def nearest(name: str, possible: Iterable[str]) -> str | None:
    """The likeliest meant name, or None where nothing is near. Ties go to the first in sorted order.

    >>> nearest("hal-camera", ["hall-camera", "yard-camera"])
    'hall-camera'
    """
    import difflib

    candidates = sorted(each for each in possible if abs(len(each) - len(name)) <= 4)[:_MOST_COMPARED]
    turned = _turned(name, candidates) if "-" in name else None
    if turned is not None:
        return turned
    found = difflib.get_close_matches(name[:80], candidates, n=1, cutoff=0.7)
    return found[0] if found else None


def _turned(name: str, candidates: Iterable[str]) -> str | None:
    """The one that has the same words in another order: `outdoor-access-point` for `access-point-outdoor`."""
    words = sorted(name.split("-"))
    return next(
        (each for each in candidates if len(each) == len(name) and sorted(each.split("-")) == words), None
    )


def nearest_word(text: str, words: Iterable[str]) -> str:
    """The nearest of a closed list of words, capitals, blanks and dashes apart; "" where none is near.

    >>> nearest_word("Buried duct", ["buried-duct", "riser"])
    'buried-duct'
    """
    known = list(words)
    plain = text.lower().strip()
    same = (
        each for each in known if each.lower().replace("-", " ") == plain.replace("-", " ").replace("_", " ")
    )
    return next(same, "") or nearest(text, known) or ""


def did_you_mean(name: str, possible: Iterable[str]) -> str:
    """A clause to end a message with, or nothing: "; did you mean 'core'?"."""
    near = nearest(name, possible)
    return f"; did you mean '{near}'?" if near else ""
