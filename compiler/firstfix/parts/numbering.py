"""Jack names and ranges of them: "3", "1-8", "sfp1-sfp2"."""

import re
from functools import lru_cache

# [0-9], since \d takes the digits of every script, which then look alike and compare as different.
_RANGE = re.compile(r"([a-z]*)([0-9]{1,4})-([a-z]*)([0-9]{1,4})")
_ONE = re.compile(r"([a-z]*)([0-9]{1,4})|[a-z]+")
MOST_JACKS = 1024


@lru_cache(maxsize=65536)
def jack_names(text: str) -> tuple[str, ...] | None:
    """The jacks that a name or a range stands for, in order; None where the text is neither.

    >>> jack_names("1-3"), jack_names("sfp1-sfp2"), jack_names("uplink"), jack_names("3-1")
    (('1', '2', '3'), ('sfp1', 'sfp2'), ('uplink',), None)
    """
    one = _ONE.fullmatch(text)
    if one is not None:
        return (text if one.group(2) is None else f"{one.group(1)}{int(one.group(2))}",)
    match = _RANGE.fullmatch(text)
    if match is None:
        return None
    prefix, first, second_prefix, last = match.groups()
    if second_prefix not in ("", prefix) or int(last) < int(first) or int(last) - int(first) >= MOST_JACKS:
        return None
    return tuple(f"{prefix}{number}" for number in range(int(first), int(last) + 1))
