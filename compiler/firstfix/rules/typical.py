"""A verdict that rests on a figure typical of its kind, not on a data sheet, says so."""

from firstfix.finding.model import Label, Measurement
from firstfix.parts.facts import TYPICAL, Fact, Figure

TYPICAL_NOTE = Label(None, "rests on figures typical of their kind; those of your data sheets are better")


def rests_on(*figures: Figure) -> tuple[Label, ...]:
    """The note that a verdict rests on typical figures, where it does."""
    typical = any(isinstance(figure, Fact) and figure.is_typical_only for figure in figures)
    return (TYPICAL_NOTE,) if typical else ()


def in_terms(measurement: Measurement | None) -> tuple[Label, ...]:
    """The note, where a summand of the measured figure comes from a typical figure."""
    terms = () if measurement is None else measurement.terms
    return (TYPICAL_NOTE,) if any(term.source == TYPICAL for term in terms) else ()
