"""What findings on PoE print: terms that an installer can add up again, who goes dark, how the source counted."""

import math
from pathlib import Path

import pytest

from firstfix.finding.model import Finding, Level
from firstfix.pipeline import compile_plan

HERE = Path(__file__).parent
_RULES = ("poe-budget", "poe-class", "poe-reach", "poe-bundle", "poe-through", "splitter-output")
_WRONG = sorted(
    path for rule in _RULES for form in ("bad*", "edge_over*") for path in (HERE / rule).glob(f"{form}.yaml")
)


def _findings(path: Path, rule: str) -> list[Finding]:
    return [each for each in compile_plan(path, path.name).report.findings if each.rule == rule]


@pytest.mark.parametrize("path", _WRONG, ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_the_terms_add_up_to_the_figure_and_name_their_source(path: Path) -> None:
    found = _findings(path, path.parent.name)
    assert found
    for each in found:
        measured = each.measurement
        if measured is None:
            continue
        assert math.fsum(term.value for term in measured.terms) == pytest.approx(measured.figure, rel=1e-9)
        assert all(term.source for term in measured.terms)
        assert measured.margin < 0 or each.level is Level.WARNING
        assert each.cures


def test_a_budget_says_how_it_counted_and_who_goes_dark_first() -> None:
    path = HERE / "poe-budget" / "bad_one_side_does_not_negotiate.yaml"
    (found,) = _findings(path, "poe-budget")
    assert "counted by class" in found.message
    texts = [label.text for label in found.related]
    (dark,) = [text for text in texts if text.startswith("goes dark first")]
    assert dark.startswith("goes dark first: 'eye-2' (priority low, jack '2'); ")
    assert "by port priority" in dark


def test_a_budget_by_draw_prints_what_is_needed_to_reckon_it_again() -> None:
    path = HERE / "poe-budget" / "edge_over_drawn_over_55_m.yaml"
    (found,) = _findings(path, "poe-budget")
    assert found.measurement is not None
    (term,) = found.measurement.terms
    assert term.what == "'eye', class 4, draws 25.5 W over 4.632 Ω from 50 V"
    assert term.value == pytest.approx(26.834, abs=0.001)


def test_clad_cable_is_refused_and_its_poe_is_named() -> None:
    path = HERE / "poe-reach" / "bad_clad_cable.yaml"
    (refused,) = _findings(path, "conductor-material")
    assert any(label.text.startswith("PoE goes over it to 1 device") for label in refused.related)
    (reach,) = _findings(path, "poe-reach")
    assert any("copper clad aluminium" in label.text for label in reach.related)


def test_what_cannot_be_told_names_its_fact() -> None:
    path = HERE / "poe-budget" / "missing_temperature.yaml"
    (open_,) = [
        each for each in compile_plan(path, path.name).report.undetermined if each.rule == "poe-budget"
    ]
    texts = [label.text for label in open_.missing]
    assert texts[0].endswith("not known is:")
    assert texts[1:] == ["the temperature of the way 'nave'"]
