"""Every sheet of every example plan, and of some plans with faults drawn as drafts: each plan is made once in a run of the tests.

Read as they are written, in the plan's own theme, and those of the set in the other themes too.
"""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import NamedTuple

from firstfix.documents.report.made import Made, make
from firstfix.documents.schedule.files import schedule_files
from firstfix.pipeline import compile_plan
from proof.reading import Sheet, read

PLANS = Path(__file__).parents[2] / "plans"
GOOD = tuple(sorted(path.stem for path in PLANS.glob("*.yaml") if "." not in path.stem))
# With a clash and things behind others; with a ring on several sheets; with links that were left out.
DRAFTS = ("bad/cabinets", "bad/loops", "bad/unsettled")
NAMES = (*GOOD, *DRAFTS)
THEMES = ("light", "dark", "print")


class Drawn(NamedTuple):
    """A sheet as it was read, with its file's stem; `is_own` in the plan's own theme."""

    name: str
    theme: str
    is_own: bool
    sheet: Sheet

    @property
    def says(self) -> str:
        return f"{self.name} ({self.theme})"


class Built(NamedTuple):
    """What the documents of a plan share, and its sheets in all themes."""

    made: Made
    sheets: tuple[Drawn, ...]


@cache
def built(name: str) -> Built:
    made = made_of(PLANS / f"{name}.yaml")
    own = made.build.looks.theme
    sheets = [Drawn(stem, own, True, read(svg)) for stem, svg in written(made).items()]
    for theme in THEMES:
        sheets += [
            Drawn(each.name, theme, False, read(replace(each, theme=theme).svg))
            for each in made.sheets
            if theme != own
        ]
    return Built(made, tuple(sheets))


def made_of(path: Path) -> Made:
    compiled = compile_plan(path, "plan.yaml")
    assert compiled.build is not None
    return make(compiled.build, compiled.report, compiled.progress)


def written(made: Made) -> Mapping[str, str]:
    """Stem to SVG of all that `build` writes into drawings/; the test below holds it against the files of one plan."""
    files = schedule_files(made)
    chart = {Path(path).stem: data.decode() for path, data in files.items() if path.endswith(".svg")}
    return {drawing.name: drawing.svg for drawing in made.sheets} | chart
