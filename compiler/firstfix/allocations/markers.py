"""A merge that git could not finish, read as both of its sides: its marks, and what both sides began from, become empty lines."""

import re

_BEGIN, _BASE, _MIDDLE, _END = b"<<<<<<<", b"|||||||", b"=======", b">>>>>>>"
# Seven of them at the beginning of a line, alone or before a space: gitattributes(5), conflict-marker-size.
_MARK = re.compile(rb"^(<{7}|\|{7}|={7}|>{7})(?: .*)?$")


def both_sides(data: bytes) -> tuple[bytes, int]:
    """The file without the marks, line by line where it was, and the line of the first mark, or 0 where there is none."""
    if _BEGIN not in data:
        return data, 0
    found: list[bytes] = []
    first = 0
    in_base = False
    for number, line in enumerate(data.replace(b"\r\n", b"\n").split(b"\n"), 1):
        match = _MARK.match(line)
        if match:
            first = first or number
            in_base = match.group(1) == _BASE
        found.append(b"" if match or in_base else line)
    return b"\n".join(found), first
