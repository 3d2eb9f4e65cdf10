"""A verdict that rests on a figure typical of its kind says so: found by changing all such figures, for every rule and its bad plans."""

from collections.abc import Callable
from dataclasses import fields, is_dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest

import firstfix.pipeline
from firstfix.finding.model import Finding
from firstfix.parts.facts import TYPICAL, Fact
from firstfix.parts.library_files import library
from firstfix.parts.part import Part
from firstfix.pipeline import compile_plan
from firstfix.rules.typical import TYPICAL_NOTE

HERE = Path(__file__).parent
PLANS = sorted(path for path in HERE.glob("*/*.yaml") if path.stem.startswith(("bad", "edge_over")) and "." not in path.stem)  # fmt: skip
# What names a row of a table (a class and its limit, a gauge, a rate) is no figure that a data sheet could give more exactly.
ROWS = {
    "poe_class",
    "least_class",
    "poe_type",
    "pairs",
    "gauge_awg",
    "rate",
    "blocks",
    "fibres",
    "jack_limit",
    "price",
}


@lru_cache(maxsize=1)
def changed(factor: float) -> dict[str, Part]:
    """The library with every typical figure times `factor`."""
    return {name: _scaled(part, lambda value: value * factor) for name, part in library().items()}


def _scaled(value: Any, change: Callable[[float], float]) -> Any:
    if isinstance(value, Fact):
        if value.basis != TYPICAL:
            return value
        return Fact(change(value.low), change(value.typical), change(value.high), value.basis)
    if is_dataclass(value) and not isinstance(value, type):
        found = {each.name: getattr(value, each.name) for each in fields(value)}
        return replace(
            value, **{name: _scaled(each, change) for name, each in found.items() if name not in ROWS}
        )
    if isinstance(value, tuple) and hasattr(value, "_fields"):
        kept = [each if name in ROWS else _scaled(each, change) for name, each in zip(value._fields, value, strict=True)]  # fmt: skip
        return type(value)(*kept)
    return tuple(_scaled(each, change) for each in value) if isinstance(value, tuple) else value


def findings(plan: Path, rule: str) -> dict[tuple[str, str], Finding]:
    report = compile_plan(plan, plan.name).report
    return {(each.subject, each.message): each for each in report.findings if each.rule == rule}


@pytest.mark.parametrize("plan", PLANS, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_finding_on_a_typical_figure_says_so(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    rule = plan.parent.name
    known = findings(plan, rule)
    monkeypatch.setattr(firstfix.pipeline, "library", lambda: changed(1.01))
    resting = known.keys() - findings(plan, rule).keys()
    for key in sorted(resting):
        assert TYPICAL_NOTE in known[key].related, known[key].message


def test_a_typical_limit_and_a_typical_summand_are_named(tmp_path: Path) -> None:
    """The cabinet's depth is the library's; then the part's is, and the cabinet's is the author's."""
    text = (HERE / "cabinet-depth" / "bad.yaml").read_text("utf-8")
    assert all(TYPICAL_NOTE in each.related for each in _depths(text, tmp_path))
    own = "parts: {shallow: {like: wall-cabinet-6u, usable-depth: 100 mm}}"
    other = text.replace("parts: {deep: {like: shelf-1u, depth: 600 mm}}", own)
    other = other.replace("part: wall-cabinet-6u", "part: shallow").replace("fit: deep", "fit: shelf-1u")
    assert all(TYPICAL_NOTE in each.related for each in _depths(other, tmp_path))


def _depths(text: str, folder: Path) -> list[Finding]:
    plan = folder / "plan.yaml"
    plan.write_text(text, "utf-8")
    found = list(findings(plan, "cabinet-depth").values())
    assert found
    return found


def test_figures_of_the_author_need_no_note(tmp_path: Path) -> None:
    text = (HERE / "cabinet-depth" / "bad.yaml").read_text("utf-8")
    own = "parts: {deep: {like: shelf-1u, depth: 600 mm}, own: {like: wall-cabinet-6u, usable-depth: 350 mm}}"
    text = text.replace("parts: {deep: {like: shelf-1u, depth: 600 mm}}", own)
    found = _depths(text.replace("part: wall-cabinet-6u", "part: own"), tmp_path)
    assert all(TYPICAL_NOTE not in each.related for each in found)
