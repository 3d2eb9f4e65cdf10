import struct
import subprocess
import sys

import pytest

from documents.drawing.sample_build import farm
from firstfix.documents.drawing import network_drawing, png
from firstfix.documents.drawing.kit import font, svg


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
        return png(svg.document("t-", "t", "d", 60, 20, body).replace(font.FAMILY, family))

    blank = png(svg.document("t-", "t", "d", 60, 20))
    assert drawn(font.FAMILY) == drawn("DejaVu Serif") != blank


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
    assert not {"pygraphviz", "graphviz", "fontTools", "resvg_py", "networkx"} & set(loaded)
