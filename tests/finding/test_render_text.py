"""Findings for people: the fixed report as a golden file, and the limits that hold for any report."""

import re
import unicodedata
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from syrupy.assertion import SnapshotAssertion

from finding.sample import BUDGET, EMPTY, HOSTILE, PLACELESS, REPORT, TAB, TEXTS
from firstfix.finding.fit import cells, cut, visible, wrapped
from firstfix.finding.model import COMMON_PRACTICE, Finding, Label, Level, Undetermined, report
from firstfix.finding.render_text import COLOURED, MOST_IN_FULL, WIDTH, render_text
from firstfix.span import Span

_COLOUR = re.compile("\x1b\\[[0-9;]*m")


def test_the_fixed_report(golden_text: SnapshotAssertion) -> None:
    assert render_text(REPORT, TEXTS) == golden_text


def test_colour_only_decorates() -> None:
    coloured = render_text(REPORT, TEXTS, COLOURED)
    assert coloured != render_text(REPORT, TEXTS)
    assert _COLOUR.sub("", coloured) == render_text(REPORT, TEXTS)


def test_an_empty_report_says_that_nothing_was_examined() -> None:
    assert render_text(EMPTY, {}) == "no errors, no warnings, no notes, none cannot tell; no rule was run\n"


def test_one_hostile_finding_stays_small_and_moves_no_cursor() -> None:
    lines = render_text(report([HOSTILE]), TEXTS).split("\n\n")[0].splitlines()
    assert len(lines) <= 14
    assert all(cells(line) <= WIDTH for line in lines)
    assert all(line.isprintable() for line in lines)


def test_past_two_hundred_findings_are_counted() -> None:
    many = [
        Finding("r", Level.NOTE, f"n {number}", "", None, COMMON_PRACTICE)
        for number in range(MOST_IN_FULL + 3)
    ]
    text = render_text(report(many), {})
    assert text.count("  note  r\n") == MOST_IN_FULL
    assert "\nand 3 more findings; `--format json` has all\n" in text


def _waiting(rule: str, subject: str, waits: bool) -> Undetermined:
    return Undetermined(rule, subject, None, (Label(None, f"what is missing at {subject}"),), waits)


def test_what_waits_for_a_fault_is_one_line_and_is_still_counted() -> None:
    many = [_waiting("device-cut-off", f"device:d-{number}", True) for number in range(17)]
    untold = _waiting("poe-class", "device:other", False)
    text = render_text(report([TAB], [*many, _waiting("unpowered", "device:d-1", True), untold]), TEXTS)
    assert "18 judgements wait for the faults above to be mended: device-cut-off 17, unpowered 1\n" in text
    assert "what is missing at device:d-" not in text
    assert "what is missing at device:other" in text
    assert "1 error, no warnings, no notes, 19 cannot tell" in text


def test_without_a_fault_nothing_waits() -> None:
    text = render_text(report([PLACELESS], [_waiting("unpowered", "device:d-1", True)]), TEXTS)
    assert "what is missing at device:d-1" in text
    assert "wait" not in text


@pytest.mark.parametrize(
    "name",
    ["<script>alert(1)</script>", "'\"`", "\u202eeman", "e\u0301\u0301\u0301" * 60, "\U0001f41d" * 30, "n" * 200, "\x1b[2J", "a\r\nb\u2028c"],
)  # fmt: skip
def test_names_of_strangers_are_harmless_where_judgements_wait(name: str) -> None:
    """Of what waits, only the rules are named; elsewhere a name moves nothing and fills at most its lines."""
    waiting, untold = _waiting("unpowered", name, True), _waiting("poe-class", name, False)
    fault = replace(TAB, message=f"there is no device '{name}'", subject=name)
    text = render_text(report([fault], [waiting, untold]), TEXTS)
    assert text.isprintable() or set(filter(lambda each: not each.isprintable(), text)) == {"\n"}
    assert max(map(cells, text.splitlines())) <= WIDTH
    assert len(text.splitlines()) < 30


def test_marks_stand_under_the_place() -> None:
    lines = render_text(report([BUDGET]), TEXTS).splitlines()
    source = next(number for number, line in enumerate(lines) if "switch-8-poe" in line)
    marks = lines[source + 1]
    assert lines[source][marks.index("^") : marks.rindex("^") + 1] == "switch-8-poe"


def test_marks_stand_under_the_place_beside_wide_characters() -> None:
    text = "名前: 日本 # x\n"
    finding = Finding("r", Level.NOTE, "m", "", Span("f", 1, 5, 1, 7), COMMON_PRACTICE)
    source, marks = render_text(report([finding]), {"f": text}).splitlines()[2:4]
    assert cells(source[: source.index("日本")]) == marks.index("^")
    assert marks.count("^") == 4


def test_lines_are_counted_as_the_reader_of_yaml_counts_them() -> None:
    text = "a\r\nb\rc\x85d\u2028found\n"
    finding = Finding("r", Level.NOTE, "m", "", Span("f", 5, 1, 5, 6), COMMON_PRACTICE)
    assert "5  found" in render_text(report([finding]), {"f": text})


def test_a_place_outside_the_text_is_named_but_not_shown() -> None:
    finding = Finding("r", Level.NOTE, "m", "", Span("f", 99, 1, 99, 6), COMMON_PRACTICE)
    assert render_text(report([finding]), {"f": "a\n"}).startswith("f:99:1  note  r\n  m\n  because:")


anything = st.text(max_size=300)
numbers = st.integers(1, 400)
spans = st.builds(Span, st.sampled_from(["f", "g" * 300]), numbers, numbers, numbers, numbers)


@settings(derandomize=True, deadline=None, max_examples=150)
@given(anything, anything, anything, spans, anything)
def test_no_text_breaks_out(source: str, message: str, subject: str, span: Span, label: str) -> None:
    finding = Finding("r", Level.ERROR, message, subject, span, COMMON_PRACTICE, (Label(span, label),))
    lines = render_text(report([finding]), {"f": source}).splitlines()
    assert all(line.isprintable() and cells(line) <= WIDTH for line in lines)
    assert len(lines) <= 14 + 2


@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.text(max_size=200), st.integers(2, 60), st.integers(1, 4))
def test_cut_and_wrapped_keep_their_limits(text: str, width: int, most: int) -> None:
    assert cells(cut(text, width)) <= width
    lines = wrapped(text, width, most)
    assert len(lines) <= most
    assert all(cells(line) <= width for line in lines)


@settings(derandomize=True, deadline=None, max_examples=150)
@given(st.text(max_size=50))
def test_visible_leaves_nothing_that_acts(text: str) -> None:
    categories = {unicodedata.category(each) for each in visible(text)}
    assert categories.isdisjoint({"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"})
