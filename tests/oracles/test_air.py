"""Air against libraries of others: its density by CoolProp's equation of state, rises by scipy's root finder, cabinets by a second sum."""

import json
import math
import tempfile
from pathlib import Path
from typing import Any

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import brentq

from firstfix.build.model import Build
from firstfix.graphs.cabinet_air import CabinetAir, cabinet_airs
from firstfix.physics.thermal import (
    air_density,
    airflow_m3h,
    door_exchange,
    fan_exchange,
    pressure_ratio,
    rise_with_air,
)
from firstfix.pipeline import compile_plan

law = settings(derandomize=True, deadline=None, max_examples=100)


@pytest.mark.parametrize("celsius", [-20, 0, 20, 35, 60])
@pytest.mark.parametrize("altitude", [0, 500, 1500, 3000])
def test_density_as_an_equation_of_state_has_it(celsius: float, altitude: float) -> None:
    """Air is nearly ideal there: a tenth of a percent."""
    pascal = 101_325 * (1 - 2.25577e-5 * altitude) ** 5.2559
    expected = PropsSI("D", "T", celsius + 273.15, "P", pascal, "Air")
    assert air_density(celsius, altitude) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("celsius", [0, 20, 40])
def test_heat_capacity_as_an_equation_of_state_has_it(celsius: float) -> None:
    """What a fan's air takes at 1 kg/m³ and 3600 m³/h is the heat capacity itself."""
    expected = PropsSI("C", "T", celsius + 273.15, "P", 101_325, "Air")
    assert fan_exchange(3600, 1.0) == pytest.approx(expected, rel=2e-3)


@pytest.mark.parametrize("rise", [5, 10, 20])
def test_airflow_by_enthalpies(rise: float) -> None:
    """Enthalpy out minus enthalpy in, at the density of 20 °C; ours takes 1.2 kg/m³ and 1005 J/(kg K)."""
    warm, cool = (PropsSI("H", "T", 293.15 + each, "P", 101_325, "Air") for each in (rise, 0))
    per_m3 = (warm - cool) * PropsSI("D", "T", 293.15, "P", 101_325, "Air")
    assert airflow_m3h(500, rise) == pytest.approx(500 / per_m3 * 3600, rel=6e-3)


@law
@given(st.floats(0.1, 2000), st.floats(0.5, 200), st.floats(0, 100))
def test_rise_is_the_root_that_another_solver_finds(heat: float, faces: float, door: float) -> None:
    expected = brentq(lambda dt: faces * dt + door * dt**1.5 - heat, 0, heat / faces + 1, xtol=1e-12)
    assert rise_with_air(heat, faces, door) == pytest.approx(expected, rel=1e-6)


def test_door_exchange_by_hand() -> None:
    """A door 1 m high with 0.3 m² of holes, C_d 0.6, 20 °C, 1.2 kg/m³; at 4 K: V = 0.06 * (9.80665 * 4 / 293.15)^0.5 m³/s."""
    flow = 0.6 * 0.3 / 3 * math.sqrt(9.80665 * 1.0 * 4 / 293.15)
    by_hand = 1.2 * 1005 * flow * 4
    assert door_exchange(1.0, 0.3, 0.6, 1.2, 20) * 4**1.5 == pytest.approx(by_hand)


def test_thin_air_needs_more_flow() -> None:
    assert airflow_m3h(500, 10, pressure_ratio(2000)) == pytest.approx(149.25 / 0.7846, rel=1e-3)


plans = st.fixed_dictionaries(
    {
        "own": st.lists(
            st.tuples(st.integers(1, 40), st.integers(0, 40), st.integers(0, 80)), min_size=1, max_size=5
        ),
        "lamps": st.integers(0, 6),
        "lamp": st.integers(1, 12),
        "efficiency": st.sampled_from([0.8, 0.88, 0.9, 0.95]),
        "size": st.tuples(st.integers(400, 900), st.integers(300, 2000), st.integers(300, 1000)),
        "mounting": st.sampled_from(["wall", "floor"]),
        "ambient": st.integers(10, 45),
    }
)


def plan_of(made: dict[str, Any]) -> dict[str, Any]:
    """Things on a shelf in a cabinet, and a switch in it that feeds lamps in the next room."""
    wide, high, deep = made["size"]
    parts: dict[str, Any] = {
        "box": {
            "like": "floor-cabinet-42u",
            "outside": {"width": f"{wide} mm", "height": f"{high} mm", "depth": f"{deep} mm"},
            "cabinet": {"front": "glass door", "mounting": made["mounting"]},
        },
        "lamp": {"like": "camera", "takes-poe": {"class": 3}, "draw": f"{made['lamp']} W"},
        "core-part": {
            "like": "switch-24-poe",
            "draw": "30 W",
            "gives-poe": {"efficiency": made["efficiency"]},
        },
    }
    devices: dict[str, Any] = {"core": {"part": "core-part"}}
    for number, (least, more, most) in enumerate(made["own"]):
        draw = {"least": f"{least} W", "typical": f"{least + more} W", "most": f"{least + more + most} W"}
        parts[f"part-{number}"] = {"like": "small-computer", "draw": draw}
        devices[f"thing-{number}"] = {"part": f"part-{number}"}
    for number in range(made["lamps"]):
        devices[f"lamp-{number}"] = {"part": "lamp", "room": "hall", "plugs-into": "core"}
    shelf = {"fit": "shelf-1u", "carries": [each for each in devices if each.startswith("thing")]}
    return {
        "sites": {"mill": {"rooms": {"office": {"ambient": f"{made['ambient']} °C"}, "hall": {}}}},
        "ways": {"way": {"between": ["office", "hall"], "length": "10 m", "temperature": "20 °C"}},
        "cabling": {"slack": "0 m", "drop": "0 m"},
        "parts": parts,
        "cabinets": {"main": {"room": "office", "part": "box", "layout": {20: "core", "1-3": shelf}}},
        "devices": devices,
    }


def air_of(plan: dict[str, Any]) -> tuple[Build, CabinetAir]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(json.dumps(plan), encoding="utf-8")
        build = compile_plan(path, "plan.yaml").build
    assert build is not None
    (air,) = cabinet_airs(build).values()
    return build, air


@settings(derandomize=True, deadline=None, max_examples=40)
@given(plans)
def test_a_cabinet_by_a_second_sum(made: dict[str, Any]) -> None:
    """Heat: own draws, and what is lost in making PoE. Cables lose up to a watt of what is given, so a tenth of that is allowed for."""
    _, air = air_of(plan_of(made))
    given_w = made["lamps"] * made["lamp"]
    lost = given_w * (1 / made["efficiency"] - 1)
    own = [30 + sum(each) for each in zip(*((a, a + b, a + b + c) for a, b, c in made["own"]), strict=True)]
    for heat, expected in zip(air.heat, own, strict=True):
        assert expected + lost - 1e-9 <= heat <= expected + lost * 1.05 + 1e-9
    wide, high, deep = (each / 1000 for each in made["size"])
    wall = 1.4 * wide * (high + deep) + 1.8 * deep * high
    free = 1.8 * high * (wide + deep) + 1.4 * wide * deep
    best = wall if made["mounting"] == "wall" else free
    for rise, heat, area in zip(air.rise, air.heat, (best, wall, wall), strict=True):
        assert rise == pytest.approx(heat / (5.5 * area))
    assert air.inside.most == pytest.approx(made["ambient"] + air.rise.most)
