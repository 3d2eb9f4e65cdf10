"""Jack names and ranges: what they stand for, and that nothing else is taken for one."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.parts.numbering import MOST_JACKS, jack_names

PREFIXES = st.text(alphabet="abcdefghijklmnopqrstuvwxyz", max_size=6)
NUMBERS = st.integers(0, 9999)


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("3", ("3",)),
        ("03", ("3",)),
        ("0", ("0",)),
        ("wan", ("wan",)),
        ("sfp1", ("sfp1",)),
        ("sfp01", ("sfp1",)),
        ("1-3", ("1", "2", "3")),
        ("7-7", ("7",)),
        ("09-11", ("9", "10", "11")),
        ("sfp1-sfp2", ("sfp1", "sfp2")),
        ("sfp1-2", ("sfp1", "sfp2")),
    ],
)
def test_names(text: str, names: tuple[str, ...]) -> None:
    assert jack_names(text) == names


@pytest.mark.parametrize(
    "text",
    [
        "", "-", "1-", "-1", "3-1", "sfp1-xg2", "1-sfp2", "a-b", "1 - 3", "1-3-5", "WAN", "eth0/1", "10000",
        "1..3", "٣", "1-٣", "３", "1\n", " 1",
    ],
)  # fmt: skip
def test_no_names(text: str) -> None:
    assert jack_names(text) is None


def test_longest_range() -> None:
    assert len(jack_names(f"1-{MOST_JACKS}") or ()) == MOST_JACKS
    assert jack_names(f"1-{MOST_JACKS + 1}") is None


@settings(derandomize=True, deadline=None)
@given(PREFIXES, NUMBERS, st.integers(0, MOST_JACKS - 1))
def test_range_is_its_names_in_order(prefix: str, first: int, more: int) -> None:
    last = min(first + more, 9999)
    names = jack_names(f"{prefix}{first}-{prefix}{last}")
    assert names is not None
    assert list(names) == [f"{prefix}{number}" for number in range(first, last + 1)]
    assert len(set(names)) == len(names)


@settings(derandomize=True, deadline=None)
@given(PREFIXES, NUMBERS, NUMBERS)
def test_falling_range_is_none(prefix: str, one: int, other: int) -> None:
    low, high = sorted((one, other))
    if low != high:
        assert jack_names(f"{prefix}{high}-{prefix}{low}") is None


@settings(derandomize=True, deadline=None)
@given(PREFIXES, NUMBERS)
def test_each_name_stands_for_itself(prefix: str, number: int) -> None:
    for name in jack_names(f"{prefix}{number}-{prefix}{number}") or ():
        assert jack_names(name) == (name,)


@settings(derandomize=True, deadline=None)
@given(st.text(max_size=12))
def test_any_text_gives_plain_names_or_none(text: str) -> None:
    for name in jack_names(text) or ():
        assert re.fullmatch(r"[a-z]*[0-9]{1,4}|[a-z]+", name, re.ASCII)
