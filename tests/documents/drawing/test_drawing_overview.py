"""The overview of a network on several sheets: the finest that fits, wires that don't cross, and every sheet named."""

import re
from itertools import combinations

import pytest

from documents.drawing.reading import overlapping, texts
from documents.drawing.sample_build import estate
from documents.drawing.sketch import CAMERA, Sketch, switch
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.drawings import network_drawings
from firstfix.documents.drawing.network.overview import CARDS, styles
from firstfix.documents.drawing.network.wiring import wiring
from proof.crossings import crossings, wires
from proof.faults import CHECKS
from proof.reading import read


def _campus(buildings: int, sites: int = 1) -> Build:
    """A main house with a switch, and so many houses round it, each with a switch full of cameras."""
    sketch = Sketch("campus")
    main = sketch.room("site-1", "main", "net-room")
    sketch.device("core", switch(96), main)
    for number in range(1, buildings + 1):
        site = f"site-{1 + number % sites}"
        room = sketch.room(site, f"house-{number}", f"closet-{number}")
        duct = sketch.way(f"duct-{number}", main, room, 40 + number, "buried-duct")
        name = f"switch-{number}"
        sketch.device(name, switch(24), room)
        sketch.wire(
            f"{name}/24", f"core/{number}", lengths=(50 + number,), route=(duct,), part="fibre-buried"
        )
        for camera in range(1, 20):
            sketch.device(f"camera-of-house-{number}-{camera}", CAMERA, room)
            sketch.wire(f"camera-of-house-{number}-{camera}", f"{name}/{camera}", watts=6)
    return sketch.build()


SIZES = (3, 8, 15, 24, 60)


@pytest.fixture(scope="module", params=SIZES)
def campus(request: pytest.FixtureRequest) -> tuple[Drawing, ...]:
    return network_drawings(_campus(request.param))


def _overviews(drawn: tuple[Drawing, ...]) -> list[Drawing]:
    return [each for each in drawn if any(box.words.startswith("overview") for box in texts(each.svg))]


def test_every_sheet_fits_and_has_no_fault(campus: tuple[Drawing, ...]) -> None:
    for drawing in campus:
        assert drawing.width <= palette.SHEET_LONG
        assert drawing.height <= palette.SHEET_SHORT
    for drawing in _overviews(campus):
        assert [fault for check in CHECKS for fault in check(read(drawing.svg))] == []
        assert overlapping(texts(drawing.svg)) == []


def test_the_overview_names_every_other_sheet(campus: tuple[Drawing, ...]) -> None:
    overviews = _overviews(campus)
    named: set[str] = set()
    for box in (box for each in overviews for box in texts(each.svg)):
        for first, last in re.findall(r"network-(\d+)(?: (?:and|to) network-(\d+))?", box.words):
            named |= {f"network-{number}" for number in range(int(first), int(last or first) + 1)}
    assert {each.name for each in campus} - {each.name for each in overviews} <= named


def test_wires_of_a_star_do_not_cross(campus: tuple[Drawing, ...]) -> None:
    for drawing in _overviews(campus):
        assert crossings(wires(read(drawing.svg))) == 0


def test_more_buildings_than_fit_with_wires_stand_as_cards_each_with_its_trunk() -> None:
    found = wiring(_campus(60))
    chosen = styles(found, tuple(found.hubs), is_top=True)
    assert {style.boxes for style in chosen} == {CARDS}
    assert len(chosen) > 1
    drawn = network_drawings(_campus(60))
    words = [box.words for each in _overviews(drawn) for box in texts(each.svg)]
    assert {f"to core · OS2 fibre, {50 + number} m · duct-{number}" for number in range(1, 61)} <= set(words)
    assert "and 51 more, each on the card of its other end" in words


def test_a_site_of_several_sheets_has_an_overview_of_its_own() -> None:
    drawn = _overviews(network_drawings(_campus(60, sites=4)))
    unders = [
        next(box.words for box in texts(each.svg) if box.words.startswith("overview")) for each in drawn
    ]
    assert unders[0].startswith("overview of the sites")
    assert {re.sub(r"(, part| · ).*", "", each) for each in unders[1:]} == {
        f"overview of site-{number}" for number in range(1, 5)
    }


def test_boxes_stay_apart() -> None:
    for drawing in network_drawings(estate())[:1]:
        boxes = [
            paint.box
            for paint in read(drawing.svg).paints
            if paint.is_rect and paint.weight >= palette.OUTLINE
        ]
        assert not any(one.meets(other) for one, other in combinations(boxes, 2))
