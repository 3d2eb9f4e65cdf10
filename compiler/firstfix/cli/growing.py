"""`check PLAN --grow`: how many more of each thing fit, what ends it, and what would lift that; as text or JSON."""

import json
from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from firstfix.cli.streams import put
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cells, cut, wrapped

if TYPE_CHECKING:
    from firstfix.documents.growth_words import GrowthRow
    from firstfix.growth.model import Growth, Trouble
    from firstfix.pipeline import Compiled

_WIDTH = 110
_MOST_LINES = 6


def show_growth(compiled: "Compiled", what: str, form: str) -> None:
    """`what` as growth.spots.asked_for takes it; "" for everything."""
    from firstfix.growth.spots import asked_for
    from firstfix.pipeline import room_to_grow

    assert compiled.build is not None
    if form == "sarif":
        raise TroubleError("how far a plan can grow is no finding, so it has no SARIF; take --format json")
    found = room_to_grow(compiled, lambda spots: asked_for(spots, what))
    if not found and what:
        raise TroubleError(
            f"nothing that could grow is called '{cut(what, 60)}'; name cameras, access-points, wired-places, storage or "
            "cabinet-height, or a room, a switch, a cabinet, or a thing such as there should be more of"
        )
    put(_json(found) if form == "json" else "".join(f"{line}\n" for line in _text(compiled, found)))


def _text(compiled: "Compiled", found: "tuple[Growth, ...]") -> Iterator[str]:
    from firstfix.documents.growth_words import ALONE, RECKONED, growth_rows

    assert compiled.build is not None
    if not found:
        yield "the plan has nothing that could grow: no wired camera, access point, outlet or storage, and no cabinet"
        return
    yield from wrapped(ALONE, _WIDTH, _MOST_LINES)
    if not all(each.is_exact for each in found):
        yield from wrapped(RECKONED, _WIDTH, _MOST_LINES)
    if compiled.report.has_errors:
        yield "The plan has errors; what is wrong already ends nothing here."
    kind = ""
    for row in growth_rows(found, compiled.build.currency):
        if row.kind != kind:
            kind = row.kind
            yield ""
            yield kind
        yield from _entry(row)


def _entry(row: "GrowthRow") -> Iterator[str]:
    yield from _fitted("  ", f"{row.of}: {row.more}")
    for first in row.first:
        yield from _fitted("    ", first)
    for lift in row.lifts:
        yield from _fitted("    ", lift)
    if row.behind:
        listed = "; ".join(f"{each.what} after {each.more} ({each.left} left)" for each in row.behind)
        yield from _fitted("    limits, each alone: ", listed)
    for doubt in row.doubts:
        yield from _fitted("    cannot tell: ", doubt)


def _fitted(opening: str, text: str) -> Iterator[str]:
    first, *rest = wrapped(text, _WIDTH - cells(opening), _MOST_LINES) or [""]
    yield opening + first
    yield from (" " * cells(opening) + each for each in rest)


def _json(found: "tuple[Growth, ...]") -> str:
    return json.dumps([_data(each) for each in found], indent=2, ensure_ascii=False) + "\n"


def _data(growth: "Growth") -> dict[str, Any]:
    spot = growth.spot
    return {
        "kind": spot.kind,
        "like": spot.like,
        "room": spot.room,
        "switch": spot.switch,
        "cabinet": spot.cabinet,
        "more": growth.more,
        "at_least": growth.is_least,
        "exact": growth.is_exact,
        "ended_by": [_trouble(each) for each in growth.first],
        "limits": [
            {
                "what": each.what,
                "id": each.id,
                "of": each.of,
                "unit": each.unit,
                "left": _rounded(each.left),
                "each": _rounded(each.each),
                "more": each.more,
                "why": each.why,
            }
            for each in growth.behind
        ],
        "lifted_by": [
            {
                "words": each.words,
                "price_minor": each.price,
                "unpriced": list(each.unpriced),
                "more": each.more,
                "at_least": each.is_least,
                "ended_by": [_trouble(one) for one in each.then],
            }
            for each in growth.lifts
        ],
        "cannot_tell": [_trouble(each) for each in growth.doubts],
    }


def _rounded(value: float | None) -> float | None:
    """Floating-point dust is of no use to a program."""
    return None if value is None else round(value, 6)


def _trouble(trouble: "Trouble") -> dict[str, str]:
    return trouble._asdict()
