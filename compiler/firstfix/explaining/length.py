"""A length, term by term, with where each term was written; and how it was rounded up to a length that is sold."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN, WORKED_OUT, WRITTEN
from firstfix.explaining.model import Line
from firstfix.finding.model import Term
from firstfix.parts.facts import AUTHOR
from firstfix.span import Span
from firstfix.units import metres

_USUAL = "what is usual where the plan says nothing: common practice, no source"


def length_lines(build: Build, piece: Piece) -> Iterator[Line]:
    terms = piece.length.terms
    total = round(sum(term.value for term in terms), 6)
    if piece.length.missing:
        yield Line("length", "not known", "", "; ".join(piece.length.missing))
    else:
        yield Line("length", _bought(build, piece, total), WORKED_OUT, "the sum of what follows")
    for term in terms:
        yield _term(term, _written(build, piece, term))


def _term(term: Term, at: Span | None) -> Line:
    shown = metres(term.value)
    if at is not None:
        return Line(f"  {term.what}", shown, WRITTEN, "", at)
    is_usual = term.source == AUTHOR or term.source.startswith(("the plan's cabling", "common practice"))
    return Line(f"  {term.what}", shown, WORKED_OUT, _USUAL) if is_usual else Line(f"  {term.what}", shown, term.source)  # fmt: skip


def _bought(build: Build, piece: Piece, total: float) -> str:
    if not piece.length.sold:
        return metres(total)
    sold = build.library[piece.part].cable
    lengths = ", ".join(metres(each) for each in sold.lengths) if sold is not None else ""
    return f"{metres(piece.length.sold)}, the shortest of {lengths} that is at least {metres(total)}"


def _written(build: Build, piece: Piece, term: Term) -> Span | None:
    """By the thing that a term names: its way, its room's or device's drop, or an allowance of the plan's cabling."""
    written = build.provenance.written
    for way in piece.route:
        if term.what == f"way '{build.ways[way].name}'":
            return written(way, "length")
    if term.what.startswith("drop "):
        device = next((build.jacks[end].device for end in piece.ends if term.what.endswith(f"'{ids.path(build.jacks[end].device)}'")), "")  # fmt: skip
        room = build.devices[device].room if device else ""
        return written(device, "drop") or written(room, "drop") or written(PLAN, "cabling", "drop")
    first = term.what.partition(" ")[0]
    key = {"slack": "slack", "dressing": "dressing", "from": "desk-cord"}.get(first)
    return written(PLAN, "cabling", key) if key else None
