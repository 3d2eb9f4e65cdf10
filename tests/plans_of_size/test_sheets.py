"""Drawings of large plans split, and never shrink: sheets of the usual size, letters that can be read, nothing left out."""

import re

import pytest

from plans_of_size.boarding_school import boarding_school
from plans_of_size.plans import Drawn, made
from proof.faults import PAPERS, too_small

# 1,000 devices take half a minute: with the long tier only.
SIZES = (250, 400, pytest.param(1000, marks=pytest.mark.long))
_POINTS = 72 / 25.4
# 10 mm of border on each side, what most printers leave white; a tenth of a point for rounding.
_BORDERS, _ROUNDING = 20 * _POINTS, 0.1
_NUMBERS = re.compile(r"network-(\d+)(?: (?:and|to) network-(\d+))?")
# Plans of the generator come in whole houses, of some 64 devices each.
_HALF_A_HOUSE = 34


@pytest.fixture(autouse=True)
def _only_when_asked(request: pytest.FixtureRequest) -> None:
    if request.node.get_closest_marker("long") and "long" not in request.config.getoption("-m"):
        pytest.skip("a large plan; run with `-m long`")


@pytest.mark.parametrize("devices", SIZES)
def test_it_is_a_sound_plan_of_that_size(devices: int) -> None:
    report = made(devices).report
    assert not report.findings
    assert not report.undetermined
    assert abs(len(made(devices).build.devices) - devices) <= _HALF_A_HOUSE


def test_the_same_count_gives_the_same_plan() -> None:
    assert boarding_school(300) == boarding_school(300)
    assert boarding_school(300) != boarding_school(400)
    with pytest.raises(ValueError, match="at most"):
        boarding_school(5000)


@pytest.mark.parametrize("devices", SIZES)
def test_every_sheet_prints_on_a4_and_on_letter(devices: int) -> None:
    assert [each.drawing.name for each in made(devices).drawn if not _fits(each)] == []


@pytest.mark.parametrize("devices", SIZES)
def test_no_letters_are_too_small(devices: int) -> None:
    assert [fault for each in made(devices).drawn for fault in too_small(each.sheet)] == []


def _fits(drawn: Drawn) -> bool:
    long, short = sorted((drawn.sheet.width, drawn.sheet.height), reverse=True)
    rooms = (((side * _POINTS - _BORDERS + _ROUNDING) for side in paper) for paper in PAPERS.values())
    return all(long <= wide and short <= high for wide, high in rooms)


@pytest.mark.parametrize("devices", SIZES)
def test_every_device_is_on_a_sheet(devices: int) -> None:
    """By its whole name, which nothing may cut off on all of them."""
    words = {word for each in made(devices).drawn for word in re.split(r"[\s/,·:;()]+", each.words)}
    assert {each.name for each in made(devices).build.devices.values()} - words == set()


@pytest.mark.parametrize("devices", SIZES)
def test_the_overview_leads_to_every_sheet_of_the_network(devices: int) -> None:
    """It names all of them itself, or a sheet that goes on on them does."""
    network = [each for each in made(devices).drawn if each.drawing.name.startswith("network")]
    assert len(network) > 3
    follows = {each.drawing.name: each.drawing.onward for each in network}
    reached: set[str] = set()
    new = {network[0].drawing.name, *_named(network[0].words)}
    while new:
        reached |= new
        new = {onward for name in new for onward in follows.get(name, ())} - reached
    assert follows.keys() - reached == set()


def _named(words: str) -> set[str]:
    found = (range(int(each[1]), int(each[2] or each[1]) + 1) for each in _NUMBERS.finditer(words))
    return {f"network-{number}" for numbers in found for number in numbers}


@pytest.mark.parametrize("devices", SIZES)
def test_what_a_sheet_continues_on_is_there(devices: int) -> None:
    names = {each.drawing.name for each in made(devices).drawn}
    assert {onward for each in made(devices).drawn for onward in each.drawing.onward} <= names
