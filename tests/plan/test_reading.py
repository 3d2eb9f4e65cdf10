"""Each fault of a plan's words, at its place, in its words."""

import pytest

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.source.node import Mapping
from firstfix.source.reader import parse


def _read(text: str) -> tuple[Plan, list[str]]:
    faults = Collector()
    tree = parse(text.encode(), "plan.yaml", faults)
    assert isinstance(tree, Mapping)
    plan = read_plan(tree, library(), faults)
    return plan, [f"{each.primary}: {each.message}".removeprefix("plan.yaml:") for each in faults.findings]


CASES = (
    ("devises: {}\n", "1:1: a plan has no key 'devises'; did you mean 'devices'?"),
    ("devices: []\n", "1:10: 'devices' is a table with a name before each colon, 'NAME: …', not a list"),
    ("devices: {a: {}}\n", "1:14: the device 'a' needs 'part'"),
    ("devices: {A b: {part: switch-8}}\n", "1:11: 'A b' is no name: small letters, digits and single dashes, at most 63; 'a-b' would do"),
    ("devices: {a: {part: switch-8, drop: 3}}\n", "1:37: 'drop' is a length: '3' has no unit; write '3 m' or '3 mm' or '3 ft'"),
    ("devices: {a: {part: switch-8, drop: -3 m}}\n", "1:37: 'drop' of '-3 m' is less than nothing; did you mean '3 m'?"),
    ("devices: {a: {part: switch-8, owned: yes}}\n", "1:38: 'owned' is true or false, not 'yes'; write 'true'"),
    ("devices: {a: {part: switch-8, mac: 11:22}}\n", "1:36: '11:22' is no MAC address; it has six pairs of hex digits, such as 00:00:5e:00:53:0a"),
    ("links: {}\n", "1:8: 'links' is a list of runs such as '- {run: [desk, panel/3, core]}', not a table of keys and values"),
    ("links: [{run: [a, b/9-1]}]\n", "1:19: 'b/9-1' is no place on a run; write 'b/1-9'"),
    ("links: [{run: [a]}]\n", "1:9: a run names at least its two ends, and at most 40 places; this one names 1"),
    ("links: [{run: [a, b], lanes: 9}]\n", "1:30: 'lanes' is a whole number from 1 to 8, not '9'"),
    ("ways: {a: {between: [b, c], kind: buried-dukt}}\n", "; did you mean 'buried-duct'?"),
    ("ways: {a: {between: [b]}}\n", "1:21: 'between' names the two rooms that the way 'a' joins, such as [study, landing]"),
    ("start: 2027-13-01\n", "1:8: 'start' is a date such as 2027-03-01 (year-month-day), not '2027-13-01'"),
    ("currency: euro\n", "1:11: 'currency' is a code of three letters of ISO 4217 such as EUR, not 'euro'"),
    ("cabinets: {a: {part: b, layout: {x: c}}}\n", "1:34: 'x' is no unit and no range of units such as '8' or '4-6'"),
    ("wifi: {a: {ssid: b, vlan: c, psk: d}}\n", "1:35: a plan holds no passphrase: it is shown to others; key it in at the device"),
    ("defaults: {camra: {vlan: a}}\n", "1:12: 'camra' is no kind of part; did you mean 'camera'?"),
)  # fmt: skip


@pytest.mark.parametrize(("text", "said"), CASES, ids=[text.strip()[:40] for text, _ in CASES])
def test_fault_is_named_at_its_place(text: str, said: str) -> None:
    _, faults = _read(text)
    assert len(faults) == 1
    assert faults[0] == said if not said.startswith(";") else faults[0].endswith(said)


def test_metric_and_imperial_are_the_same_plan() -> None:
    """1 ft = 0.3048 m and 1 in = 25.4 mm exactly: NIST SP 811, appendix B.8."""
    metric, _ = _read("ways: {a: {between: [b, c], length: 41.148 m, bore: 50.8 mm}}\n")
    imperial, _ = _read("ways: {a: {between: [b, c], length: 135 ft, bore: 2 in}}\n")
    assert metric == imperial


def test_keys_of_ones_own_are_left_alone() -> None:
    _, faults = _read("x-mine: [1, {a: b}]\ndevices: {a: {part: switch-8, x-price: 3}, x-b: 4}\n")
    assert faults == []


def test_a_mac_stays_text() -> None:
    """YAML 1.1 reads it as a number to the base of 60."""
    plan, faults = _read("devices: {a: {part: switch-8, mac: 11:22:33:44:55:50}}\n")
    assert faults == []
    assert plan.devices[0].mac == "11:22:33:44:55:50"
