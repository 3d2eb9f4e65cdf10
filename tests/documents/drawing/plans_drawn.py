"""The example plans, compiled once for all that read their sheets, and a sheet's words and boxes."""

from collections.abc import Callable
from functools import cache
from pathlib import Path

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.pipeline import compile_plan

PLANS = Path(__file__).parents[3] / "plans"
NAMES = ("honey-farm", "rowing-club", "school")


@cache
def example(name: str) -> Build:
    path = PLANS / f"{name}.yaml"
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


@cache
def drawn(maker: Callable[[Build], tuple[Drawing, ...]], name: str) -> tuple[Drawing, ...]:
    return maker(example(name))
