"""Untrusted text made fit for a terminal: nothing moves the cursor, no line is wider than asked for. Leaf."""

import unicodedata
from collections.abc import Iterator

# Longer than any line we print; whatever lies beyond is cut off before it costs time.
_MOST_READ = 4000


def visible(text: str) -> str:
    """`text` with all that is not plainly printable, tabs included, as an escape such as `\\t` or `\\x1b`.

    Escape sequences, line ends and marks that turn the writing direction cannot pass.

    >>> visible("a\\tb\\x1b[2J\\u202e")
    'a\\\\tb\\\\x1b[2J\\\\u202e'
    """
    if text.isprintable():
        return text
    return "".join(
        each if each.isprintable() else each.encode("unicode_escape").decode("ascii") for each in text
    )


def cells(text: str) -> int:
    """Columns that `text` takes on a terminal: wide East Asian characters take two, combining marks none.

    Source: Unicode Standard Annex 11 (wide and full-width) and general category Mn.
    """
    if text.isascii():
        return len(text)
    return sum(_cells_of(each) for each in text)


def _cells_of(character: str) -> int:
    if unicodedata.category(character) == "Mn":
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def cut(text: str, width: int) -> str:
    """`text`, visible, in at most `width` columns; what is too long ends in "…".

    >>> cut("a long way down", 8)
    'a long …'
    """
    shown = visible(text[:_MOST_READ])
    # A pile of combining marks takes no columns, so the count of characters is limited too.
    if cells(shown) <= width and len(shown) <= 2 * width:
        return shown
    return _start_of(shown, width - 1) + "…"


def _start_of(shown: str, width: int) -> str:
    used = 0
    for position, each in enumerate(shown):
        used += _cells_of(each)
        if used > width or position >= 2 * width:
            return shown[:position]
    return shown


def wrapped(text: str, width: int, most_lines: int) -> list[str]:
    """`text`, visible, broken between words into at most `most_lines` lines.

    The last line ends in "…" where more would follow.

    >>> wrapped("one two three four", 9, 2)
    ['one two', 'three…']
    """
    lines = list(_lines(visible(" ".join(text[:_MOST_READ].split())), width, most_lines + 1))
    if len(lines) <= most_lines:
        return lines
    return [*lines[: most_lines - 1], _start_of(lines[most_lines - 1], width - 1) + "…"]


def _lines(text: str, width: int, most_lines: int) -> Iterator[str]:
    line = ""
    for word in text.split(" "):
        longer = f"{line} {word}" if line else word
        if cells(longer) <= width:
            line = longer
            continue
        if line:
            yield line
            most_lines -= 1
        if most_lines <= 0:
            return
        line = cut(word, width)
    if line:
        yield line
