"""Text out of a plan, made harmless: it stays on its line, in its table cell, and in its folder.

A plan may come from a stranger. Takes any text; gives text that shows what was written and can't act.
"""

import hashlib
import re
import unicodedata
from typing import Any

from firstfix.documents.markdown import inline

SAFE_NAME = re.compile(r"[a-z0-9-]{1,63}")
# Some systems keep these names for devices of their own, whatever the folder. From memory.
_KEPT_NAMES = re.compile(r"con|prn|aux|nul|(?:com|lpt)[0-9]")
# Control, format (turns the writing direction, joins, hides), line and paragraph separators, lone surrogates,
# private, unassigned.
_INVISIBLE = frozenset(("Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn"))


def visible(text: str) -> str:
    """`text` on one line: what can't be seen, or would end the line, is shown by its code point.

    >>> visible("a\\nb\\u202e")
    'a[U+000A]b[U+202E]'
    """
    return "".join(
        f"[U+{ord(sign):04X}]" if unicodedata.category(sign) in _INVISIBLE else sign for sign in text
    )


def markdown(text: str) -> str:
    """`text` as literal text of a Markdown line or table cell.

    >>> markdown("a|b *c*")
    'a\\\\|b \\\\*c\\\\*'
    """
    return inline(visible(text))


def printed(value: Any) -> Any:
    """`value` with each text in it made literal Markdown, through tuples and named tuples: a template can't
    forget one.
    """
    if isinstance(value, str):
        return markdown(value)
    if isinstance(value, tuple):
        inner = (printed(each) for each in value)
        return type(value)(*inner) if hasattr(value, "_fields") else tuple(inner)
    return value


def folder_name(name: str) -> str:
    """A folder for the device `name`: the name itself, or for a name that could mean something to a file
    system, its hash.

    >>> folder_name("core"), folder_name("../x").startswith("unnamed_")
    ('core', True)
    """
    if SAFE_NAME.fullmatch(name) and not _KEPT_NAMES.fullmatch(name):
        return name
    # The underscore keeps it apart from every safe name.
    return "unnamed_" + hashlib.sha256(name.encode("utf-8", "backslashreplace")).hexdigest()[:16]
