"""A measurement in words: figure, limit, margin, and terms that still add up after rounding. Leaf."""

from decimal import Decimal

from firstfix.finding.model import Measurement, Term
from firstfix.units import number

# Two decimals are plenty for metres and watts; more are shown only where two would tell an untruth.
_DIGITS = (2, 3, 4, 5, 6)


def measured(measurement: Measurement) -> str:
    """One line: "length of the channel: 104.5 m, at most 100 m (4.5 m too much)"."""
    digits = digits_for(measurement)
    figure = quantity(measurement.figure, measurement.unit, digits)
    limit = quantity(measurement.limit, measurement.unit, digits)
    return f"{measurement.what}: {figure}, {measurement.relation} {limit} ({margin_words(measurement)})"


def margin_words(measurement: Measurement) -> str:
    """How far the figure is from its limit, and on which side."""
    margin, digits = measurement.margin, digits_for(measurement)
    if number(margin, digits) == "0":
        return "exactly the limit"
    return f"{quantity(abs(margin), measurement.unit, digits)} {_side(measurement)}"


def _side(measurement: Measurement) -> str:
    if measurement.margin > 0:
        return "to spare"
    return "too much" if measurement.relation == "at most" else "too little"


def formula(measurement: Measurement) -> str:
    """In one line, to be redone by hand: "15.4 + 15.4 + 12.95 = 43.75 W, at most 40 W: 43.75 - 40 = 3.75 W too much".

    Subtracted are the numbers as printed, so that the line is true as it stands.
    """
    digits, unit = digits_for(measurement), measurement.unit
    first, *others = [number(term.value, digits) for term in measurement.terms] or [""]
    figure, limit = number(measurement.figure, digits), number(measurement.limit, digits)
    # Thirds of a watt add up at no number of decimals; then the line must not say that they do.
    equals = "=" if adds_up(measurement, digits) else "≈"
    added = f"{first}{''.join(map(_added, others))} {equals} " if others else ""
    said = f"{added}{_with_unit(figure, unit)}, {measurement.relation} {_with_unit(limit, unit)}"
    if "unbounded" in (figure, limit) or figure == limit:
        return f"{said}: {margin_words(measurement)}"
    low, high = sorted((figure, limit), key=Decimal)
    left = str(Decimal(high) - Decimal(low))
    negated = low[1:] if low.startswith("-") else f"-{low}"
    return f"{said}: {high}{_added(negated)} = {_with_unit(left, unit)} {_side(measurement)}"


def _added(shown: str) -> str:
    return f" - {shown[1:]}" if shown.startswith("-") else f" + {shown}"


def summands(measurement: Measurement, most: int) -> list[tuple[str, str]]:
    """Terms as (quantity, what and whence). Past `most`, the last stands for the rest: they add up."""
    digits, terms = digits_for(measurement), measurement.terms
    shown = terms if len(terms) <= most else terms[: most - 1]
    lines = [(quantity(term.value, measurement.unit, digits), _origin(term)) for term in shown]
    rest = terms[len(shown) :]
    if rest:
        # Summed as they would have been printed: the exact sum may round to another last digit.
        total = round(sum(round(term.value, digits) for term in rest), digits)
        lines.append((quantity(total, measurement.unit, digits), f"{len(rest)} more"))
    return lines


def _origin(term: Term) -> str:
    return f"{term.what} ({term.source})" if term.source else term.what


def quantity(value: float, unit: str, digits: int = 2) -> str:
    """
    >>> quantity(12.5, "W"), quantity(2.0, "U"), quantity(3.0, "")
    ('12.5 W', '2U', '3')
    """
    shown = number(value, digits)
    return _with_unit(shown, unit)


def _with_unit(shown: str, unit: str) -> str:
    if not unit:
        return shown
    return f"{shown}{unit}" if unit == "U" else f"{shown} {unit}"


def digits_for(measurement: Measurement) -> int:
    """The fewest decimals at which figure and limit look as different as they are, and terms add up."""
    for digits in _DIGITS:
        if _reads_true(measurement, digits):
            return digits
    return _DIGITS[0]


def _reads_true(measurement: Measurement, digits: int) -> bool:
    figure, limit = number(measurement.figure, digits), number(measurement.limit, digits)
    if figure == limit and abs(measurement.margin) > 1e-9:
        return False
    return adds_up(measurement, digits)


def adds_up(measurement: Measurement, digits: int) -> bool:
    """Whether the terms as printed give the figure as printed."""
    figure, shown = (
        number(measurement.figure, digits),
        [number(term.value, digits) for term in measurement.terms],
    )
    if not shown or "unbounded" in (figure, *shown):
        return True
    return sum(map(Decimal, shown)) == Decimal(figure)
