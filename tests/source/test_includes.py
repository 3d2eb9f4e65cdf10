"""Several files as one plan."""

from pathlib import Path

import pytest

from firstfix.finding.collector import Collector
from firstfix.source.load import Source, load
from firstfix.source.node import Mapping, Node, Scalar, Sequence


def _loaded(folder: Path, files: dict[str, str]) -> tuple[Source, list[str]]:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, "utf-8")
    faults = Collector()
    source = load(folder / "plan.yaml", "plan.yaml", faults)
    return source, [f"{each.primary}: {each.message}" for each in faults.findings]


def _plain(node: Node | None) -> object:
    if isinstance(node, Mapping):
        return {key: _plain(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Sequence):
        return [_plain(each) for each in node.items]
    return node.text if isinstance(node, Scalar) else None


def test_one_file_or_a_list_of_them(tmp_path: Path) -> None:
    files = {
        "plan.yaml": "include: a/a.yaml\ndevices: {x: {}}\nlinks: [p]\n",
        "a/a.yaml": "include: [a/b.yaml]\ndevices: {y: {}}\nlinks: [q]\n",
        "a/b.yaml": "devices: {z: {}}\nvlans: {v: {}}\n",
    }
    source, faults = _loaded(tmp_path, files)
    assert faults == []
    assert _plain(source.tree) == {
        "devices": {"x": {}, "y": {}, "z": {}},
        "links": ["p", "q"],
        "vlans": {"v": {}},
    }


def test_a_site_may_be_spread_over_files(tmp_path: Path) -> None:
    files = {
        "plan.yaml": "include: [a.yaml, b.yaml]\nsites: {s: {earth: own}}\n",
        "a.yaml": "sites: {s: {buildings: {one: {rooms: {r: {}}}}}}\n",
        "b.yaml": "sites: {s: {buildings: {one: {rooms: {q: {}}}, two: {}}}}\n",
    }
    source, faults = _loaded(tmp_path, files)
    assert faults == []
    buildings: dict[str, object] = {"one": {"rooms": {"r": {}, "q": {}}}, "two": {}}
    assert _plain(source.tree) == {"sites": {"s": {"earth": "own", "buildings": buildings}}}


@pytest.mark.parametrize(
    ("first", "second", "name", "place"),
    [
        ("devices: {x: {}}", "devices: {x: {}}", "x", "1:11"),
        ("name: a", "name: a", "name", "1:1"),
        ("links: [a]", "links: {a: b}", "links", "1:1"),
        ("sites: {s: {earth: a}}", "sites: {s: {earth: a}}", "earth", "1:13"),
        ("sites: {s: {rooms: {r: {}}}}", "sites: {s: {rooms: {r: {}}}}", "r", "1:21"),
        ("cabinets: {c: {layout: {1: a}}}", "cabinets: {c: {layout: {2: b}}}", "c", "1:12"),
    ],
)
def test_nothing_is_written_in_two_files(
    tmp_path: Path, first: str, second: str, name: str, place: str
) -> None:
    _, faults = _loaded(tmp_path, {"plan.yaml": f"{first}\ninclude: b.yaml\n", "b.yaml": second + "\n"})
    assert faults == [f"b.yaml:{place}: '{name}' is written in two files of this plan"]


def test_a_ring_of_includes_ends(tmp_path: Path) -> None:
    files = {
        "plan.yaml": "include: a.yaml\n",
        "a.yaml": "include: b.yaml\n",
        "b.yaml": "include: [a.yaml, plan.yaml]\n",
    }
    _, faults = _loaded(tmp_path, files)
    assert faults == [
        "b.yaml:1:11: 'a.yaml' is included already",
        "b.yaml:1:19: 'plan.yaml' is included already",
    ]
