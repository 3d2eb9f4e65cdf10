"""Records go in, are replaced and come out; every other character of the author's file stays."""

import difflib
import io

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from firstfix.progress.change import CannotChangeError, Change, changed

BLOCKS = """\
# kept by Jo

done:   # so far
  fit:device/core: true   # heavy!

  # with Sam
  pull:piece/core--desk/2:
  test:piece/x: 2027-01-02

labels:
    core:
        mac: "00:00:5e:00:53:0a"   # underneath
        # no serial on it

x-own: [1,   2]
"""
FLOW = "done: {a: true , b: {on: 2027-01-02}}   # all\nbought: {}\n"
SPREAD = "bought:\n  cord: {ordered: 9, # nine\n     arrived: 3}\n\n\n# the end\n"
WINDOWS = "done:\r\n  a: true # one\r\n  b: true"
FILES = (BLOCKS, FLOW, SPREAD, WINDOWS, "", "# only this\n", "done:\n", "done: # none yet\n\n# later\n")


def data(text: str) -> dict[str, object]:
    """Read by another reader than ours, one that keeps to YAML 1.2."""
    found = YAML(typ="safe", pure=True).load(io.StringIO(text))
    return dict(found or {})


def comments(text: str) -> list[str]:
    return [line.partition("#")[2] for line in text.splitlines() if "#" in line]


def test_into_blocks() -> None:
    after = changed(
        BLOCKS,
        [
            Change("done", "fit:device/new", {"as": 'a "b"', "on": "2027-02-03"}),
            Change("done", "pull:piece/core--desk/2", {"as": "cat6"}),
            Change("done", "test:piece/x", {"as": "cat6"}),
            Change("labels", "core", {"serial": "12"}),
            Change("measured", "core--desk/2", {"length": "12.4 m"}),
        ],
    )
    assert after == (
        BLOCKS.replace(
            "  pull:piece/core--desk/2:\n  test:piece/x: 2027-01-02\n",
            '  pull:piece/core--desk/2: {as: "cat6"}\n  test:piece/x: {on: 2027-01-02, as: "cat6"}\n'
            '  fit:device/new: {as: "a \\"b\\"", on: 2027-02-03}\n',
        ).replace("# underneath\n", '# underneath\n        serial: "12"\n')
        + "measured:\n  core--desk/2: {length: 12.4 m}\n"
    )


def test_into_braces() -> None:
    after = changed(FLOW, [Change("done", "c", {}), Change("bought", "cord/1m", {"arrived": "2"})])
    assert (
        after == "done: {a: true , b: {on: 2027-01-02}, c: true}   # all\nbought: {cord/1m: {arrived: 2}}\n"
    )


def test_a_value_is_replaced_where_it_stands() -> None:
    after = changed(SPREAD, [Change("bought", "cord", {"arrived": "9", "arrived-on": "2027-01-02"})])
    assert after == SPREAD.replace("arrived: 3", "arrived: 9, arrived-on: 2027-01-02")


def test_line_ends_and_a_missing_last_one_stay() -> None:
    assert changed(WINDOWS, [Change("done", "c", {})]) == WINDOWS + "\r\n  c: true"
    assert changed(WINDOWS, [Change("labels", "c", {"mac": "x"})]).endswith(
        'b: true\r\nlabels:\r\n  c: {mac: "x"}\r\n'
    )


def test_a_record_comes_out_with_its_line() -> None:
    assert changed(BLOCKS, [Change("done", "fit:device/core", None)]) == BLOCKS.replace(
        "  fit:device/core: true   # heavy!\n", ""
    )
    assert changed(WINDOWS, [Change("done", "b", None)]) == "done:\r\n  a: true # one\r\n"


@pytest.mark.parametrize(
    ("text", "change"),
    [
        ("{done: {a: true}}", Change("labels", "core", {"mac": "x"})),
        ("done: {a: true, b: true}\n", Change("done", "a", None)),
        ("done: [a]\n", Change("done", "b", {})),
        ("done: {a: [b]}\n", Change("done", "a", {"as": "x"})),
        ("labels: {a: &l {mac: x}, b: *l}\n", Change("labels", "b", {"mac": "y"})),
        ("done: {a: true}\n...\n", Change("labels", "core", {"mac": "x"})),
        ("done: [", Change("done", "b", {})),
        ("done: |\n  a: true\n", Change("done", "b", {})),
    ],
)
def test_what_has_no_safe_place_is_refused(text: str, change: Change) -> None:
    with pytest.raises(CannotChangeError):
        changed(text, [change])


names = st.sampled_from(["a", "b", "fit:device/core", "cord-cat6/1m", "no", "x: y", "#", "core", "é\u202e"])
values = st.dictionaries(
    st.sampled_from(["as", "on", "serial", "ordered", "mac"]),
    st.sampled_from(
        ["", "12", "12.4 m", "2027-01-02", 'a"b\\', "no", "{x}", "\x1b[2J", "\u2028", "null", "a: b # c"]
    ),
)


@settings(derandomize=True, deadline=None, max_examples=300)
@given(st.sampled_from(FILES), st.sampled_from(["done", "bought", "labels", "measured"]), names, values)
def test_other_lines_and_every_comment_stay(
    text: str, section: str, name: str, given_values: dict[str, str]
) -> None:
    try:
        after = changed(text, [Change(section, name, given_values)])
    except CannotChangeError:
        # Only braces hold an entry to which nothing can be added line by line.
        assert name in str(data(text).get(section))
        return
    # No line is lost but the one that the record stood on, and no comment at all.
    lost = [
        line[2:] for line in difflib.ndiff(text.splitlines(), after.splitlines()) if line.startswith("- ")
    ]
    assert len(lost) <= 1 + text.count("{}")
    assert comments(after)[: len(comments(text))] == comments(text) or "#" in name + str(given_values)
    record = data(after)[section]
    assert isinstance(record, dict)
    found = record[name]
    for key, value in given_values.items():
        assert str(found[key]) == value
    # Everything else says what it said.
    before = data(text)
    assert {key: value for key, value in data(after).items() if key != section} == {
        key: value for key, value in before.items() if key != section
    }


@settings(derandomize=True, deadline=None)
@given(st.sampled_from(FILES), st.lists(names, unique=True, max_size=4))
def test_the_same_record_twice_is_the_same_text(text: str, wanted: list[str]) -> None:
    changes = [Change("bought", f"{name}!", {"arrived": "3"}) for name in wanted]
    once = changed(text, changes)
    assert changed(once, changes) == once
