"""A check that finds nothing proves nothing until it has found something: each is shown a sheet that was spoilt for it."""

from collections.abc import Iterator

import pytest

from proof.colours import contrast
from proof.crossings import crossings, laid_out_by_graphviz, same_graph, wires
from proof.faults import (
    CHECKS,
    Check,
    covered,
    crossed,
    faint_lines,
    faint_texts,
    hidden_wires,
    outside,
    overlapping,
    too_small,
    untold,
    widths,
)
from proof.glyphs import extent
from proof.reading import Sheet, read

_PAPER = '<rect x="0" y="0" width="{width}" height="200" fill="#ffffff"/>'
_HATCH = (
    '<defs><pattern id="h" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<path d="M0 6L6 0" fill="none" stroke="#5c611f" stroke-width="0.5"/></pattern></defs>'
)
_CUT = '<defs><clipPath id="c"><rect x="10" y="10" width="20" height="20"/></clipPath></defs>'


def _sheet(*inside: str, width: float = 300, attributes: str = 'role="img" aria-labelledby="a b"') -> Sheet:
    return read(
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} 200" width="{width}pt" height="200pt" {attributes}>'
        '<title id="a">A sheet</title><desc id="b">One that is drawn by hand.</desc>'
        + _PAPER.format(width=width)
        + "".join(inside)
        + "</svg>"
    )


def _text(x: float, y: float, words: str, size: float = 8, more: str = "", said: float | None = None) -> str:
    width = extent(words, size, "bold" in more).width if said is None else said
    colour = "" if "fill" in more else 'fill="#1b2430"'
    return f'<text x="{x}" y="{y}" font-size="{size}" textLength="{width:.1f}" {colour} {more}>{words}</text>'


def _rect(box: tuple[float, float, float, float], fill: str = "#ffffff", more: str = "") -> str:
    x, y, width, height = box
    return f'<rect x="{x}" y="{y}" width="{width}" height="{height}" fill="{fill}" {more}/>'


_LINE = '<path d="M0 47L300 47" fill="none" stroke="#14506e" stroke-width="1.8"/>'
_HELLO = _text(20, 50, "hello")
_OUTLINE = 'stroke="#1b2430" stroke-width="0.9"'
_CURVE = '<path d="M10 100C100 100 200 100 290 100" fill="none" stroke="#14506e" stroke-width="1"/>'

SPOILT: tuple[tuple[str, Check, Sheet], ...] = (
    ("wrong width", widths, _sheet(_text(20, 50, "hello", said=30))),
    ("no width", widths, _sheet(_HELLO.replace("textLength", "data-length"))),
    ("bold told as regular", widths, _sheet(_HELLO.replace("<text", '<text font-weight="bold"'))),
    ("no such letter", widths, _sheet(_text(20, 50, "蜂"))),
    ("past the right edge", outside, _sheet(_text(290, 50, "hello"))),
    ("past the left edge", outside, _sheet(_text(10, 50, "hello", more='text-anchor="end"'))),
    ("above the top", outside, _sheet(_text(20, 4, "hello"))),
    ("below its row", outside, _sheet(_rect((10, 40, 90, 10)), _text(20, 50, "gypsy"))),
    ("wider than its box", outside, _sheet(_rect((10, 40, 20, 14)), _HELLO)),
    ("cut off", outside, _sheet(_CUT, f'<g clip-path="url(#c)">{_text(12, 20, "hello")}</g>')),
    ("moved out by a group", outside, _sheet(f'<g transform="translate(200 0)"><g transform="translate(90)">{_HELLO}</g></g>')),
    ("turned out of the page", outside, _sheet(f'<g transform="rotate(90 20 190)">{_text(20, 190, "hello")}</g>')),
    ("two in one place", overlapping, _sheet(_HELLO, _text(30, 53, "there"))),
    ("touching from groups apart", overlapping, _sheet(f'<g transform="translate(10 0)">{_HELLO}</g>', _text(40, 50, "there"))),
    ("a line under a text", crossed, _sheet(_LINE, _HELLO)),
    ("a line over a text", crossed, _sheet(_rect((0, 40, 300, 14)), _HELLO, _LINE)),
    ("a ground too narrow", crossed, _sheet(_LINE, _rect((15, 40, 15, 14)), _HELLO)),
    ("a hair too", crossed, _sheet(_LINE.replace("1.8", "0.4"), _HELLO)),
    ("the edge of a box", crossed, _sheet(_rect((10, 40, 20, 14), more=_OUTLINE), _HELLO)),
    ("a curve", crossed, _sheet('<path d="M25 0C25 60 26 60 26 200" fill="none" stroke="#14506e"/>', _HELLO)),
    ("a box over a text", covered, _sheet(_HELLO, _rect((30, 46, 20, 9)))),
    ("six points", too_small, _sheet(_text(20, 50, "hello", size=6))),
    ("seven points scaled down", too_small, _sheet(f'<g transform="scale(0.9)">{_text(20, 50, "hello", size=7)}</g>')),
    ("a sheet that Letter shrinks", too_small, _sheet(_text(20, 50, "hello", size=7), width=740)),
    ("grey on white", faint_texts, _sheet(_text(20, 50, "hello", more='fill="#808080"'))),
    ("half on dark", faint_texts, _sheet(_rect((10, 40, 20, 14), "#14506e"), _HELLO)),
    ("on hatches", faint_texts, _sheet(_HATCH, _rect((10, 40, 90, 14), "url(#h)"), _text(20, 50, "hello", more='fill="#5c611f"'))),
    ("a pale line", faint_lines, _sheet(_LINE.replace("#14506e", "#aaaaaa"))),
    ("a box as dark as its outline", faint_lines, _sheet(_rect((0, 0, 300, 200), "#202020"), _rect((9, 9, 9, 9), more=_OUTLINE))),
    ("a wire behind a box", hidden_wires, _sheet(_CURVE, _rect((100, 80, 60, 40), more=_OUTLINE))),
    ("no role", untold, _sheet(attributes='aria-labelledby="a b"')),
    ("not labelled", untold, _sheet(attributes='role="img"')),
    ("labelled by the wrong thing", untold, _sheet(attributes='role="img" aria-labelledby="b a"')),
    ("an id twice", untold, _sheet('<g id="a"></g>')),
)  # fmt: skip


