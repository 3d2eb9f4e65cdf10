"""The build of the plan beside this file, made once, and single lines of its explanations."""

from functools import lru_cache
from pathlib import Path

from firstfix.build.model import Build
from firstfix.explaining.explain import explain
from firstfix.explaining.model import Explanation, Line
from firstfix.pipeline import compile_plan
from firstfix.span import Span

PLAN = Path(__file__).parent / "mill.yaml"


@lru_cache(maxsize=1)
def build_of_mill() -> Build:
    build = compile_plan(PLAN, PLAN.name).build
    assert build is not None
    return build


def only(name: str) -> Explanation:
    (found,) = explain(build_of_mill(), name)
    return found


def line(name: str, section: str, what: str) -> Line:
    """The first line of that name in the section of what `name` means."""
    for each in only(name).sections:
        if each.title == section:
            return next(one for one in each.lines if one.what.strip() == what)
    raise AssertionError(f"{name} has no section {section}")


def written_text(at: object) -> str:
    """What stands in the plan where a line says it was written, to the end of that place."""
    assert isinstance(at, Span)
    text = PLAN.read_text("utf-8").splitlines()[at.line - 1]
    return text[at.column - 1 : at.end_column - 1]
