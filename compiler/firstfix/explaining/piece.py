"""Why one cable or cord: its two ends, its part, its ways, its length term by term, and what is bought for it."""

from collections.abc import Iterator

from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN, WORKED_OUT, WRITTEN
from firstfix.explaining.jack import chosen_jack
from firstfix.explaining.length import length_lines
from firstfix.explaining.lines import sections, shown_jack
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.route import route_lines
from firstfix.explaining.views import views
from firstfix.parts.part import CAGE_FAMILIES, FIBRE_FAMILIES
from firstfix.source.node import Mapping
from firstfix.span import Span
from firstfix.units import metres

_EXPOSURES = ("indoor", "outdoor", "buried")


def explain_piece(build: Build, id_: str) -> Explanation:
    piece = build.pieces[id_]
    parts = sections(
        ("length", length_lines(build, piece)),
        ("ways", route_lines(build, piece)),
        ("cable" if piece.kind == RUN else "cord", _what(build, piece)),
        ("ends", (chosen_jack(build, piece, build.jacks[end]) for end in piece.ends)),
        ("to buy", _to_buy(build, piece)),
    )
    near, far = (shown_jack(end) for end in piece.ends)
    return Explanation(
        id_, "piece", f"{near} to {far}, {piece.kind}", build.provenance.span(piece.link), parts
    )


def _what(build: Build, piece: Piece) -> Iterator[Line]:
    yield Line("kind", piece.kind, WORKED_OUT, _kind_why(build, piece))
    yield part_line(build, piece)
    at = build.provenance.span(piece.link)
    yield Line("belongs to", f"the run {build.links[piece.link].shown}", WRITTEN, "", at)


def _kind_why(build: Build, piece: Piece) -> str:
    near, far = (build.devices[build.jacks[end].device] for end in piece.ends)
    if near.room != far.room:
        return "its ends are in different rooms"
    if piece.kind == RUN:
        return "it joins two panels or outlets"
    return (
        "its ends are in the same cabinet"
        if near.cabinet and near.cabinet == far.cabinet
        else "its ends are in one room"
    )


def part_line(build: Build, piece: Piece) -> Line:
    """The part it is made of: the run's own wish, or the plan's cabling for where it goes."""
    key = "cable" if piece.kind == RUN else "cord"
    title = build.library[piece.part].title if piece.part in build.library else ""
    value = f"{piece.part}, {title}" if title else piece.part
    asked = build.provenance.written(piece.link, key) or _asked_by_a_device(build, piece, key)
    if asked is not None:
        return Line("part", value, WRITTEN, "", asked)
    of_cabling, why = _use(build, piece)
    at = build.provenance.written(PLAN, "cabling", of_cabling)
    usual = f"cabling: {of_cabling}" if at is not None else f"what is usual for cabling: {of_cabling}"
    return Line("part", value, WORKED_OUT, f"{usual}, as {why}", at)


def _asked_by_a_device(build: Build, piece: Piece, key: str) -> Span | None:
    """A device that says what it plugs into may say with which cord or cable."""
    node = build.provenance.node(piece.link)
    if isinstance(node, Mapping):
        return None
    found = (build.provenance.written(build.jacks[end].device, key) for end in piece.ends)
    return next((each for each in found if each is not None), None)


def _use(build: Build, piece: Piece) -> tuple[str, str]:
    """The key of `cabling:` that decides, and why that one."""
    families = {build.jacks[end].family for end in piece.ends}
    form = build.library[piece.part].cable
    is_copper = form is not None and form.medium == "copper"  # also into a cage with a copper module
    lit = set() if is_copper else families & {*CAGE_FAMILIES, *FIBRE_FAMILIES}
    if lit and piece.kind != RUN and families <= set(CAGE_FAMILIES):
        return "direct-attach", "both its jacks are cages"
    if lit:
        return "fibre", f"a jack at its end is of the family {min(lit)}"
    if piece.kind != RUN:
        return "cords", "it is a cord of copper"
    return _worst(build, piece)


def _worst(build: Build, piece: Piece) -> tuple[str, str]:
    found = [(_EXPOSURES.index(build.ways[way].exposure), f"the way '{build.ways[way].name}' is") for way in piece.route]  # fmt: skip
    rooms = (build.rooms.get(build.devices[build.jacks[end].device].room) for end in piece.ends)
    found += [(1, f"'{room.name}' is") for room in rooms if room is not None and room.is_outdoors]
    worst, who = max(found, key=lambda each: each[0], default=(0, "all of its ways are"))
    if worst == 0:
        who = "all of its ways are" if piece.route else "it stays in one room, which is"
    return _EXPOSURES[worst], f"{who} {_EXPOSURES[worst]}"


def _to_buy(build: Build, piece: Piece) -> Iterator[Line]:
    for item in views(build).items.get(piece.id, ()):
        amount = metres(item.length) if item.length else f"{item.count}"
        sold = f" of {metres(piece.length.sold)}" if piece.length.sold and item.part == piece.part else ""
        yield Line(
            item.part, f"{amount}{sold}, {item.standing}", "", "" if item.part == piece.part else item.why
        )
