"""Series: a range in a name, against the same plan written out by hand."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.plan.series import MOST_WRITTEN_OUT, members
from firstfix.source.node import Mapping
from firstfix.source.reader import parse


def _read(text: str) -> tuple[Plan, list[str]]:
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    assert isinstance(tree, Mapping)
    return read_plan(tree, library(), faults), [each.message for each in faults.findings]


@settings(derandomize=True, deadline=None)
@given(st.integers(0, 60), st.integers(1, 12), st.integers(0, 9000), st.booleans())
def test_a_series_is_the_same_plan_written_out(first: int, count: int, jack: int, braces: bool) -> None:
    last = first + count - 1
    series = f"{{{first}..{last}}}" if braces else f"{first}..{last}"
    short = f"devices:\n  cam-{series}: {{part: camera, host: 20, plugs-into: [panel/{jack}..{jack + count - 1}, core]}}\n"
    long = "devices:\n" + "".join(
        f"  cam-{first + at}: {{part: camera, host: {20 + at}, plugs-into: [panel/{jack + at}, core]}}\n"
        for at in range(count)
    )
    assert _read(short) == _read(long)


@pytest.mark.parametrize(
    ("text", "first", "last", "count"),
    [("a-1..10", "a-1", "a-10", 10), ("a-08..11", "a-08", "a-11", 4), ("a-{0..0}", "a-0", "a-0", 1), ("p/sfp1..2", "p/sfp1", "p/sfp2", 2)],
)  # fmt: skip
def test_members(text: str, first: str, last: str, count: int) -> None:
    found = members(text)
    assert isinstance(found, tuple)
    assert (found[0], found[-1], len(found)) == (first, last, count)


@pytest.mark.parametrize("text", ["a", "a-1...3", "a-1..b", "a-1234567890..1234567891", "a-1..2..3"])
def test_what_is_no_range(text: str) -> None:
    assert isinstance(members(text), str)


def test_a_few_lines_cannot_fill_the_machine() -> None:
    plan, faults = _read(
        "devices:\n" + "".join(f"  d{n}-1..1000: {{part: camera, room: a}}\n" for n in range(400))
    )
    assert len(plan.devices) <= MOST_WRITTEN_OUT
    assert faults[0] == "with its series written out, the plan has more than 200,000 values"


def test_places_of_members_are_the_one_line() -> None:
    plan, _ = _read("devices:\n  cam-1..3: {part: camera}\nlinks:\n  - {run: [cam-1..3, core]}\n")
    assert {device.written.span.line for device in plan.devices} == {2}
    assert [link.hops[0].shown for link in plan.links] == ["cam-1", "cam-2", "cam-3"]
    assert {link.hops[0].node.span for link in plan.links} == {plan.links[0].hops[0].node.span}
