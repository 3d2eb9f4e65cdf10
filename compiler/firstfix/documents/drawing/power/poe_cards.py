"""What a source of PoE is shown with: its budget, what is counted of it, and a row for each device that it feeds."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.power import PowerRun, PowerSource
from firstfix.documents.drawing.kit.palette import BETWEEN
from firstfix.documents.drawing.power.figures import most_of, percent, share, watts_of
from firstfix.graphs.consumption import Spread, at_source, drawn_at_sink
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import metres, number, watts


class FedRow(NamedTuple):
    """One device fed from `jack`. `classes`, `metres`, watts in words: `at_device` it may take, `draws` there, `at_source` what that
    makes there, `counted` of the budget; `usual`, `most`, `reserved` the same in watts, infinite where not known. `of_granted`:
    its draw as usual and at the most, as shares of what it may take."""

    jack: str
    name: str
    where: str
    classes: str
    pairs: str
    metres: str
    at_device: str
    draws: str
    at_source: str
    counted: str
    usual: float
    most: float
    reserved: float
    of_granted: tuple[float, float] | None

    @property
    def hint(self) -> str:
        return (
            f"jack {self.jack} feeds {self.name} ({self.where}): {self.classes} over {self.pairs} pairs and {self.metres},"
            f" granted {self.at_device}, draws {self.draws}, {self.at_source} at the source, counted {self.counted}"
        )


class Card(NamedTuple):
    """`depth`: how many cascades above it, 0 for one that the mains feed. `budget` in watts, infinite where not known."""

    name: str
    said: str
    fed_by: str
    summary: str
    depth: int
    budget: float
    rows: tuple[FedRow, ...]


def cards(build: Build) -> tuple[Card, ...]:
    """Sources that feed something, by name, each followed by the sources that it feeds."""
    ordered = sorted(build.power_sources.values(), key=lambda source: natural(source.device))
    below: dict[str, list[PowerSource]] = {}
    tops: list[PowerSource] = []
    for source in ordered:
        run = build.power_runs.get(source.fed_by)
        (below.setdefault(build.jacks[run.source].device, []) if run else tops).append(source)
    found: list[Card] = []
    seen: set[str] = set()

    def walk(source: PowerSource, depth: int) -> None:
        if source.device in seen:
            return
        seen.add(source.device)
        if source.runs:
            found.append(_card(build, source, depth))
        for each in below.get(source.device, ()):
            walk(each, depth + 1)

    for source in (*tops, *ordered):
        walk(source, 0)
    return tuple(found)


def idle(build: Build) -> tuple[str, ...]:
    """Names of the sources that feed nothing."""
    found = (ids.path(source.device) for source in build.power_sources.values() if not source.runs)
    return tuple(sorted(found, key=natural))


def _card(build: Build, source: PowerSource, depth: int) -> Card:
    device = build.devices[source.device]
    room = build.rooms.get(device.room)
    runs = sorted((build.power_runs[each] for each in source.runs), key=lambda run: natural(run.source))
    budget = source.budget.low if isinstance(source.budget, Fact) else math.inf
    return Card(
        device.name,
        BETWEEN.join((device.part.title, room.name if room else "room not known")),
        _fed_by(build, source),
        _summary(source),
        depth,
        budget,
        tuple(_row(build, run) for run in runs),
    )


def _fed_by(build: Build, source: PowerSource) -> str:
    run = build.power_runs.get(source.fed_by)
    if run is None:
        return f"fed by the mains{_in_line(build, source)}"
    giver, jack = build.devices[build.jacks[run.source].device].name, build.jacks[run.source].name
    granted = watts_of(run.granted.typical) if isinstance(run.granted, Fact) else "? W"
    return f"fed by PoE from {giver}/{jack}, {_class(run.assigned)}: {granted} arrive at the most"


def _in_line(build: Build, source: PowerSource) -> str:
    """Of an injector in a channel: behind which jack it stands."""
    runs = [build.power_runs[each] for each in source.runs]
    channels = [build.channels[run.channel] for run in runs if run.channel in build.channels]
    if not channels or source.device not in channels[0].through:
        return ""
    near, far = channels[0].ends
    behind = build.jacks[far if near == runs[0].sink else near]
    return f", in line behind {build.devices[behind.device].name}/{behind.name}"


def _summary(source: PowerSource) -> str:
    counted = f"counted by {'what is drawn and lost' if source.counts == 'draw' else source.counts}"
    given = watts_of(source.budget.low) if isinstance(source.budget, Fact) else "? W"
    left, part_left = source.left, source.left_share
    if isinstance(left, Unknown):
        return f"{most_of(source.taken)} of {given} {counted}; what is left cannot be told: {left.why}"
    part = f" ({percent(part_left.low)})" if isinstance(part_left, Fact) else ""
    return f"{most_of(source.taken)} of {given} {counted}; {watts_of(left.low)}{part} left"


def _class(figure: Figure) -> str:
    return f"class {number(figure.typical)}" if isinstance(figure, Fact) else "class not known"


def _row(build: Build, run: PowerRun) -> FedRow:
    sink = build.devices[build.jacks[run.sink].device]
    room = build.rooms.get(sink.room)
    fed = build.devices.get(run.feeds)
    spread, drawn = at_source(build, run), drawn_at_sink(build, run)
    is_known = isinstance(run.drawn, Fact)
    return FedRow(
        build.jacks[run.source].name,
        f"{sink.name} for {fed.name}" if fed else sink.name,
        room.name if room else "room not known",
        _classes(run),
        str(run.pairs),
        _metres(build, run),
        watts(run.granted.low) if isinstance(run.granted, Fact) else "? W",
        f"{number(drawn.usual, 1)} / {number(drawn.most, 1)} W" if is_known else "? W",
        f"{number(spread.usual, 1)} / {number(spread.most, 1)} W" if is_known else "? W",
        most_of(run.reserved),
        spread.usual,
        spread.most if is_known else math.inf,
        run.reserved.high if isinstance(run.reserved, Fact) else math.inf,
        _of_granted(run, drawn),
    )


def _of_granted(run: PowerRun, drawn: Spread) -> tuple[float, float] | None:
    """Usual and greatest draw as shares of what the class lets it have; None where one is not known."""
    if not isinstance(run.drawn, Fact) or not isinstance(run.granted, Fact) or run.granted.low <= 0:
        return None
    return share(drawn.usual, run.granted.low), share(drawn.most, run.granted.low)


def _classes(run: PowerRun) -> str:
    asked, assigned = _class(run.asked), _class(run.assigned)
    if isinstance(run.granted, Fact) and run.granted.high <= 0:
        return f"{asked} refused"
    return assigned if asked == assigned else f"{asked}, gets {number(run.assigned.typical)}" if isinstance(run.assigned, Fact) else asked  # fmt: skip


def _metres(build: Build, run: PowerRun) -> str:
    """Of the pieces that the power runs through."""
    lengths = [build.pieces[each].length.figure for each in run.pieces if each in build.pieces]
    if not lengths or any(isinstance(each, Unknown) for each in lengths):
        return "? m"
    return metres(round(sum(each.high for each in lengths if isinstance(each, Fact)), 1))


def words(card: Card) -> Iterator[str]:
    yield f"{card.name}, {card.said}, {card.fed_by}: {card.summary}."
    yield from (f"{row.hint}." for row in card.rows)
