"""Some sheets as pictures, one pixel to a point: what they are, how they are drawn now, and how far two pictures are apart."""

import hashlib
import io
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

import numpy as np
from PIL import Image

from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.drawing.set import sheets
from firstfix.pipeline import compile_plan

# Rows of pixels of red, green and blue.
Pixels = np.ndarray[tuple[int, ...], np.dtype[np.uint8]]
HERE = Path(__file__).parent
CHANGES = HERE / "CHANGES.md"
_PLANS = HERE.parents[2] / "plans"
# Those that a reader meets first, by the names that the set gives them; a plan has some of them.
_STEMS = (
    "network",
    "network-1",
    "network-2",
    "cabinet-main",
    "cabinet-main-rear",
    "ways",
    "ways-1",
    "tree",
    "tree-1",
)
_OF = ("honey-farm", "rowing-club")
# Out of 255. The same SVG gives the same pixels with one version of the renderer; another may smooth an edge differently.
MOST_ANYWHERE = 64
MOST_ON_AVERAGE = 0.25
_LEVELS = np.array([(level + 8) // 17 * 17 for level in range(256)], dtype=np.uint8)
_LINE = re.compile(r"- `(?P<picture>[a-z0-9-]+\.png)` `(?P<digest>[0-9a-f]{16})`: (?P<why>.+)")


class Apart(NamedTuple):
    """The largest difference of any pixel in any channel, and the mean of all."""

    anywhere: float
    on_average: float

    @property
    def is_the_same(self) -> bool:
        return self.anywhere <= MOST_ANYWHERE and self.on_average <= MOST_ON_AVERAGE


class Change(NamedTuple):
    """One line of CHANGES.md."""

    picture: str
    digest: str
    why: str


@cache
def drawn_now() -> Mapping[str, str]:
    """File name to SVG of each picture there should be."""
    found: dict[str, str] = {}
    for plan in _OF:
        build = compile_plan(_PLANS / f"{plan}.yaml", f"{plan}.yaml").build
        assert build is not None
        svgs = {drawing.name: drawing.svg for drawing in sheets(build)}
        found |= {f"{plan}-{stem}.png": svgs[stem] for stem in _STEMS if stem in svgs}
    return found


def picture(svg: str) -> Pixels:
    """In 16 levels of each colour, pixel by pixel: enough to see by, and half the size."""
    return _LEVELS[decoded(png(svg, 1.0))]


def decoded(data: bytes) -> Pixels:
    with Image.open(io.BytesIO(data)) as image:
        return np.asarray(image.convert("RGB"), dtype=np.uint8)


def encoded(pixels: Pixels) -> bytes:
    with io.BytesIO() as kept:
        Image.fromarray(pixels).save(kept, "PNG", optimize=True)
        return kept.getvalue()


def apart(one: Pixels, other: Pixels) -> Apart:
    """As far as can be where the sizes differ."""
    if one.shape != other.shape:
        return Apart(255.0, 255.0)
    difference = np.abs(one.astype(np.int16) - other.astype(np.int16))
    return Apart(float(difference.max()), float(difference.mean()))


def digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()[:16]


def changes() -> tuple[Change, ...]:
    """In order, the latest last."""
    text = CHANGES.read_text(encoding="utf-8") if CHANGES.exists() else ""
    return tuple(Change(*found.groups()) for found in map(_LINE.fullmatch, text.splitlines()) if found)


def kept() -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(HERE.glob("*.png"))}
