from dataclasses import replace
from itertools import combinations

import pytest

from documents.drawing.colours import SIGHTS, apart, contrast, seen
from documents.drawing.reading import texts
from documents.drawing.sample_build import estate, farm, school
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.key import MEANINGS
from firstfix.documents.drawing.kit.themes import DARK, LIGHT, PRINT, THEMES, theme
from firstfix.documents.drawing.set import sheets

NAMES = {role: name for role, name, _ in palette.ROLES}
# What two lines or squares on one sheet are told apart by, besides their shape.
MEANINGFUL = (
    palette.INK, palette.COPPER, palette.FIBRE, palette.POWER, palette.VLAN, palette.KEPT, palette.ALARM
)  # fmt: skip
# Four times what is just noticed: our own judgement.
_WELL_APART = 10.0


def test_the_measures_themselves_on_figures_that_are_published() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)
    assert apart((1, 1, 1), (0, 0, 0)) == pytest.approx(100, abs=0.1)
    # sRGB red is L* 53.24, a* 80.09, b* 67.20 (IEC 61966-2-1 with CIE 1976).
    assert apart((1, 0, 0), (0, 0, 0)) == pytest.approx((53.24**2 + 80.09**2 + 67.20**2) ** 0.5, rel=0.01)


@pytest.mark.parametrize("sight", SIGHTS)
def test_white_stays_white_to_every_eye(sight: str) -> None:
    assert seen("#ffffff", sight) == pytest.approx((1, 1, 1), abs=1e-5)


def test_red_and_green_of_one_luminance_fall_together_without_the_cones_for_them() -> None:
    assert apart(seen("#b00000", "all cones"), seen("#505000", "all cones")) > 40
    assert apart(seen("#b00000", "protanopia"), seen("#4a4a00", "protanopia")) < 20


@pytest.mark.parametrize("name", THEMES)
def test_every_role_has_a_colour_in_each_theme(name: str) -> None:
    assert set(theme(name).colours) == set(NAMES)


@pytest.mark.parametrize("name", THEMES)
def test_text_is_legible_on_all_it_stands_on(name: str) -> None:
    """WCAG 2.2, success criterion 1.4.3."""
    colours = theme(name).colours
    found = {
        (NAMES[text], NAMES[under]): contrast(colours[text], colours[under])
        for text, under in palette.TEXT_ON
    }
    assert {pair: figure for pair, figure in found.items() if figure < 4.5} == {}


@pytest.mark.parametrize("name", THEMES)
def test_lines_that_mean_something_are_seen(name: str) -> None:
    """WCAG 2.2, success criterion 1.4.11."""
    colours = theme(name).colours
    found = {
        (NAMES[line], NAMES[under]): contrast(colours[line], colours[under])
        for line, under in palette.LINES_ON
    }
    assert {pair: figure for pair, figure in found.items() if figure < 3} == {}


@pytest.mark.parametrize("sight", SIGHTS)
@pytest.mark.parametrize("name", [LIGHT, DARK])
def test_colours_that_mean_something_stay_apart_to_every_eye(name: str, sight: str) -> None:
    colours = theme(name).colours
    found = {
        (NAMES[one], NAMES[other]): apart(seen(colours[one], sight), seen(colours[other], sight))
        for one, other in combinations(MEANINGFUL, 2)
    }
    assert {pair: figure for pair, figure in found.items() if figure < _WELL_APART} == {}


@pytest.mark.parametrize("sight", SIGHTS)
@pytest.mark.parametrize("name", [LIGHT, DARK])
def test_an_active_things_tint_is_apart_from_a_passive_ones(name: str, sight: str) -> None:
    colours = theme(name).colours
    found = apart(seen(colours[palette.BAND], sight), seen(colours[palette.PASSIVE_BAND], sight))
    assert found > _WELL_APART / 2


def test_print_is_black_and_white_and_tells_what_is_passive_by_dots() -> None:
    chosen = theme(PRINT)
    assert set(chosen.colours.values()) == {"#000000", "#ffffff"}
    assert chosen.dotted == {palette.PASSIVE_BAND}


def test_lines_are_told_apart_without_any_colour() -> None:
    shapes = [stroke._replace(colour="") for stroke, _ in MEANINGS]
    assert len(set(shapes)) == len(shapes)


def test_no_type_size_is_below_the_smallest() -> None:
    sizes = (palette.TITLE_SIZE, palette.NAME_SIZE, palette.TEXT_SIZE, palette.SMALL_SIZE)
    assert min(sizes) >= palette.SMALLEST_SIZE == 7


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("build", [farm(), estate(), school()], ids=lambda build: build.name)
def test_every_text_in_a_drawing_is_legible_on_what_lies_under_it(build: Build, name: str) -> None:
    found = [box for drawing in sheets(build) for box in texts(replace(drawing, theme=name).svg)]
    pairs = {(box.colour, box.ground) for box in found}
    assert len(pairs) >= (2 if name == PRINT else 5)
    assert {pair: contrast(*pair) for pair in pairs if contrast(*pair) < 4.5} == {}
    assert min(box.size for box in found) >= palette.SMALLEST_SIZE
