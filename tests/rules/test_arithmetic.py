"""Every figure that any rule prints can be redone by hand: its terms add up, each says where it comes from, and so does the limit.

Over every plan of tests/rules and plans/bad, and every finding of it, whichever rule the plan was made for.
"""

import math
import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path

import pytest

from firstfix.finding.figures import formula
from firstfix.finding.model import Finding, Measurement
from firstfix.finding.render_in_full import render_in_full
from firstfix.pipeline import compile_plan

HERE = Path(__file__).parent
PLANS = sorted(
    path
    for path in (*HERE.glob("*/*.yaml"), *(HERE.parents[1] / "plans" / "bad").glob("*.yaml"))
    if "." not in path.stem and not path.stem.startswith("good")
)
_NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def _reckoned(path: Path) -> Iterator[tuple[Finding, Measurement]]:
    report = compile_plan(path, path.name).report
    accepted = (each.verdict for each in report.accepted if isinstance(each.verdict, Finding))
    for finding in (*report.findings, *accepted):
        if finding.measurement is not None:
            yield finding, finding.measurement


@pytest.mark.parametrize("path", PLANS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_terms_add_up_and_everything_names_its_source(path: Path) -> None:
    for finding, measured in _reckoned(path):
        what = f"{finding.rule}: {measured.what}"
        assert measured.terms, f"{what} has no terms"
        added = math.fsum(term.value for term in measured.terms)
        assert added == pytest.approx(measured.figure, rel=1e-9, abs=1e-9), (
            f"{what} is not the sum of its terms"
        )
        assert all(term.what and term.source for term in measured.terms), f"{what}: a term without a source"
        assert measured.limit_source or finding.basis.document, f"{what}: a limit without a source"


@pytest.mark.parametrize("path", PLANS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_the_line_that_is_printed_is_true_as_it_stands(path: Path) -> None:
    """Both sides of each `=` are reckoned again from what is printed, exactly, by somebody who has only the line."""
    for _, measured in _reckoned(path):
        line = formula(measured)
        if "unbounded" in line:
            continue
        sums, _, rest = line.partition(", at ")
        for side in (sums, rest.partition(": ")[2]):
            if " = " in side:
                left, _, right = side.rpartition(" = ")
                printed = _NUMBER.match(right)
                assert printed is not None, line
                assert _worked_out(left) == Fraction(printed.group()), line


def _worked_out(text: str) -> Fraction:
    """`4 + 15.4 - 0.2`, read from left to right."""
    first, *others = text.split(" ")
    total = Fraction(first)
    for sign, value in zip(others[::2], others[1::2], strict=True):
        assert sign in "+-"
        total += Fraction(value) if sign == "+" else -Fraction(value)
    return total


@pytest.mark.parametrize("path", PLANS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_in_full_nothing_is_left_out(path: Path) -> None:
    compiled = compile_plan(path, path.name)
    words = set(render_in_full(compiled.report, compiled.source.texts).split())
    for finding in compiled.report.findings:
        said = [finding.message, str(finding.basis), *(cure.title for cure in finding.cures)]
        said += [label.text for label in finding.related]
        if finding.measurement is not None:
            said += [finding.measurement.what + ":", finding.measurement.limit_source]
            said += [text for term in finding.measurement.terms for text in (term.what, term.source)]
        assert not [word for text in said for word in text.split() if word not in words]
