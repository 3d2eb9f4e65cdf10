"""Assumptions on a plan's tree: every form of the notation does what writing it into the plan would do, and no other node changes."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from firstfix.finding.collector import Collector
from firstfix.plan.assume import assumed
from firstfix.plan.assumption import AssumptionError, read_assumption
from firstfix.source.node import Mapping, Node, Scalar, Sequence
from firstfix.source.reader import parse
from repo.editing import PLANS_OF_ONE_FILE

PLAN = """\
sites: {home: {rooms: {den: {mains: 4}, loft: {}}}}
ways:
  duct: {between: [den, loft], length: 38 m}
  run-1..3: {between: [den, loft], length: 12 ft}
cabinets:
  main: {room: den, part: wall-cabinet-6u, layout: {5: core, 2: {fit: shelf-1u, carries: [store, spare]}}}
vlans: {all: {id: 5, reaches: internet}}
devices:
  core: {part: switch-8, note: the old one}
  store: {part: storage-2-bay, plugs-into: core}
  cam-1..3: {part: camera, room: loft, host: 20, plugs-into: [panel/4..6, core]}
  cam-2: {room: den}
links:
  - {run: [store, core]}
  - {run: [cam-1..3, core]}
shops: {north: {offers: {cord-cat6/0.5m: 2.40}}}
"""


def plain(node: Node) -> Any:
    if isinstance(node, Mapping):
        return {key: plain(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Sequence):
        return [plain(each) for each in node.items]
    assert isinstance(node, Scalar)
    return node.text


def tree() -> Mapping:
    faults = Collector()
    found = parse(PLAN.encode(), "plan.yaml", faults)
    assert isinstance(found, Mapping)
    assert not faults.findings
    return found


def after(*texts: str) -> Any:
    given = [read_assumption(text, f"--assume {number}") for number, text in enumerate(texts, 1)]
    return plain(assumed(tree(), given))


def at(found: Any, *keys: str | int) -> Any:
    for key in keys:
        found = found[key]
    return found


BEFORE = plain(tree())

VALUES: list[tuple[str, tuple[str | int, ...], Any]] = [
    ("ways.duct.length=58 m", ("ways", "duct", "length"), "58 m"),
    ("ways.duct.length += 20 m", ("ways", "duct", "length"), "58 m"),
    ("ways.duct.length-=3.5 m", ("ways", "duct", "length"), "34.5 m"),
    # 2000 mm are two of the metres in which it is written; 10 ft are 3.048 m exactly (international foot of 1959).
    ("ways.duct.length+=2000 mm", ("ways", "duct", "length"), "40 m"),
    ("ways.duct.length+=10 ft", ("ways", "duct", "length"), "41.048 m"),
    ("vlans.all.id+=1", ("vlans", "all", "id"), "6"),
    ("vlans.all.reaches+=names", ("vlans", "all", "reaches"), ["internet", "names"]),
    ("devices.core={part: switch-16}", ("devices", "core"), {"part": "switch-16", "note": "the old one"}),
    ("devices.new={part: camera, room: den}", ("devices", "new"), {"part": "camera", "room": "den"}),
    ("cabinets.main.layout.4={keep-free: more}", ("cabinets", "main", "layout", "4"), {"keep-free": "more"}),
    ("cabinets.main={layout: {1: strip}}", ("cabinets", "main", "layout", "5"), "core"),
    ("links+={run: [a, b]}", ("links", 2), {"run": ["a", "b"]}),
    ("links.1.run=[store, core/3]", ("links", 0, "run"), ["store", "core/3"]),
    ("shops.north.offers.cord-cat6/0.5m=9", ("shops", "north", "offers", "cord-cat6/0.5m"), "9"),
    ("cabling.slack=3 m", ("cabling", "slack"), "3 m"),
    ("sold-out switch-8", ("purchase", "sold-out"), ["switch-8"]),
    ("devices.cam-1..3.part=sensor-poe", ("devices", "cam-1..3", "part"), "sensor-poe"),
    ("ways.run-2.length+=1 ft", ("ways", "run-2", "length"), "13 ft"),
    ("devices.cam-3.part=sensor-poe", ("devices", "cam-3", "part"), "sensor-poe"),
    ('devices.core.note="a, b: {c}"', ("devices", "core", "note"), "a, b: {c}"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "keys", "value"), VALUES, ids=[each[0] for each in VALUES])
def test_the_value_stands_where_the_path_says(text: str, keys: tuple[str | int, ...], value: Any) -> None:
    assert at(after(text), *keys) == value
    assert plain(tree()) == BEFORE


def test_the_tree_given_is_left_as_it_was() -> None:
    whole = tree()
    assumed(whole, [read_assumption("ways.duct.length=58 m", "--assume 1")])
    assert plain(whole) == BEFORE


def test_what_is_not_on_the_way_is_shared() -> None:
    whole = tree()
    changed = assumed(whole, [read_assumption("ways.duct.length=58 m", "--assume 1")])
    assert changed.entries["devices"][1] is whole.entries["devices"][1]


def test_of_a_series_only_the_member_differs() -> None:
    devices = after("devices.cam-3.part=sensor-poe")["devices"]
    assert "cam-1..3" not in devices
    assert devices["cam-1"] == {"part": "camera", "room": "loft", "host": "20", "plugs-into": ["panel/4", "core"]}  # fmt: skip
    assert devices["cam-2"]["room"] == "den"
    assert devices["cam-3"] == {"part": "sensor-poe", "room": "loft", "host": "22", "plugs-into": ["panel/6", "core"]}  # fmt: skip


def test_a_device_goes_with_its_runs_and_its_place() -> None:
    found = after("no devices.store")
    assert "store" not in found["devices"]
    assert found["links"] == BEFORE["links"][1:]
    assert found["cabinets"]["main"]["layout"]["2"] == {"fit": "shelf-1u", "carries": ["spare"]}
    assert "5" not in after("no devices.core")["cabinets"]["main"]["layout"]


@pytest.mark.parametrize("run", ["[store, core]", "[core, store]", "[store/1, core]"])
def test_a_link_goes_by_what_it_says(run: str) -> None:
    found = after("links.1.run=[store/1, core]", f"links-={{run: {run}}}")
    assert found["links"] == BEFORE["links"][1:]


def test_of_two_links_alike_one_must_be_named() -> None:
    twice = (
        "links+={run: [core, store], rate: 1 Gb/s}",
        "links+={run: [core, store], rate: 10 Gb/s}",
        "no links.1",
    )
    assert len(after(*twice, "links-={run: [store, core], rate: 10 Gb/s}")["links"]) == 2
    with pytest.raises(AssumptionError, match=r"2 entries like .*, numbers 2, 3; .*'no links\.2'"):
        after(*twice, "links-={run: [store, core]}")


def test_of_links_in_a_series_one_goes() -> None:
    found = after("links-={run: [cam-2, core]}")
    assert [each["run"][0] for each in found["links"]] == ["store", "cam-1", "cam-3"]


def test_of_a_series_one_goes() -> None:
    found = after("no devices.cam-2")
    assert [name for name in found["devices"] if name.startswith("cam")] == ["cam-1", "cam-3"]
    assert found["links"] == [{"run": ["store", "core"]}, {"run": ["cam-1", "core"]}, {"run": ["cam-3", "core"]}]  # fmt: skip


def test_they_are_made_in_their_order() -> None:
    found = after("ways.duct.length+=2 m", "ways.duct.length+=3 m", "no ways.run-1..3")
    assert list(found["ways"]) == ["duct"]
    assert found["ways"]["duct"]["length"] == "43 m"


def test_places_are_those_of_the_text() -> None:
    text = "devices.cam-9={part: camera, room: den}"
    whole = assumed(tree(), [read_assumption(text, "--assume 1")])
    devices = whole.value("devices")
    assert isinstance(devices, Mapping)
    key, made = devices.entries["cam-9"]
    part = made.value("part") if isinstance(made, Mapping) else None
    assert part is not None
    spans = [(text[each.column - 1 : each.end_column - 1], str(each)) for each in (key.span, part.span)]
    assert spans == [("cam-9", "--assume 1:1:9"), ("camera", "--assume 1:1:22")]


FAULTS = {
    "": "says no change",
    "devices.core": "says no change",
    "devices.core=": "nothing stands after 'devices.core='",
    "devices..core=1": "a plan has no key 'devices..core'",
    ".core=1": "a key is missing",
    "dvices.core.part=x": "a plan has no key 'dvices'; did you mean 'devices'?",
    "include=other.yaml": "a plan has no key 'include'",
    "ways.dcut.length=5 m": "in ways there is no 'dcut'; did you mean 'duct'?",
    "no devices.stroe": "in devices there is no 'stroe'; did you mean 'store'?",
    "ways.duct.length.of=1": "ways.duct.length is '38 m', and nothing stands below it",
    "ways.duct.length+=5 W": "has another unit",
    "ways.duct.length+=far": "cannot be added",
    "ways.duct+=5 m": "a table is laid over another with '='",
    "devices.core.drop+=1 m": "is not written in this plan, so nothing can be added to it",
    "vlans.all.reaches-=internt": "does not name 'internt'; did you mean 'internet'?",
    "links-={run: [stoer, core]}": "links has no entry '{run: [stoer, core]}'; did you mean '{run: [store, core]}'?",
    "links-={run: [store, core], phase: late}": "links has no entry '{run: [store, core], phase: late}'",
    "links-={part: x}": "links has no entry '{part: x}'",
    "links.7.run=[a, b]": "links is a list of 2, whose entries go by number, from 1; there is no '7'",
    "devices.core={part: [": "what stands after the sign is no value",
    "devices.core={part: a, part: b}": "the key 'part' stands twice",
    "sold-out": "says no change",
    "x" * 20_000: "at most 10,000 are read",
    "cabling" + ".a" * 3_000 + "=1": "has 3,001 keys; at most 24 are read",
    "devices.core.note=" + "[" * 3_000: "what stands after the sign is no value",
}


@pytest.mark.parametrize("text", FAULTS)
def test_what_cannot_be_made_is_one_sentence(text: str) -> None:
    with pytest.raises(AssumptionError) as raised:
        after(text)
    assert FAULTS[text] in str(raised.value)
    assert str(raised.value).startswith("--assume 1")
    assert "\n" not in str(raised.value)


def test_the_notation_is_the_plans_own() -> None:
    """Whatever stands after the sign is read as the plan would read it."""
    for value in ("58 m", "[a, b/3]", "{part: x, mac: '00:00:5e:00:53:0a'}", "'it''s'", '"a\\tb"', "true"):
        mine = after(f"devices.core.x-own={value}")["devices"]["core"]["x-own"]
        theirs = parse(f"x: {value}".encode(), "plan.yaml", Collector())
        assert isinstance(theirs, Mapping)
        assert mine == plain(theirs.entries["x"][1])


def test_a_value_over_several_lines() -> None:
    assert after("devices.core={part: a,\n  room: b}")["devices"]["core"]["room"] == "b"


def leaves(node: Any, at: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    if isinstance(node, dict):
        for key, value in node.items():
            yield from leaves(value, (*at, key))
    elif isinstance(node, list):
        for number, value in enumerate(node, 1):
            yield from leaves(value, (*at, str(number)))
    else:
        yield ".".join(at), node


@pytest.mark.parametrize("path", PLANS_OF_ONE_FILE, ids=lambda path: path.stem)
def test_writing_what_is_there_changes_nothing_and_anything_else_only_that(path: Path) -> None:
    """At every value of whole plans."""
    whole = parse(path.read_bytes(), path.name, Collector())
    assert isinstance(whole, Mapping)
    before = dict(leaves(plain(whole)))
    for place, text in sorted(before.items()):
        for value in (text, f"{text} and more"):
            given = read_assumption(f"{place}={json.dumps(value)}", "--assume 1")
            found = dict(leaves(plain(assumed(whole, [given]))))
            assert {key: each for key, each in found.items() if each != before.get(key)} == (
                {} if value == text else {place: value}
            )
            # A member of a series that is named has an entry of its own; nothing is lost by that.
            assert before.keys() <= found.keys() or ".." in path.read_text("utf-8")
