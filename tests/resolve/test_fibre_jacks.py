"""Jacks of runs over fibre: what nobody wrote is found, whatever else of the run is written."""

from itertools import product
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from resolve.planning import build_of

_CHAIN = ("core/sfp1", "fibre-main/1", "fibre-barn/1", "core-barn/sfp1")
_DEVICES = {
    "core": ("switch-16-poe-sfp", "study"),
    "fibre-main": ("fibre-panel-12-1u", "study"),
    "fibre-barn": ("fibre-panel-12-1u", "barn"),
    "core-barn": ("switch-8-poe-sfp", "barn"),
}
# A panel of one's own with openings for copper and jacks for light.
_MIXED = {"like": "fibre-panel-12-1u", "jacks": {"1-6": "rj45", "7-12": "lc"}}


def _plan(run: list[str], parts: dict[str, Any] | None = None, **devices: tuple[str, str]) -> dict[str, Any]:
    placed = {**_DEVICES, **{name.replace("_", "-"): each for name, each in devices.items()}}
    return {
        "sites": {"home": {"rooms": {"study": {}, "barn": {}}}},
        "ways": {"duct": {"between": ["study", "barn"], "length": "30 m", "kind": "buried-duct"}},
        "devices": {name: {"part": part, "room": room} for name, (part, room) in placed.items()},
        "links": [{"run": run}],
        "parts": parts or {},
    }


def _ends(build: Build) -> set[str]:
    return {build.jacks[end].family for piece in build.pieces.values() for end in piece.ends}


@pytest.mark.parametrize(
    "written", list(product((True, False), repeat=4)), ids=lambda each: "".join(map(str, map(int, each)))
)
def test_a_run_over_two_panels_finds_its_jacks(written: tuple[bool, ...], tmp_path: Path) -> None:
    run = [jack if each else jack.partition("/")[0] for jack, each in zip(_CHAIN, written, strict=True)]
    build = build_of(tmp_path, _plan(run))
    assert not build.gaps
    ends = {end.removesuffix("@rear") for piece in build.pieces.values() for end in piece.ends}
    assert ends == {f"jack:{jack}" for jack in _CHAIN}


@pytest.mark.parametrize(
    "run", [["core", "fibre-main", "core-barn"], ["core/sfp2", "fibre-main/3-9", "core-barn"]]
)
def test_one_panel_between_two_cages(run: list[str], tmp_path: Path) -> None:
    build = build_of(tmp_path, _plan(run))
    assert not build.gaps
    assert _ends(build) == {"sfp", "lc"}


@pytest.mark.parametrize("far", ["fibre-barn", "core-barn/sfp1"])
def test_a_panel_for_both_gives_light_where_only_light_goes_on(far: str, tmp_path: Path) -> None:
    """The switch sees copper and light at the panel; what lies behind it has light alone."""
    run = ["core", "mixed", *(["fibre-barn", "core-barn"] if far == "fibre-barn" else [far])]
    build = build_of(tmp_path, _plan(run, {"both": _MIXED}, mixed=("both", "study")))
    assert not build.gaps
    assert _ends(build) == {"sfp", "lc"}


def test_a_panel_for_both_gives_copper_where_copper_goes_on(tmp_path: Path) -> None:
    build = build_of(
        tmp_path,
        _plan(
            ["core", "mixed", "mixed-far", "core-barn"],
            {"both": _MIXED},
            mixed=("both", "study"),
            mixed_far=("both", "barn"),
        ),
    )
    assert not build.gaps
    assert _ends(build) == {"rj45"}


def test_an_installed_run_joins_panels_with_unlike_fibre_jacks(tmp_path: Path) -> None:
    """Each end of the cable is made off for itself."""
    sc = {"like": "fibre-panel-12-1u", "jacks": {"1-12": "sc"}}
    build = build_of(
        tmp_path,
        _plan(
            ["core/sfp1", "fibre-main", "sc-far", "core-barn/sfp1"],
            {"panel-sc": sc},
            sc_far=("panel-sc", "barn"),
        ),
    )
    assert not build.gaps


@pytest.mark.parametrize(
    ("run", "said"),
    [
        (
            ["core/1", "fibre-main", "core-barn"],
            "12 lc that cannot be joined to what lies beyond; take a part with jacks of rj45",
        ),
        (
            ["desk", "core-barn/sfp1-sfp2"],
            "8 rj45 not among those written, 2 sfp that cannot be joined to what lies beyond; write other",
        ),
        (["core/sfp1", "fibre-main", "core-near"], "12 lc with one face for plugs"),
    ],
)
def test_a_run_that_finds_none_says_why_of_each_kind(run: list[str], said: str, tmp_path: Path) -> None:
    plan = _plan(run, desk=("computer-desktop", "barn"), core_near=("switch-8-poe-sfp", "study"))
    why = [gap.why for gap in build_of(tmp_path, plan).gaps if gap.rule == "jacks-exhausted"]
    assert [each for each in why if said in each]


def test_a_full_device_says_what_helps(tmp_path: Path) -> None:
    plan = _plan(["core/sfp1", "fibre-main", "fibre-barn", "core-barn/sfp1"])
    plan["links"] += [{"run": ["core/1-2", f"desk-{n}"]} for n in range(3)]
    plan["devices"] |= {f"desk-{n}": {"part": "computer-desktop", "room": "study"} for n in range(3)}
    (why,) = [gap.why for gap in build_of(tmp_path, plan).gaps if gap.rule == "jacks-exhausted"]
    assert "2 rj45 in use, 14 rj45 not among those written, 2 sfp not among those written" in why
    assert "wider range" in why
