"""What cures a channel, and what that costs: names, lengths and prices, each redone by hand from the plan."""

import json
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.finding.model import Finding
from firstfix.pipeline import compile_plan
from firstfix.rules.channels import channel_length_kept
from firstfix.rules.prices import Wanted, cost, listed


def library(**changes: Any) -> dict[str, Any]:
    """A desk 105 m from its switch by way of the hall, of parts with prices of their own."""
    return {
        "sites": {"library": {"rooms": {name: {"mains": 6} for name in ("office", "hall", "reading")}}},
        "ways": {
            "gallery": {"between": ["office", "hall"], "length": "60 m"},
            "nave": {"between": ["hall", "reading"], "length": "45 m"},
        },
        "cabling": {"slack": "0 m", "drop": "0 m", "desk-cord": "4.7 m", "indoor": "cable", "cords": "cord"},
        "parts": {
            "cable": {"like": "cat6-indoor", "price": 0.5, "basis": "data sheet"},
            "cord": {"like": "cord-cat6", "price": 3, "basis": "data sheet"},
            "little": {"like": "switch-5", "price": 9, "basis": "data sheet"},
        },
        "devices": {
            "core": {"part": "switch-8", "room": "office"},
            "panel": {"part": "keystone-panel-12-1u", "room": "office"},
            "socket": {"part": "wall-outlet-1", "room": "reading"},
            "desk": {"part": "computer-desktop", "room": "reading"},
        },
        "links": [{"run": ["desk", "socket/1", "panel/1", "core"], "along": ["nave", "gallery"]}],
        **changes,
    }


def built(folder: Path, plan: dict[str, Any]) -> Build:
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    return build


def cures(folder: Path, plan: dict[str, Any]) -> list[str]:
    (found,) = channel_length_kept.check(built(folder, plan))
    assert isinstance(found, Finding)
    return [cure.title for cure in found.cures]


def test_another_route_that_is_short_enough_is_named_with_what_it_saves(tmp_path: Path) -> None:
    plan = library()
    plan["ways"]["yard"] = {"between": ["office", "reading"], "length": "70 m"}
    # 105 m less 70 m, at 0.50 a metre.
    assert cures(tmp_path, plan)[0] == (
        "take another way (`along: [yard]`): 70 m of cable; 35 m less of 'cable', about 17.5 EUR"
    )


@pytest.mark.parametrize("length", ["90.001 m", "104 m", "300 m"])
def test_a_route_that_is_no_cure_is_not_offered(tmp_path: Path, length: str) -> None:
    plan = library()
    plan["ways"]["yard"] = {"between": ["office", "reading"], "length": length}
    assert not any("another way" in title for title in cures(tmp_path, plan))


def test_a_cooler_route_may_be_the_longer_one(tmp_path: Path) -> None:
    plan = library()
    plan["ways"] = {
        "attic": {"between": ["office", "reading"], "length": "80 m", "kind": "loft", "temperature": "60 C"},
        "cellar": {"between": ["office", "reading"], "length": "85 m"},
    }
    plan["links"] = [{"run": ["desk", "socket/1", "panel/1", "core"]}]
    assert cures(tmp_path, plan)[0] == (
        "take another way (`along: [cellar]`): 85 m of cable; 5 m more of 'cable', about 2.5 EUR"
    )


def test_a_switch_between_stands_in_the_room_that_divides_best(tmp_path: Path) -> None:
    assert (
        "put a switch such as 'little' (about 9 EUR), which needs mains there, in 'hall': "
        "45 m before it and 60 m after it" in cures(tmp_path, library())
    )


def test_a_room_outdoors_is_no_place_for_it(tmp_path: Path) -> None:
    plan = library()
    plan["sites"]["library"]["rooms"]["hall"] = {"outdoors": True}
    assert any("no indoor room lies on this way" in title for title in cures(tmp_path, plan))


