"""What cures a room that its cabinet contradicts, and a plug without an outlet; doing it, the finding goes."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.pipeline import Compiled
from resolve.planning import compiled

Data = dict[str, Any]


def _cures(made: Compiled, rule: str) -> list[str]:
    return [cure.title for each in made.report.findings if each.rule == rule for cure in each.cures]


def _rules(made: Compiled) -> set[str]:
    return {each.rule for each in made.report.findings}


def _shelved() -> Data:
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 9}, "shed": {"mains": 4}}}},
        "ways": {"wall": {"between": ["study", "shed"], "length": "5 m"}},
        "cabinets": {
            "main": {
                "part": "wall-cabinet-6u",
                "room": "study",
                "layout": {"5": "core", "2-3": {"fit": "shelf-1u", "carries": ["store"]}},
            }
        },
        "devices": {
            "core": {"part": "switch-16-poe-sfp"},
            "store": {"part": "storage-2-bay", "room": "shed", "plugs-into": "core"},
        },
    }


def test_a_device_moves_by_being_taken_off_its_shelf(tmp_path: Path) -> None:
    plan = _shelved()
    first, second = _cures(compiled(tmp_path, plan), "room-conflict")
    assert (
        "take 'store' out of unit 2 of the layout of 'main' (from the `carries` of what stands there)"
        in first
    )
    assert "take its `room` out" in second
    del plan["cabinets"]["main"]["layout"]["2-3"]["carries"]
    assert "room-conflict" not in _rules(compiled(tmp_path, plan))
    stays = _shelved()
    del stays["devices"]["store"]["room"]
    assert "room-conflict" not in _rules(compiled(tmp_path, stays))


def _desks(mains: int) -> Data:
    names = [f"desk-{number}" for number in range(1, 4)]
    return {
        "sites": {"home": {"rooms": {"study": {"mains": mains}}}},
        "devices": {
            "core": {"part": "switch-8"},
            **{name: {"part": "computer-desktop", "plugs-into": "core"} for name in names},
        },
    }


def test_a_strip_takes_the_outlet_of_one_that_goes_into_it(tmp_path: Path) -> None:
    """Four plugs at two outlets: two wait, and with the one that makes way a strip needs three; it has four, for 12 EUR (library)."""
    plan = _desks(2)
    strip, electrician = set(_cures(compiled(tmp_path, plan), "mains-outlets"))
    strip, electrician = sorted((strip, electrician), key=lambda each: "electrician" in each)
    assert "'power-strip-desk-4', 4 outlets, about 12 EUR" in strip
    assert "in the wall outlet of 'core', which goes into it too" in strip
    plan["devices"]["strip"] = {"part": "power-strip-desk-4"}
    for name in ("core", "desk-2", "desk-3"):
        plan["devices"][name]["power"] = "strip"
    assert "mains-outlets" not in _rules(compiled(tmp_path, plan))


@pytest.mark.parametrize("mains", [0])
def test_where_the_wall_has_none_no_strip_helps(tmp_path: Path, mains: int) -> None:
    cures = set(_cures(compiled(tmp_path, _desks(mains)), "mains-outlets"))
    assert cures == {"have outlets added in the wall by a licensed electrician, to local codes"}
