"""A plan's words as Markdown that shows them and does nothing else: no markup, HTML, link or second line.

CommonMark 0.31.2, section 2.4 (backslash escapes) and 6.6 (raw HTML passes through); tables and their
pipes, task lists and bare links are extensions that many readers have.
"""

import re

# What starts emphasis, code, links, HTML, entities, a table cell or a struck-out text, wherever it stands
# in a line.
_ANYWHERE = re.compile(r"([\\`*_\[\]<>|~&@])")
# What turns a line into a heading, a list, a quotation, a rule or a code fence, at its start only.
_AT_START = re.compile(r"^(?:([#+=-])|(\d{1,9})([.)])(?=\s|$))")
# What some readers make a link of although nothing marks it.
_BARE_LINK = re.compile(r"(:)(?=//)|(?<=\bwww)(\.)", re.IGNORECASE)
_BREAKS = re.compile(r"[\s\x00-\x1f\x7f-\x9f\u2028\u2029]+")


def inline(text: object) -> str:
    """`text` on one line, fit for a paragraph, a list item or a cell of a table.

    >>> inline("a|b <i>*c*")
    'a\\\\|b \\\\<i\\\\>\\\\*c\\\\*'
    """
    line = _ANYWHERE.sub(r"\\\1", _BREAKS.sub(" ", str(text)).strip())
    line = _BARE_LINK.sub(r"\\\1\2", line)
    return _AT_START.sub(lambda match: f"\\{match[1]}" if match[1] else f"{match[2]}\\{match[3]}", line)