def test_with_power_in_it_the_switch_between_hands_it_on_and_fibre_says_it_does_not(tmp_path: Path) -> None:
    plan = library()
    plan["devices"] |= {
        "core": {"part": "switch-8-poe", "room": "office"},
        "desk": {"part": "camera", "room": "reading"},
    }
    found = cures(tmp_path, plan)
    assert any("hands PoE on" in title for title in found)
    assert all(title.endswith("PoE does not go over it") for title in found if title.startswith("use fibre"))


def test_thicker_cords_are_named_where_they_are_enough(tmp_path: Path) -> None:
    plan = library()
    plan["ways"] = {"yard": {"between": ["office", "reading"], "length": "85 m"}}
    plan["links"] = [{"run": ["desk", "socket/1", "panel/1", "core"]}]
    plan["cabling"]["cords"] = "cord-cat6-thin"
    # 85 m + 1.95 * 10 m = 104.5 m; with 24 AWG 97 m.
    assert "use cords of 24 AWG: 2 'cord', about 6 EUR" in cures(tmp_path, plan)
    plan["ways"]["yard"]["length"] = "89 m"
    assert any(title.startswith("use cords of 24 AWG") for title in cures(tmp_path, plan))
    plan["ways"]["yard"]["length"] = "91 m"
    assert not any(title.startswith("use cords of 24 AWG") for title in cures(tmp_path, plan))


def test_another_category_and_a_lower_rate(tmp_path: Path) -> None:
    plan = library()
    plan["ways"] = {"yard": {"between": ["office", "reading"], "length": "40 m"}}
    plan["links"] = [{"run": ["desk", "socket/1", "panel/1", "core"]}]
    jack = {"family": "rj45", "rate": "10 Gb/s"}
    plan["parts"] |= {
        "fast-switch": {"like": "switch-8", "jacks": {"1-8": jack}},
        "fast-desk": {"like": "computer-desktop", "jacks": {"1": jack}},
        "better": {"like": "cat6a-indoor", "price": 0.7, "basis": "data sheet"},
        "better-cord": {"like": "cord-cat6a", "price": 4, "basis": "data sheet"},
    }
    plan["devices"]["core"]["part"] = "fast-switch"
    plan["devices"]["desk"]["part"] = "fast-desk"
    found = cures(tmp_path, plan)
    # 40 m at 0.70 and two cords at 4.
    assert (
        "use category 6a throughout: 2 'better-cord' and 40 m of 'better', about 36 EUR, jacks and modules apart"
        in found
    )
    assert "set both ends to 5 Gb/s, which this cabling carries; it costs nothing" in found


def test_prices_say_where_they_are_from(tmp_path: Path) -> None:
    plan = library()
    plan["parts"]["riddle"] = {"like": "switch-8", "price": "unknown"}
    build = built(tmp_path, plan)
    assert cost(build, [Wanted("cable", 10, by_metre=True), Wanted("cord", 2)]) == "about 11 EUR"
    assert cost(build, [Wanted("cat6-indoor", 10, by_metre=True)]).endswith("by invented or typical prices")
    assert cost(build, [Wanted("riddle", 1), Wanted("cord", 1)]) == "no price is known of 'riddle'"


def test_the_same_part_is_counted_together() -> None:
    bought = [Wanted("cord", 1), Wanted("cable", 40, by_metre=True), Wanted("cord", 1)]
    assert listed(bought) == "2 'cord' and 40 m of 'cable'"


def test_shorter_cords_are_a_cure_where_the_cords_are_what_is_too_long(tmp_path: Path) -> None:
    plan = library()
    plan["cabling"]["desk-cord"] = "14.7 m"
    plan["ways"]["gallery"]["length"] = "40 m"
    # 85 m + 1.2 * 30 m = 121 m of 102 m; with cords of 2 m 85 m + 1.2 * 4 m = 89.8 m.
    assert cures(tmp_path, plan)[0] == "cords of 2 m instead of 15 m and 15 m, if they reach"


def test_shorter_cords_are_no_cure_where_the_run_is_too_long(tmp_path: Path) -> None:
    plan = library()
    plan["cabling"]["desk-cord"] = "14.7 m"
    assert not any("cords of 2 m" in title for title in cures(tmp_path, plan))
