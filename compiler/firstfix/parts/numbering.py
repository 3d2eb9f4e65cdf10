"""Jack names and ranges of them: "3", "1-8", "sfp1-sfp2"."""

import re

_RANGE = re.compile(r"([a-z]*)(\d{1,4})-(?:([a-z]*)(\d{1,4}))")
_ONE = re.compile(r"[a-z]+\d{0,4}|\d{1,4}")
MOST_JACKS = 1024


def jack_names(text: str) -> tuple[str, ...] | None:
    """The jacks that a name or a range stands for, in order; None where the text is neither.

    >>> jack_names("1-3"), jack_names("sfp1-sfp2"), jack_names("uplink"), jack_names("3-1")
    (('1', '2', '3'), ('sfp1', 'sfp2'), ('uplink',), None)
    """
    if _ONE.fullmatch(text):
        return (text.lstrip("0") or "0",) if text.isdigit() else (text,)
    match = _RANGE.fullmatch(text)
    if match is None:
        return None
    prefix, first, second_prefix, last = match.groups()
    if second_prefix not in ("", prefix) or int(last) < int(first) or int(last) - int(first) >= MOST_JACKS:
        return None
    return tuple(f"{prefix}{number}" for number in range(int(first), int(last) + 1))
