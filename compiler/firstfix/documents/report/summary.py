"""The first lines of the report: what stands there, how much there is of it, and whether it may be built."""

from typing import NamedTuple

from firstfix.build.cabling import CORD, RUN
from firstfix.build.model import Build
from firstfix.documents.report.made import Made
from firstfix.finding.model import Level
from firstfix.parts.facts import Fact
from firstfix.purchase.money import money
from firstfix.purchase.needs import total
from firstfix.units import metres


class Count(NamedTuple):
    """One cell of the row of counts. `kind` is a level's word, or "open" for what could not be told."""

    kind: str
    shown: str
    words: str


class Summary(NamedTuple):
    """`name` is the plan's. `draft` says why the page is one, or ""."""

    name: str
    draft: str
    sentences: tuple[str, ...]
    counts: tuple[Count, ...]


def summary(made: Made) -> Summary:
    return Summary(
        made.build.name or "Network without a name",
        _draft(made),
        tuple(
            filter(
                None,
                (_places(made.build), _wiring(made.build), _verdict(made), _price(made), _start(made.build)),
            )
        ),
        _counts(made),
    )


def some(count: int, noun: str, plural: str = "") -> str:
    """
    >>> some(1, "site"), some(0, "site"), some(2, "box", "boxes")
    ('1 site', 'no sites', '2 boxes')
    """
    return f"{count or 'no'} {noun if count == 1 else plural or noun + 's'}"


def _draft(made: Made) -> str:
    errors = made.report.count(Level.ERROR)
    return (
        f"the plan has {some(errors, 'error')}, so nothing may be bought or built from this page"
        if errors
        else ""
    )


def _places(build: Build) -> str:
    places = (
        some(len(build.sites), "site"),
        some(len(build.buildings), "building"),
        some(len(build.rooms), "room"),
        some(len(build.cabinets), "cabinet"),
    )
    return f"This plan covers {', '.join(places[:-1])} and {places[-1]}, with {some(len(build.devices), 'device')} in them."


def _wiring(build: Build) -> str:
    runs = [piece for piece in build.pieces.values() if piece.kind == RUN]
    cords = sum(piece.kind == CORD for piece in build.pieces.values())
    figures = [piece.length.as_planned.figure for piece in runs]
    known = sum(figure.typical for figure in figures if isinstance(figure, Fact))
    unknown = sum(not isinstance(figure, Fact) for figure in figures)
    missing = f", and {some(unknown, 'run')} whose length is not known" if unknown else ""
    return (
        f"It takes {some(len(runs), 'installed run')} with {metres(known)} of cable{missing}, "
        f"and {some(cords, 'cord')}; they make {some(len(build.channels), 'channel')}."
    )


def _verdict(made: Made) -> str:
    report = made.report
    subjects = sum(report.examined.values())
    looked = f"{some(len(report.examined), 'rule')} looked at {some(subjects, 'subject')}"
    levels = ", ".join(some(report.count(level), level.value) for level in Level)
    return f"{looked} and found {levels}; {_open(len(report.undetermined))} could not be told."


def _open(count: int) -> str:
    return "nothing" if not count else "one thing" if count == 1 else f"{count} things"


def _price(made: Made) -> str:
    if not made.needs:
        return "Nothing is to be bought."
    summed, lines = total(made.needs), some(len(made.needs), "line")
    if summed.unpriced == len(made.needs):
        return f"The shopping list has {lines}; no price is known."
    known = money(summed.known, made.build.currency)
    if summed.unpriced:
        return f"The shopping list has {lines}; those with a price come to {known}, {summed.unpriced} without one not counted."
    return f"The shopping list has {lines} and comes to {known}."


def _start(build: Build) -> str:
    return f"Work starts on {build.start}." if build.start else ""


def _counts(made: Made) -> tuple[Count, ...]:
    report = made.report
    levels = [(level.value, report.count(level), level.value) for level in Level]
    levels.append(("open", len(report.undetermined), "cannot tell"))
    return tuple(
        Count(kind, str(number), words if kind == "open" or number == 1 else f"{words}s")
        for kind, number, words in levels
    )
