"""A bare run between two switches, one of which has only cages left: both ends get cages, and what is written or kept stays."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from resolve.planning import compiled

# Two jacks of copper at "small", which the first two runs take; one cage. "large" has copper and cages to spare.
PARTS = {
    "two-and-one": {
        "like": "switch-16-poe-sfp",
        "jacks": {"1-2": {"family": "rj45", "rate": "1 Gb/s"}, "sfp1": {"family": "sfp", "rate": "1 Gb/s"}},
        "gives-poe": {"jacks": "1-2"},
    }
}


def _made(folder: Path, last: list[str], names: tuple[str, str]) -> tuple[Build, set[str]]:
    small, large = names
    plan: dict[str, Any] = {
        "sites": {"home": {"rooms": {"study": {"mains": 9}, "loft": {"mains": 9}}}},
        "ways": {"shaft": {"between": ["study", "loft"], "length": "9 m"}},
        "parts": PARTS,
        "devices": {
            small: {"part": "two-and-one", "room": "study"},
            large: {"part": "switch-24-poe", "room": "loft"},
        },
        "links": [{"run": [small, large]}, {"run": [small, large]}, {"run": last}],
    }
    made = compiled(folder, plan)
    assert made.build is not None
    return made.build, {each.rule for each in made.report.findings}


def _families(build: Build) -> list[tuple[str, ...]]:
    return sorted(
        tuple(sorted(build.jacks[end].family for end in each.ends)) for each in build.pieces.values()
    )


@pytest.mark.parametrize("names", [("a-small", "b-large"), ("b-small", "a-large")])
def test_the_third_run_has_cages_at_both_ends(tmp_path: Path, names: tuple[str, str]) -> None:
    build, rules = _made(tmp_path, [*names], names)
    assert _families(build) == [("rj45", "rj45"), ("rj45", "rj45"), ("sfp", "sfp")]
    assert "jack-family" not in rules
    told = [each.value for each in build.decisions if each.why.startswith("the lowest free cage like")]
    assert told == [f"{names[1]}/sfp1"]


def test_a_jack_that_is_written_stays(tmp_path: Path) -> None:
    build, _ = _made(tmp_path, ["a-small", "b-large/9"], ("a-small", "b-large"))
    ends = [end for each in build.pieces.values() for end in each.ends]
    assert "jack:b-large/9" in ends
