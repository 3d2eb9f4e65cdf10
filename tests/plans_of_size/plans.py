"""The plans that drawings must split for, each compiled and drawn once in a run: the school of about 250 devices, and larger ones."""

import tempfile
from functools import cache
from pathlib import Path
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.set import sheets
from firstfix.finding.model import Report
from firstfix.pipeline import Compiled, compile_plan
from plans_of_size.boarding_school import boarding_school
from proof.reading import Sheet, read
from repo.editing import ROOT

SCHOOL = ROOT / "plans" / "school.yaml"


class Drawn(NamedTuple):
    """One sheet of the set, and how a reader that knows nothing of what drew it reads it."""

    drawing: Drawing
    sheet: Sheet

    @property
    def words(self) -> str:
        return "\n".join(text.words for text in self.sheet.texts)


class Made(NamedTuple):
    build: Build
    report: Report
    drawn: tuple[Drawn, ...]


@cache
def school() -> Compiled:
    return compile_plan(SCHOOL, "school.yaml")


@cache
def boarding(devices: int) -> Compiled:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(boarding_school(devices), encoding="utf-8")
        return compile_plan(path, "plan.yaml")


@cache
def made(devices: int) -> Made:
    """The plan with about so many devices; at 250 it is the school."""
    compiled = school() if devices == 250 else boarding(devices)
    assert compiled.build is not None
    drawings = sheets(compiled.build)
    return Made(compiled.build, compiled.report, tuple(Drawn(each, read(each.svg)) for each in drawings))
