"""Lists of names in a sentence."""

from collections.abc import Iterable

from firstfix.source.node import clip


def listed(names: Iterable[str], most: int = 8) -> str:
    """Quoted, in the given order; past `most` the rest is counted.

    >>> listed(["core", "attic", "shed"])
    "'core', 'attic' and 'shed'"
    >>> listed(["core", "attic", "shed"], 2)
    "'core', 'attic' and 1 more"
    """
    quoted = [f"'{clip(name)}'" for name in names]
    if len(quoted) > most:
        quoted = [*quoted[:most], f"{len(quoted) - most} more"]
    return quoted[0] if len(quoted) == 1 else f"{', '.join(quoted[:-1])} and {quoted[-1]}"
