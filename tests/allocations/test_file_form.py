"""The file of kept choices: what is written is read back, any YAML reader sees the same, and the schema agrees with the reader."""

import json
import random
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from allocations.keeping import lines
from allocations.test_hostile_files import BESIDE_THE_POINT, FAULTY
from firstfix.allocations.choices import (
    LABELLED_KINDS,
    Choices,
    KeptFeed,
    KeptHost,
    KeptLabel,
    KeptRoute,
    KeptRouter,
    KeptRun,
    KeptStop,
)
from firstfix.allocations.read import read_choices
from firstfix.allocations.write import choices_text
from firstfix.finding.collector import Collector
from firstfix.resources import schemas

SCHEMA = json.loads((schemas() / "allocations.schema.json").read_text("utf-8"))
Draft202012Validator.check_schema(SCHEMA)
relaxed = settings(derandomize=True, deadline=None, max_examples=60)

# Words that some YAML readers take for something else are names like any other; so may be what a stranger wrote.
words = st.sampled_from(
    [
        "no",
        "on",
        "null",
        "true",
        "y",
        "core",
        "a-1",
        "10",
        "1e5",
        "0x1f",
        "~",
        "- x",
        "a: b",
        "#",
        "é",
        '"',
        "'",
        "<b>",
    ]
)
odd = words | st.text(
    st.characters(codec="utf-8", exclude_categories=["Cc", "Cs"], exclude_characters="\ufeff\u2028\u2029"),
    min_size=1,
    max_size=12,
)
devices = odd.map(lambda text: text.replace("/", "-"))
no_place = st.none()
stops = st.builds(KeptStop, devices, st.lists(odd, min_size=1, max_size=4).map(tuple))
stops_of_run = st.lists(stops, min_size=2, max_size=4).map(tuple)
rooms = st.tuples(odd, odd).map(lambda pair: tuple(sorted(pair)))
runs = st.builds(KeptRun, odd, stops_of_run, odd | st.just(""), no_place)
hosts = st.builds(KeptHost, devices, odd, st.integers(1, 2**64), no_place)
feeds = st.builds(KeptFeed, devices, st.integers(1, 100), odd, st.integers(1, 100_000), no_place)
routes = st.builds(KeptRoute, rooms, st.lists(odd, min_size=1, max_size=3).map(tuple), no_place)
routers = st.builds(KeptRouter, devices, no_place)
own_parts = st.text("ABC019", min_size=1, max_size=5)
labels = st.builds(KeptLabel, st.sampled_from(LABELLED_KINDS), odd, own_parts, no_place)
choices = st.builds(
    Choices,
    st.lists(runs, max_size=3).map(tuple),
    st.lists(hosts, max_size=3).map(tuple),
    st.lists(feeds, max_size=3).map(tuple),
    st.lists(routes, max_size=3).map(tuple),
    st.lists(routers, max_size=1).map(tuple),
    st.lists(labels, max_size=3).map(tuple),
)


def plain(text: str) -> Any:
    return YAML(typ="safe", pure=True).load(text)


def without_places(read: Choices) -> list[set[Any]]:
    return [{each._replace(at=None) for each in kind} for kind in read]


@relaxed
@given(choices)
def test_what_is_written_is_read_back(given: Choices) -> None:
    faults = Collector()
    read = read_choices(choices_text(given).encode(), "x", faults)
    assert [each.message for each in faults.findings] == []
    assert without_places(read) == [set(kind) for kind in given]
    assert choices_text(read) == choices_text(given)


@relaxed
@given(choices)
def test_the_schema_takes_what_is_written_also_through_another_reader(given: Choices) -> None:
    data = plain(choices_text(given)) or []
    Draft202012Validator(SCHEMA).validate(data)
    assert len(data) == len(lines(choices_text(given)))


@relaxed
@given(choices, st.randoms(use_true_random=False))
def test_the_order_of_choices_does_not_show(given: Choices, chance: random.Random) -> None:
    shuffled = Choices(
        tuple(chance.sample(given.runs, len(given.runs))),
        tuple(chance.sample(given.hosts, len(given.hosts))),
        tuple(chance.sample(given.feeds, len(given.feeds))),
        tuple(chance.sample(given.routes, len(given.routes))),
        given.routers,
        tuple(chance.sample(given.labels, len(given.labels))),
    )
    assert choices_text(shuffled) == choices_text(given)


@pytest.mark.parametrize("name", FAULTY)
def test_the_schema_refuses_what_the_reader_refuses(name: str) -> None:
    if name in ("huge", "garbage", "aliases", "deep"):
        return
    text = FAULTY[name][0].decode()
    try:
        data = plain(text)
    except (YAMLError, RecursionError, ValueError):
        return
    # What a schema cannot say: that two texts begin alike, and that two are in order.
    assert Draft202012Validator(SCHEMA).is_valid(data) == (
        name in ("two devices at one place", "rooms out of order")
    )


@pytest.mark.parametrize("name", BESIDE_THE_POINT)
def test_the_schema_takes_what_the_reader_takes(name: str) -> None:
    Draft202012Validator(SCHEMA).validate(plain(BESIDE_THE_POINT[name]))


def test_a_line_of_another_file_moves_no_line_of_this_one() -> None:
    """Where a line stands depends on what it is about, and on nothing else."""
    some = [KeptHost(f"device-{number}", "house", number + 10) for number in range(40)]
    all_lines = choices_text(Choices(hosts=tuple(some))).splitlines()
    fewer = choices_text(Choices(hosts=tuple(some[::3]))).splitlines()
    assert fewer == [line for line in all_lines if line in set(fewer)]
    moved = choices_text(Choices(hosts=(some[0]._replace(host=99), *some[1:]))).splitlines()
    changed = [number for number, (a, b) in enumerate(zip(all_lines, moved, strict=True)) if a != b]
    assert len(changed) == 1
