"""Keys and values as YAML that every reader reads alike: plain where that is certain, else in double quotes."""

import re

# Begins with a letter or digit, has no colon at its end, and nothing that YAML gives a meaning to within.
_PLAIN_KEY = re.compile(r"[A-Za-z][A-Za-z0-9/@#.+_-]*(?::[A-Za-z0-9/@#.+_-]+)*")
# Words that some reader takes for something else than text (YAML 1.1, types bool and null).
_TAKEN = frozenset(("true", "false", "null", "yes", "no", "on", "off", "y", "n"))
_PLAIN_VALUE = re.compile(
    r"[0-9]{1,7}|[0-9]{1,7}(?:\.[0-9]{1,6})? (?:m|ft)|[0-9]{4}-[0-9]{2}-[0-9]{2}|pass|fail"
)
# Their values are texts whatever they look like.
_ALWAYS_QUOTED = frozenset({"as", "mac", "serial", "part", "note"})


def key_text(key: str) -> str:
    """
    >>> key_text("pull:piece/core--desk/2"), key_text("no"), key_text("12 m")
    ('pull:piece/core--desk/2', '"no"', '"12 m"')
    """
    is_plain = _PLAIN_KEY.fullmatch(key) is not None and key.lower() not in _TAKEN
    return key if is_plain else quoted(key)


def value_text(key: str, value: str) -> str:
    """The value of `key`, whose name says whether it is a text.

    >>> value_text("arrived", "12"), value_text("serial", "12")
    ('12', '"12"')
    """
    is_plain = key not in _ALWAYS_QUOTED and _PLAIN_VALUE.fullmatch(value) is not None
    return value if is_plain else quoted(value)


def quoted(text: str) -> str:
    """In double quotes; whatever cannot be printed as an escape (YAML 1.2, 7.3.1)."""
    return '"' + "".join(map(_escaped, text)) + '"'


def _escaped(character: str) -> str:
    if character in '"\\':
        return "\\" + character
    if character.isprintable():
        return character
    code = ord(character)
    return f"\\x{code:02x}" if code < 0x100 else f"\\u{code:04x}" if code < 0x10000 else f"\\U{code:08x}"