@pytest.mark.parametrize(("what", "check", "sheet"), SPOILT, ids=[what for what, _, _ in SPOILT])
def test_a_spoilt_sheet_is_found(what: str, check: Check, sheet: Sheet) -> None:
    assert list(check(sheet)), what


def test_every_check_was_tried() -> None:
    assert {check for _, check, _ in SPOILT} == set(CHECKS)


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_a_good_sheet_passes(check: Check) -> None:
    good = _sheet(
        _LINE,
        _rect((15, 40, 60, 14)),
        _HELLO,
        _CURVE,
        _rect((280, 90, 15, 20), more=_OUTLINE),
        _rect((100, 140, 90, 20), "#14506e", _OUTLINE),
        _text(145, 152, "middle", more='fill="#ffffff" text-anchor="middle" font-weight="bold"'),
        f'<g transform="rotate(-90 250 190)">{_text(250, 190, "upright")}</g>',
    )
    assert list(check(good)) == []


@pytest.mark.parametrize(
    "unknown",
    [
        "<foreignObject/>",
        '<image href="x.png"/>',
        '<use href="#a"/>',
        '<g transform="skewX(3)"/>',
        '<path d="M0 0A5 5 0 0 0 9 9" fill="none"/>',
        '<text x="1" y="9" font-size="8"><tspan>a</tspan></text>',
    ],
)
def test_what_the_reader_does_not_know_it_does_not_pass_over(unknown: str) -> None:
    with pytest.raises(ValueError, match=r"know|elements"):
        _sheet(unknown)


# Worked examples that go with the definition in WCAG 2.2: black on white is 21:1; #767676 is the lightest grey that passes on white.
@pytest.mark.parametrize(
    ("one", "other", "least", "most"),
    [("#000000", "#ffffff", 21, 21), ("#767676", "#ffffff", 4.5, 4.6), ("#777777", "#ffffff", 4.4, 4.5)],
)
def test_contrast(one: str, other: str, least: float, most: float) -> None:
    assert least <= contrast(one, other) <= most
    assert contrast(one, other) == contrast(other, one)


def _two_wires(first: str, second: str) -> Iterator[str]:
    for data in (first, second):
        yield f'<path d="{data}" fill="none" stroke="#14506e" stroke-width="1"/>'
    for x in (0, 290):
        for y in (10, 110):
            yield _rect((x, y, 10, 40), more=_OUTLINE)


def test_a_crossing_is_counted_and_graphviz_avoids_it() -> None:
    crossing = _sheet(*_two_wires("M10 30C150 30 150 130 290 130", "M10 130C150 130 150 30 290 30"))
    apart = _sheet(*_two_wires("M10 30C150 30 150 30 290 30", "M10 130C150 130 150 130 290 130"))
    together = _sheet(*_two_wires("M10 30C150 30 150 30 290 30", "M10 30C150 30 150 130 290 130"))
    assert crossings(wires(crossing)) == 1
    assert crossings(wires(apart)) == 0
    assert crossings(wires(together)) == 0, "two wires from one jack don't cross there"
    assert crossings(laid_out_by_graphviz(same_graph(crossing))) == 0


def test_graphviz_too_has_to_cross_what_cannot_be_drawn_in_the_plane() -> None:
    """Five things each joined to each other: the least that can't be drawn without a crossing (Kuratowski 1930)."""
    edges = [f"n{one} -> n{other} [dir=none]" for one in range(5) for other in range(one)]
    assert crossings(laid_out_by_graphviz("digraph {" + ";".join(edges) + "}")) >= 1
