"""The work as bars over its days: a row for each room, then one for each kind of work, both in the order in which they begin.

Bars in the longest chain are filled dark, all others pale with an outline; what has to wait for its parts
has a mark at its left end. Interruptions of the running network have the first row. Long work takes several sheets.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.page import FOOT, HEAD, page
from firstfix.documents.drawing.kit.palette import (
    ALARM,
    BAND,
    COPPER,
    INK,
    PAPER,
    QUIET,
    SMALL_SIZE,
    TEXT_SIZE,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.schedule.words import begins, day_words, ends, hands, time_words
from firstfix.schedule.model import Planned, Schedule
from firstfix.work.model import Task
from firstfix.work.stage_rules import TITLES

_ROW, _TOP, _FOOT = 11.5, 26.0, 24.0
_NAMES, _TIMES = 215.0, 46.0
_BAR = 7.5
_THINNEST = 1.4
_SHEET = palette.SHEET_SHORT - 2 * palette.MARGIN - HEAD - FOOT - 2 * _FOOT
_CHAIN, _OTHER, _CUT = "chain", "other", "cut"
_ANYWHERE = "anywhere"


class Bar(NamedTuple):
    """In minutes of working time. `kind` is one of the words above; `waits` for its parts."""

    start: int
    finish: int
    kind: str
    waits: bool = False


class Row(NamedTuple):
    """A row without bars is a heading."""

    name: str
    minutes: int
    bars: tuple[Bar, ...]


def bar_charts(
    build: Build, ordered: Sequence[Task], schedule: Schedule, prefix: str = ""
) -> tuple[Drawing, ...]:
    """One drawing for each sheet, at least one if there is any step; `prefix` starts every id in them."""
    found = rows(build, ordered, schedule)
    most = int((_SHEET - _TOP) / _ROW)
    sheets = [found[first : first + most] for first in range(0, len(found), most)]
    return tuple(
        _sheet(build, schedule, sheet, number, len(sheets), prefix) for number, sheet in enumerate(sheets, 1)
    )


def rows(build: Build, ordered: Sequence[Task], schedule: Schedule) -> list[Row]:
    """What is interrupted, if anything is; the rooms; the kinds of work."""
    stages = {task.id: task.stage for task in ordered}
    rooms: dict[str, list[Planned]] = {}
    kinds: dict[str, list[Planned]] = {}
    for step in schedule.steps:
        name = build.rooms[step.room].name if step.room in build.rooms else _ANYWHERE
        rooms.setdefault(name, []).append(step)
        kinds.setdefault(TITLES[stages[step.id]], []).append(step)
    chain = frozenset(schedule.chain)
    cut = tuple(Bar(each.start, each.finish, _CUT) for each in schedule.outages)
    found = (
        [Row("Running network interrupted", sum(bar.finish - bar.start for bar in cut), cut)] if cut else []
    )
    for heading, groups in (("Where", rooms), ("What", kinds)):
        found.append(Row(heading, 0, ()))
        for name, steps in groups.items():
            found.append(Row(name, sum(each.minutes for each in steps), tuple(_bars(steps, chain))))
    return found


def _bars(steps: Iterable[Planned], chain: frozenset[str]) -> Iterator[Bar]:
    """By kind, the longest chain last, so that it lies on top. Steps of one kind without a gap between them are one bar."""
    by_kind: dict[str, list[Planned]] = {_OTHER: [], _CHAIN: []}
    for step in steps:
        by_kind[_CHAIN if step.id in chain else _OTHER].append(step)
    for kind, mine in by_kind.items():
        yield from _joined(kind, sorted(mine, key=lambda each: (each.start, each.finish)))


def _joined(kind: str, steps: Iterable[Planned]) -> Iterator[Bar]:
    pending: Bar | None = None
    for step in steps:
        if pending is not None and step.start <= pending.finish and not step.waits_for_parts:
            pending = pending._replace(finish=max(pending.finish, step.finish))
            continue
        if pending is not None:
            yield pending
        pending = Bar(step.start, step.finish, kind, step.waits_for_parts)
    if pending is not None:
        yield pending


def _sheet(
    build: Build, schedule: Schedule, found: Sequence[Row], number: int, of: int, prefix: str
) -> Drawing:
    name = "work" if of == 1 else f"work-{number}"
    title = f"{build.name or 'Network'}: the work by days"
    done = f"done on {ends(schedule, schedule.finish)}"
    note = f"sheet {number} of {of}" if of > 1 else ""
    chart, samples = _chart(schedule, found), strip(_key(found), palette.SHEET_INNER)
    return page(
        name, prefix, title, f"{hands(schedule)}; {done}", note, _in_words(schedule, found), (chart, samples)
    )


def _in_words(schedule: Schedule, found: Sequence[Row]) -> str:
    """The chart for who cannot see it."""
    texts = []
    for row in (each for each in found if each.bars):
        first, last = min(bar.start for bar in row.bars), max(bar.finish for bar in row.bars)
        days = dict.fromkeys((begins(schedule, first), ends(schedule, last)))
        texts.append(f"{row.name}: {time_words(row.minutes)}, {' to '.join(days)}")
    return f"Bars over the days of work, by room and by kind of work. {'; '.join(texts)}."


class _Scale(NamedTuple):
    """Minutes to points."""

    left: float
    width: float
    minutes: int

    def x(self, minute: int) -> float:
        return self.left + self.width * minute / self.minutes


def _chart(schedule: Schedule, found: Sequence[Row]) -> Picture:
    height = _TOP + _ROW * len(found)
    days = schedule.last_day(schedule.finish) + 1
    scale = _Scale(_NAMES + _TIMES, palette.SHEET_INNER - _NAMES - _TIMES, days * schedule.day)
    parts = [*_heads(schedule, scale, days, height)]
    for number, row in enumerate(found):
        parts.append(_row(row, _TOP + number * _ROW, scale))
    parts.append(svg.hair(0, height, palette.SHEET_INNER, height))
    return Picture("".join(parts), palette.SHEET_INNER, height)


def _heads(schedule: Schedule, scale: _Scale, days: int, height: float) -> Iterator[str]:
    """Names of days as far as they fit; a line at each night, as long as the lines stay apart."""
    yield svg.text(_NAMES + _TIMES - 8, 20, "In all", SMALL_SIZE, is_bold=True, colour=QUIET, anchor="end")
    wide = scale.width / days
    name = max(font.width(line, SMALL_SIZE) for line in _day_lines(schedule, days - 1)) + 6
    every = max(1, -int(-name // wide))
    for index in range(0, days, every):
        x = scale.x(index * schedule.day)
        yield svg.hair(x, 4, x, height)
        lines = _day_lines(schedule, index) if x + name <= scale.left + scale.width + 4 else ()
        for place, line in enumerate(lines):
            yield svg.text(x + 2.5, 11 + 9 * place, line, SMALL_SIZE, colour=QUIET)
    if every > 1 and wide >= 4:
        for index in range(days):
            x = scale.x(index * schedule.day)
            yield svg.hair(x, _TOP - 3, x, height)
    yield svg.hair(scale.left + scale.width, 4, scale.left + scale.width, height)


def _day_lines(schedule: Schedule, index: int) -> tuple[str, str]:
    day = schedule.days[index]
    weekday, _, date = day_words(day).partition(" ")
    return (weekday, date)


def _row(row: Row, top: float, scale: _Scale) -> str:
    base = top + 8.6
    if not row.bars:
        return svg.text(0, base, row.name, TEXT_SIZE, is_bold=True)
    times = time_words(row.minutes)
    return svg.group(
        f"{row.name}, {times}",
        svg.hair(0, top, palette.SHEET_INNER, top, palette.FIELD),
        svg.text(0, base, row.name, TEXT_SIZE, room=_NAMES - 8),
        svg.text(_NAMES + _TIMES - 8, base, times, SMALL_SIZE, colour=QUIET, anchor="end"),
        *(_bar(bar, scale.x(bar.start), scale.x(bar.finish), top + 2) for bar in row.bars),
    )


def _bar(bar: Bar, left: float, right: float, top: float) -> str:
    width = max(_THINNEST, right - left)
    mark = _waiting(left, top) if bar.waits else ""
    if bar.kind == _CUT:
        return svg.rect(
            left, top, max(width, 3), _BAR, fill=PAPER, stroke=ALARM, weight=1.2, dash=palette.ALARM_DASH
        )
    if bar.kind == _CHAIN:
        return mark + svg.rect(left, top, width, _BAR, fill=COPPER, stroke=COPPER, weight=0.5)
    return mark + svg.rect(left, top, width, _BAR, fill=BAND, stroke=INK, weight=0.6)


def _waiting(x: float, top: float) -> str:
    """A triangle whose point touches the bar's beginning."""
    middle = top + _BAR / 2
    corners = f"M{svg.number(x - 6)} {svg.number(top)}L{svg.number(x)} {svg.number(middle)}L{svg.number(x - 6)} {svg.number(top + _BAR)}Z"
    return svg.element("path", d=corners, fill=PAPER, stroke=INK, stroke_width=0.8)


def _key(found: Sequence[Row]) -> list[tuple[str, float, str]]:
    """What is on this sheet."""
    kinds = {bar.kind for row in found for bar in row.bars}
    waits = any(bar.waits for row in found for bar in row.bars)
    samples = {
        _CHAIN: (svg.rect(0, 3, 22, 9, fill=COPPER, stroke=COPPER, weight=0.5), "in the longest chain of steps that wait for each other"),
        _OTHER: (svg.rect(0, 3, 22, 9, fill=BAND, stroke=INK, weight=0.6), "other work"),
        _CUT: (svg.rect(0, 3, 22, 9, stroke=ALARM, weight=1.2, dash=palette.ALARM_DASH), "something in use is cut off"),
    }  # fmt: skip
    shown = [(markup, 22.0, words) for kind, (markup, words) in samples.items() if kind in kinds]
    return shown + ([(_waiting(8, 3.5), 10.0, "begins when its parts come")] if waits else [])
