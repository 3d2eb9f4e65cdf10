"""A switch fed by PoE has what is granted to it, minus its own use, minus the loss: worked checks 22 and 23.

Granted powers: IEEE 802.3, 25.5 W for class 4 and 51 W for class 6.
"""

from pathlib import Path
from typing import Any

import pytest

from firstfix.parts.facts import Fact
from resolve.planning import build_of, one_room


def _plan(asked: int, gives: int, efficiency: float) -> dict[str, Any]:
    fed = {
        "like": "switch-5-poe-fed",
        "takes-poe": {"jacks": "in", "class": asked},
        "gives-poe": {
            "jacks": "1-4",
            "class": 4,
            "counts": "class",
            "efficiency": efficiency,
            "when-fed": {},
        },
        "draw": "5 W",
    }
    source = {
        "like": "switch-8-poe-class-6",
        "gives-poe": {"jacks": "1-8", "class": gives, "budget": "240 W", "counts": "class"},
    }
    devices = {"core": "source", "far": "fed", "cam-4": "camera-pan-tilt", "cam-3": "camera-outdoor"}
    links = [{"run": ["core", "far/in"]}, {"run": ["far", "cam-4"]}, {"run": ["far", "cam-3"]}]
    return one_room(devices, links, parts={"fed": fed, "source": source})


@pytest.mark.parametrize(
    ("asked", "gives", "efficiency", "watts"),
    [
        (6, 6, 1.0, 46.0),  # row 22
        (4, 4, 1.0, 20.5),  # row 23
        (6, 4, 1.0, 20.5),  # class 6 asked, class 4 granted
        (6, 6, 0.9, 41.4),  # the same as row 22 with a tenth lost
    ],
)
def test_what_a_fed_switch_can_give(
    asked: int, gives: int, efficiency: float, watts: float, tmp_path: Path
) -> None:
    build = build_of(tmp_path, _plan(asked, gives, efficiency))
    source = build.power_sources["device:far"]
    assert isinstance(source.budget, Fact)
    assert source.budget.typical == pytest.approx(watts, abs=0.01)
    assert sum(term.value for term in source.terms) == pytest.approx(watts, abs=0.01)
    reserved = [build.power_runs[run].reserved for run in source.runs]
    # Class 4 reserves 30 W and class 3 15.4 W at the source.
    assert sum(each.typical for each in reserved if isinstance(each, Fact)) == pytest.approx(45.4, abs=0.01)
