"""An explanation as data: short sections of lines, the most asked first. The text that people read is made of it by the command."""

from typing import NamedTuple

from firstfix.span import Span


class Line(NamedTuple):
    """`what` is `value`.

    `origin`: written, kept or worked out (build.reasons), the basis of a figure (parts.facts), or "" where neither is asked.
    `why`: in a few words. `at`: where the author wrote it. `others`: what was possible too.
    """

    what: str
    value: str
    origin: str = ""
    why: str = ""
    at: Span | None = None
    others: tuple[str, ...] = ()


class Section(NamedTuple):
    title: str
    lines: tuple[Line, ...]


class Explanation(NamedTuple):
    """One thing that a name means. `id` is the build's; `kind` a word such as device; `at` where it is written."""

    id: str
    kind: str
    title: str
    at: Span | None
    sections: tuple[Section, ...]
