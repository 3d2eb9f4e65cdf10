"""Identifiers: each once on every plan, short by names, and by ANSI/TIA-606 as its published examples are."""

from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.administration import SIMPLE, TIA_606
from firstfix.build.model import Build
from firstfix.graphs.administration import Identifiers, identifiers
from firstfix.pipeline import compile_plan
from firstfix.plan.read_labels import SCHEMES
from repo.editing import LANGUAGE_PLANS, PLANS, ROOT
from resolve.planning import build_of

BAD = tuple(sorted((ROOT / "plans" / "bad").glob("[a-z-]*.yaml")))
ALL_PLANS = tuple(path for path in (*PLANS, *LANGUAGE_PLANS, *BAD) if "." not in path.stem)


@cache
def _build(path: Path) -> Build:
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


def _by(build: Build, scheme: str) -> Build:
    """The same build by another scheme; what would be chosen for the standard one is not there, so names stand for it."""
    from dataclasses import replace

    return replace(build, administration=build.administration._replace(scheme=scheme))


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("path", ALL_PLANS, ids=lambda path: path.stem)
def test_every_identifier_is_there_once(path: Path, scheme: str) -> None:
    build = _by(_build(path), scheme)
    names = identifiers(build)
    for table in (names.rooms, {**names.cabinets, **names.devices}):
        assert max(Counter(table.values()).values(), default=1) == 1
    ports = {(jack.device, jack.name): names.jacks[jack.id] for jack in build.jacks.values()}
    assert len(set(ports.values())) == len(ports)
    cables = [names.cable(piece, piece.ends[0]) for piece in build.pieces.values()]
    assert len(set(cables)) == len(cables)


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_the_ends_of_a_cable_mirror_each_other(path: Path, scheme: str) -> None:
    build = _by(_build(path), scheme)
    names = identifiers(build)
    assert build.pieces
    for piece in build.pieces.values():
        near, far = (names.cable(piece, end).split(names.between) for end in piece.ends)
        assert near == far[::-1] != far
        assert near[0] == names.jacks[piece.ends[0]]


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_they_are_in_capitals(path: Path, scheme: str) -> None:
    names = identifiers(_by(_build(path), scheme))
    for each in (
        *names.rooms.values(),
        *names.cabinets.values(),
        *names.devices.values(),
        *names.jacks.values(),
    ):
        assert each == each.upper()


def test_the_words_of_the_language_are_those_of_the_build() -> None:
    assert SCHEMES == (SIMPLE, TIA_606)


# ANSI/TIA-606-B and -C (formats from memory, through digests): 1A, 1A.AD02, 1A.AD02-35, 1A.AD02-35:04 and 1A.AD02-35:04/1A.AE05-40:11.
PUBLISHED: dict[str, Any] = {
    "labels": {"scheme": "tia-606"},
    "sites": {"yard": {"rooms": {"hall": {"floor": 1}}}},
    "cabinets": {
        "left": {
            "part": "floor-cabinet-42u",
            "room": "hall",
            "label": "AD02",
            "layout": {"35": "panel-left"},
        },
        "right": {
            "part": "floor-cabinet-42u",
            "room": "hall",
            "label": "AE05",
            "layout": {"39-40": "panel-right"},
        },
    },
    "devices": {"panel-left": {"part": "tall-panel"}, "panel-right": {"part": "tall-panel"}},
    "parts": {"tall-panel": {"like": "keystone-panel-24-1u"}},
    "links": [{"run": ["panel-left/4", "panel-right/11"]}],
}


def _published(folder: Path) -> tuple[Build, Identifiers]:
    build = build_of(folder, PUBLISHED)
    return build, identifiers(build)


def test_the_published_examples(tmp_path: Path) -> None:
    build, names = _published(tmp_path)
    assert names.rooms["room:yard/hall"] == "1A"
    assert names.cabinets == {"cabinet:left": "1A.AD02", "cabinet:right": "1A.AE05"}
    assert names.devices["device:panel-left"] == "1A.AD02-35"
    assert names.devices["device:panel-right"] == "1A.AE05-40"
    assert names.jacks["jack:panel-left/4"] == names.jacks["jack:panel-left/4@rear"] == "1A.AD02-35:04"
    (piece,) = build.pieces.values()
    near, far = sorted(piece.ends)
    assert names.cable(piece, near) == "1A.AD02-35:04/1A.AE05-40:11"
    assert names.cable(piece, far) == "1A.AE05-40:11/1A.AD02-35:04"


def test_several_buildings_and_sites_come_before(tmp_path: Path) -> None:
    """b-fs and c-b-fs, as HQ-1A."""
    plan: dict[str, Any] = {
        "labels": {"scheme": "tia-606"},
        "sites": {
            "home": {
                "buildings": {"head-quarters": {"rooms": {"a": {"floor": 1}}}, "barn": {"rooms": {"b": {}}}}
            }
        },
        "devices": {"one": {"part": "camera", "room": "a"}, "two": {"part": "camera", "room": "b"}},
    }
    assert identifiers(build_of(tmp_path, plan)).rooms == {"room:home/a": "HQ-1A", "room:home/b": "B-0A"}
    plan["sites"]["away"] = {"label": "X", "rooms": {"c": {"floor": -1}}}
    plan["devices"]["three"] = {"part": "camera", "room": "c"}
    rooms = identifiers(build_of(tmp_path, plan)).rooms
    assert rooms["room:home/a"] == "H-HQ-1A"
    assert rooms["room:away/c"] == "X-A-B1A"


def test_simple_identifiers_are_names(tmp_path: Path) -> None:
    plan = {**PUBLISHED, "labels": {"scheme": "simple"}}
    build = build_of(tmp_path, plan)
    names = identifiers(build)
    (piece,) = build.pieces.values()
    assert names.devices["device:panel-left"] == "PANEL-LEFT"
    assert not names.says_more(build.devices["device:panel-left"])
    assert names.cabinets["cabinet:left"] == "AD02"
    assert names.cable(piece, min(piece.ends)) == "PANEL-LEFT/4 TO PANEL-RIGHT/11"


def test_a_device_added_changes_no_simple_identifier(tmp_path: Path) -> None:
    before = identifiers(build_of(tmp_path, {**PUBLISHED, "labels": {}})).jacks
    more = {
        **PUBLISHED,
        "labels": {},
        "devices": {**PUBLISHED["devices"], "aa": {"part": "camera", "room": "hall"}},
    }
    after = identifiers(build_of(tmp_path, more)).jacks
    assert before.items() < after.items()
