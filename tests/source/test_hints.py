"""Where a misplaced key belongs, what a common word stands for, and what is in doubt after a fault."""

import pytest

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.read import read_plan
from firstfix.source.doubt import leave_out
from firstfix.source.homes import PLACES, elsewhere
from firstfix.source.node import Mapping
from firstfix.source.reader import parse

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
