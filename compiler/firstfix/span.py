"""A place in a plan file. Leaf: imports nothing of ours."""

from typing import NamedTuple


class Span(NamedTuple):
    """From `line`:`column` up to, not including, `end_line`:`end_column`.

    Lines and columns count from 1, columns in characters (code points), as an editor shows them.
    `file` is the path as the user gave it, with forward slashes.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


def whole_file(file: str) -> Span:
    """The span for a fault that has no narrower place, such as an empty file."""
    return Span(file, 1, 1, 1, 1)
