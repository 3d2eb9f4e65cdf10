import struct
import subprocess
import sys
import zlib
from dataclasses import replace

import pytest

from documents.drawing.sample_build import farm
from firstfix.documents.drawing import network_drawing, png
from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.themes import finish
from golden.pictures.pictures import decoded


def test_png_has_the_drawings_size_times_the_scale() -> None:
    drawing = network_drawing(farm())
    width, height = struct.unpack(">II", png(drawing.svg, 2)[16:24])
    assert (width, height) == (
        pytest.approx(2 * drawing.width, abs=2),
        pytest.approx(2 * drawing.height, abs=2),
    )


def test_the_same_bytes_twice() -> None:
    svg = network_drawing(farm()).svg
    assert png(svg) == png(svg)


def test_text_is_drawn_with_the_shipped_font_alone() -> None:
    def drawn(family: str) -> bytes:
        body = svg.text(2, 14, "honey", 12)
        return png(finish(svg.document("t-", "t", "d", 60, 20, body)).replace(font.FAMILY, family))

    blank = png(finish(svg.document("t-", "t", "d", 60, 20)))
    assert drawn(font.FAMILY) == drawn("DejaVu Serif") != blank


def _first_pixel(content: bytes) -> bytes:
    """Red, green, blue, alpha at the upper left: no filter changes the first pixel of the first row (W3C PNG, 9.2)."""
    start = content.index(b"IDAT")
    length = int.from_bytes(content[start - 4 : start], "big")
    return zlib.decompressobj().decompress(content[start + 4 : start + 4 + length])[1:5]


def test_what_has_no_background_is_transparent_and_all_else_is_not() -> None:
    drawing = network_drawing(farm())
    assert _first_pixel(png(drawing.svg)) == b"\xff\xff\xff\xff"
    assert _first_pixel(png(replace(drawing, is_transparent=True).svg)) == b"\0\0\0\0"
    assert _first_pixel(png(replace(drawing, theme="dark").svg)) == b"\x11\x17\x1d\xff"


@pytest.mark.parametrize("markup", ["", "<svg/>", "plain words"])
def test_what_is_no_svg_of_a_size_is_refused(markup: str) -> None:
    with pytest.raises(ValueError, match="no SVG"):
        png(markup)


@pytest.mark.parametrize("scale", [0, -1, 11, float("nan")])
def test_a_scale_out_of_range_is_refused(scale: float) -> None:
    with pytest.raises(ValueError, match="scale"):
        png("<svg/>", scale)


def test_importing_the_drawings_imports_none_of_the_slow_libraries() -> None:
    asked = "import sys, firstfix.documents.drawing as d; print(*{m.split('.')[0] for m in sys.modules})"
    loaded = subprocess.run(
        [sys.executable, "-c", asked], capture_output=True, text=True, check=True
    ).stdout.split()
    assert "firstfix" in loaded
    assert not {"pygraphviz", "graphviz", "fontTools", "typst", "networkx"} & set(loaded)


@pytest.mark.parametrize("scale", [1.0, 1.6, 2.0])
@pytest.mark.parametrize("height", [184.9, 100.0, 57.3])
def test_no_row_of_pixels_is_lost_where_a_sheet_ends_within_a_pixel(scale: float, height: float) -> None:
    """Black bars as high as a pixel with as much between them, whatever the size: each is there in full."""
    step = 2 / scale
    bars = "".join(svg.rect(0, 0, 40, 1 / scale, fill="#000000").replace('y="0"', f'y="{row * step:.4f}"').replace(
        f'height="{svg.number(1 / scale)}"', f'height="{1 / scale:.4f}"') for row in range(int(height / step)))  # fmt: skip
    picture = png(finish(svg.document("t-", "t", "d", 735.3, height, bars)), scale)
    shades = [int(pixel[0]) for pixel in decoded(picture)[: 2 * int(height / step), 3]]
    assert set(shades) == {0, 255}
    assert [shade == 0 for shade in shades] == [place % 2 == 0 for place in range(len(shades))]
