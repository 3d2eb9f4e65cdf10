"""Where a misplaced key belongs, what a common word stands for, and what is in doubt after a fault."""

from pathlib import Path

import pytest
import yaml

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.pipeline import compile_plan
from firstfix.plan.read import read_plan
from firstfix.source.doubt import leave_out
from firstfix.source.homes import PLACES, elsewhere
from firstfix.source.nearest import nearest
from firstfix.source.node import Mapping
from firstfix.source.reader import parse
from firstfix.units import LENGTH, QuantityFault, parse_quantity

# A table of each place, as it stands in a plan, with one key in it.
_FORMS = {
    "devices: NAME": "devices: {{a: {{part: switch-8, {key}: 1}}}}",
    "an entry of 'links'": "links: [{{run: [a, b], {key}: 1}}]",
    "vlans: NAME": "vlans: {{a: {{id: 1, {key}: 1}}}}",
    "ways: NAME": "ways: {{a: {{between: [a, b], {key}: 1}}}}",
    "sites: NAME": "sites: {{a: {{{key}: 1}}}}",
    "rooms: NAME": "sites: {{a: {{rooms: {{b: {{{key}: 1}}}}}}}}",
    "cabinets: NAME": "cabinets: {{a: {{part: wall-cabinet-6u, {key}: 1}}}}",
    "a unit of a cabinet's 'layout'": "cabinets: {{a: {{part: wall-cabinet-6u, layout: {{1: {{device: x, {key}: 1}}}}}}}}",
    "wifi: NAME": "wifi: {{a: {{vlan: b, {key}: 1}}}}",
    "names": "names: {{{key}: 1}}",
    "cabling": "cabling: {{{key}: 1}}",
    "phases: NAME": "phases: {{a: {{{key}: 1}}}}",
    "circuits: NAME": "circuits: {{a: {{{key}: 1}}}}",
    "internet": "internet: {{{key}: 1}}",
    "an entry of 'exceptions'": "exceptions: [{{{key}: 1}}]",
    "parts: NAME": "parts: {{a: {{like: switch-8, {key}: 1}}}}",
}


@pytest.mark.parametrize(("place", "key"), [(place, key) for place, keys in PLACES.items() for key in keys])
def test_the_key_is_known_at_the_place_that_is_told(place: str, key: str) -> None:
    """Its value may be at fault there, and the key is not."""
    faults = Collector()
    tree = parse(
        _FORMS[place].format(key=key).replace(f"{key}: 1, {key}: 1", f"{key}: 1").encode(),
        "plan.yaml",
        faults,
    )
    assert isinstance(tree, Mapping)
    read_plan(tree, library(), faults)
    assert [each.message for each in faults.findings if each.rule == "key-unknown"] == []
    assert place.strip("'") in elsewhere(key).replace("'", "") or place in elsewhere(key)


def test_all_names_of_what_is_left_out_are_in_doubt() -> None:
    faults = Collector()
    tree = parse(b"a: [core/3, {desk: 'hall -> Loft 2'}]\n", "plan.yaml", faults)
    assert tree is not None
    leave_out(tree, faults)
    assert {"core", "3", "desk", "hall", "loft", "2", "a"} <= faults.in_doubt


def test_a_hostile_value_puts_only_so_much_in_doubt() -> None:
    faults = Collector()
    tree = parse(b"[" + b",".join(b"a-%d" % n for n in range(60_000)) + b"]\n", "plan.yaml", faults)
    assert tree is not None
    leave_out(tree, faults)
    assert len(faults.in_doubt) < 20_100


@pytest.mark.parametrize(
    ("value", "whole"),
    [
        ("the box is theirs, nothing comes in", "the box is theirs, nothing comes in"),
        ("one, two of them, and three", "one, two of them, and three"),
        ('it says "no", as it must', 'it says "no", as it must'),
    ],
)
def test_a_comma_in_braces_ends_a_text(value: str, whole: str, tmp_path: Path) -> None:
    """One finding, whose cure makes the text whole; what comes after it is still read."""
    plan = "sites: {home: {rooms: {den: {note: TEXT, mains: 4}}}}\n"
    path = tmp_path / "plan.yaml"
    path.write_text(plan.replace("TEXT", value), "utf-8")
    (finding,) = compile_plan(path, "plan.yaml").report.findings
    assert "within braces { } a text with a comma stands in quotes" in finding.message
    (edit,) = finding.cures[0].edits
    line = path.read_text("utf-8").split("\n")[0]
    mended = line[: edit.span.column - 1] + edit.text + line[edit.span.end_column - 1 :]
    assert yaml.safe_load(mended)["sites"]["home"]["rooms"]["den"] == {"note": whole, "mains": 4}
    path.write_text(mended, "utf-8")
    assert compile_plan(path, "plan.yaml").report.findings == ()


def test_names_with_their_words_in_another_order() -> None:
    assert nearest("outdoor-access-point", ["access-point", "access-point-outdoor"]) == "access-point-outdoor"
    assert nearest("a-b", ["b-a-c"]) is None


def test_what_has_another_kind_by_chance_is_offered_the_near_name(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(
        "sites: {home: {rooms: {den: {mains: 4}}}}\nvlans: {cameras: {id: 5, subnet: 10.1.5.0/24}}\n"
        "devices: {core: {part: switch-8, room: den, vlan: camera}}\n"
    )
    messages = [each.message for each in compile_plan(path, "plan.yaml").report.findings]
    assert "there is no VLAN 'camera'; did you mean 'cameras'? ('camera' is a part)" in messages


def test_a_long_row_of_digits_is_not_taken_for_a_unit() -> None:
    fault = parse_quantity("12345678901234567890 m", LENGTH)
    assert isinstance(fault, QuantityFault)
    assert fault.problem == "'12345678901234567890 m' has more digits than any quantity here"
    assert parse_quantity("123456789012345 m", LENGTH) == 123456789012345
