"""What runs in the ways and how full they are, against sums by hand; the rule has its own tests of the limits."""

from dataclasses import replace

import pytest

from documents.drawing.sketch import SMALL_COMPUTER, Sketch, fact, switch
from firstfix.build.model import Build
from firstfix.graphs.way_fill import filled, in_pipes, in_ways
from firstfix.parts.facts import Unknown


def _build(kind: str, bore: float | None, cables: int = 3) -> Build:
    """So many cables of 6 mm in one way."""
    sketch = Sketch()
    attic, hall = sketch.room("home", "house", "attic"), sketch.room("home", "house", "hall")
    way = sketch.way("way", attic, hall, 7, kind)
    sketch.way("unused", attic, hall, 7, kind)
    for id_ in sketch.ways:
        sketch.ways[id_] = sketch.ways[id_]._replace(bore=Unknown("") if bore is None else fact(bore))
    sketch.device("core", switch(8), attic)
    for number in range(1, cables + 1):
        sketch.device(f"desk-{number}", SMALL_COMPUTER, hall)
        sketch.wire(f"desk-{number}", f"core/{number}", route=(way,), lengths=(9,))
    build = sketch.build()
    part = build.library["cat6-indoor"]
    assert part.cable is not None
    thick = replace(part, cable=part.cable._replace(diameter=fact(0.006)))
    return replace(build, library={**build.library, part.name: thick})


def test_every_way_has_its_pieces_and_only_pipes_are_asked_how_full_they_are() -> None:
    build = _build("trunking", None)
    assert {way: len(pieces) for way, pieces in in_ways(build).items()} == {"way:unused": 0, "way:way": 3}
    assert in_pipes(build) == {}
    assert set(in_pipes(_build("conduit", None))) == {"way:unused", "way:way"}
    assert set(in_pipes(_build("trunking", 0.02))) == {"way:unused", "way:way"}


@pytest.mark.parametrize(
    ("cables", "bore", "fill", "limit", "fits"),
    [(3, 20, 3 * 36 / 400, 0.4, True), (2, 15, 2 * 36 / 225, 0.31, False), (1, 9, 36 / 81, 0.53, True), (2, 11, 72 / 121, 0.31, False)],
)  # fmt: skip
def test_fill_by_hand(cables: int, bore: int, fill: float, limit: float, fits: bool) -> None:
    build = _build("conduit", bore / 1000, cables)
    found = filled(build, build.ways["way:way"], in_ways(build)["way:way"])
    assert found.fill == pytest.approx(fill)
    assert found.limit == limit
    assert found.fits is fits


def test_what_cannot_be_told_is_none() -> None:
    build = _build("conduit", None)
    found = filled(build, build.ways["way:way"], in_ways(build)["way:way"])
    assert (found.bore, found.fill, found.fits) == (None, None, None)
    part = build.library["cat6-indoor"]
    assert part.cable is not None
    thin = replace(part, cable=part.cable._replace(diameter=Unknown("")))
    build = replace(_build("conduit", 0.02), library={**build.library, part.name: thin})
    found = filled(build, build.ways["way:way"], in_ways(build)["way:way"])
    assert (found.unknown, found.fits, found.least) == (("cat6-indoor",), None, None)
