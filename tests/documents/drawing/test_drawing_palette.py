import pytest

from documents.drawing.reading import texts
from documents.drawing.sample_build import estate, farm, school
from firstfix.build.model import Build
from firstfix.documents.drawing import cabinet_elevation, network_drawings
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.key import MEANINGS


def luminance(colour: str) -> float:
    """Relative luminance by the definition in WCAG 2.2, written down here on its own."""
    channels = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    linear = [each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_the_measure_itself_on_figures_that_are_published() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize(("colour", "under"), palette.TEXT_ON)
def test_text_is_legible_on_all_it_stands_on(colour: str, under: str) -> None:
    assert contrast(colour, under) >= 4.5


@pytest.mark.parametrize(("colour", "under"), palette.LINES_ON)
def test_lines_that_mean_something_are_seen(colour: str, under: str) -> None:
    assert contrast(colour, under) >= 3


def test_lines_are_told_apart_without_any_colour() -> None:
    shapes = [stroke._replace(colour="") for stroke, _ in MEANINGS]
    assert len(set(shapes)) == len(shapes)


def test_no_type_size_is_below_the_smallest() -> None:
    sizes = (palette.TITLE_SIZE, palette.NAME_SIZE, palette.TEXT_SIZE, palette.SMALL_SIZE)
    assert min(sizes) >= palette.SMALLEST_SIZE == 7


@pytest.mark.parametrize("build", [farm(), estate(), school()], ids=lambda build: build.name)
def test_every_text_in_a_drawing_is_legible_on_what_lies_under_it(build: Build) -> None:
    drawings = [*network_drawings(build), *(cabinet_elevation(build, cabinet) for cabinet in build.cabinets)]
    pairs = {(box.colour, box.ground) for drawing in drawings for box in texts(drawing.svg)}
    assert len(pairs) > 4
    assert {pair: contrast(*pair) for pair in pairs if contrast(*pair) < 4.5} == {}
