"""What holds for a run as a whole, in words: its length and joints, what is lost in it, and its PoE."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import Channel
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.documents.drawing.network.wiring import device_name, shown_jack
from firstfix.graphs.consumption import at_source, drawn_at_sink
from firstfix.graphs.optical_loss import optical_losses
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import metres, number

_NOT_KNOWN = "not known"


class About(NamedTuple):
    """`of` is one word, `words` what holds of it."""

    of: str
    words: str


def about(build: Build, channel: Channel) -> Iterator[About]:
    """The channel first, then light, then PoE, with its sums and what they rest on."""
    count = channel.connections
    joined = f"{count} mated connection{'' if count == 1 else 's'}"
    yield About("Channel", f"{_length(build, channel)} with its cords, {joined}, {_cable(build, channel)}")
    link = build.links.get(channel.link)
    if link and link.spare_for:
        yield About("Spare", f"for {link.spare_for}")
    for loss in optical_losses(build, channel):
        terms = " + ".join(f"{number(term.value)} dB {term.what}" for term in loss.loss.terms)
        lost = f"at most {number(loss.loss.loss_db)} dB lost at {number(loss.wavelength_nm)} nm"
        yield About("Light", f"{lost} = {terms}")
    for run in build.power_runs.values():
        if run.channel == channel.id:
            yield from _poe(build, run)


def _length(build: Build, channel: Channel) -> str:
    figures = [build.pieces[each].length.figure for each in channel.pieces if each in build.pieces]
    known = [figure.high for figure in figures if not isinstance(figure, Unknown)]
    return metres(round(sum(known), 2)) if figures and len(known) == len(figures) else "length not known"


def _cable(build: Build, channel: Channel) -> str:
    parts = [build.library.get(build.pieces[each].part) for each in channel.pieces if each in build.pieces]
    grades = dict.fromkeys(part.cable.category for part in parts if part and part.cable)
    named = " and ".join(each.upper() for each in grades if each)
    if not named:
        return channel.medium
    return f"category {named}" if channel.medium == "copper" else f"{named} {channel.medium}"


def _poe(build: Build, run: PowerRun) -> Iterator[About]:
    source, sink = shown_jack(build, run.source), shown_jack(build, run.sink)
    fed = f", and on to {device_name(build, run.feeds)}" if run.feeds else ""
    yield About(
        "PoE",
        f"from {source} to {sink}{fed}: class {_figure(run.asked)} asked, class {_figure(run.assigned)} granted over"
        f" {run.pairs} pairs, {_figure(run.granted, ' W')} to take; {_figure(run.reserved, ' W')} counted, by {run.counted}",
    )
    if isinstance(run.loop, Unknown):
        yield About("Ohms", f"not known: {run.loop.why}")
        return
    terms = " + ".join(f"{number(term.value)} Ω {term.what}" for term in run.loop_terms)
    yield About("Ohms", f"{_range(run.loop)} Ω there and back; {number(run.loop.low)} Ω = {terms}")
    sent, drawn = at_source(build, run).most, drawn_at_sink(build, run).most
    if math.isfinite(sent) and sent >= drawn:
        lost = number(sent - drawn)
        yield About("Watts", f"{number(drawn, 1)} W drawn at the most, and {lost} W stay in the cables")


def _figure(figure: Figure, unit: str = "") -> str:
    return _NOT_KNOWN if isinstance(figure, Unknown) else f"{number(figure.high)}{unit}"


def _range(figure: Fact) -> str:
    low, high = number(figure.low), number(figure.high)
    return low if low == high else f"{low} to {high}"
