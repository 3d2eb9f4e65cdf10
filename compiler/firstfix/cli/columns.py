"""Rows in columns for people: all but the last as wide as needed, the last broken under itself."""

from collections.abc import Iterator, Sequence

from firstfix.finding.fit import cells, wrapped

_WIDTH = 110
_MOST_LINES = 3


def columns(rows: Sequence[tuple[str, ...]], indent: str = "") -> str:
    return "".join(f"{line}\n" for line in _lines(rows, indent))


def _lines(rows: Sequence[tuple[str, ...]], indent: str) -> Iterator[str]:
    count = max(map(len, rows), default=1) - 1
    widths = [max(cells(row[column]) for row in rows) for column in range(count)]
    for *names, last in rows:
        padded = (name + " " * (width - cells(name) + 2) for name, width in zip(names, widths, strict=True))
        opening = indent + "".join(padded)
        broken = wrapped(last, _WIDTH - cells(opening), _MOST_LINES) or [""]
        yield (opening + broken[0]).rstrip()
        yield from (" " * cells(opening) + line for line in broken[1:])
