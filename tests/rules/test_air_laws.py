"""Laws of the rules on air: nothing gets better by more heat, a warmer room or a smaller cabinet; which figures tip a verdict."""

import json
import tempfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.finding.model import Finding, Level, Undetermined
from firstfix.pipeline import compile_plan
from firstfix.rules.air import cabinet_heat
from firstfix.rules.air_rooms import ambient_range
from firstfix.rules.air_space import clear_space
from firstfix.rules.rule import Outcome, Rule

law = settings(derandomize=True, deadline=None, max_examples=40)
BADNESS = {"fine": 0, "note": 1, "cannot tell": 2, "warning": 3, "error": 4}


def plan(**made: Any) -> dict[str, Any]:
    """A switch in a cabinet; `height` in mm, `draw` least, usual, most in W, `ambient` in °C or None."""
    least, usual, most = made.get("draw", (10, 20, 30))
    ambient = made.get("ambient")
    room = {} if ambient is None else {"ambient": f"{ambient} °C"}
    return {
        "sites": {"mill": {"rooms": {"office": room}}},
        "parts": {
            "box": {
                "like": "wall-cabinet-6u",
                "outside": {"width": "600 mm", "height": f"{made.get('height', 370)} mm", "depth": "450 mm"},
                "cabinet": {"front": made.get("front", "glass door")},
            },
            "core-part": {
                "like": "switch-16-managed",
                "draw": {"least": f"{least} W", "typical": f"{usual} W", "most": f"{most} W"},
                "exposure": {"warmest": f"{made.get('bears', 40)} °C"},
                "cooling": {"by": "passive", "above": f"{made.get('above', 0)} mm", "below": "0 mm"},
            },
        },
        "cabinets": {
            "main": {
                "room": "office",
                "part": "box",
                **({"cooling": made["cooling"]} if "cooling" in made else {}),
                "layout": {3: "core", **made.get("layout", {})},
            }
        },
        "devices": {"core": {"part": "core-part"}},
    }


def outcomes(rule: Rule, made: dict[str, Any]) -> list[Outcome]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(json.dumps(made), encoding="utf-8")
        build = compile_plan(path, "plan.yaml").build
    assert build is not None
    return list(rule.check(build))


def bad(rule: Rule, made: dict[str, Any]) -> int:
    """How bad the worst outcome is."""
    return max(BADNESS[_word(each)] for each in outcomes(rule, made))


def _word(outcome: Outcome) -> str:
    if isinstance(outcome, Finding):
        return outcome.level.value
    return "cannot tell" if isinstance(outcome, Undetermined) else "fine"


draws = st.tuples(st.integers(0, 120), st.integers(0, 120), st.integers(0, 120)).map(
    lambda three: (three[0], three[0] + three[1], three[0] + three[1] + three[2])
)
ambients = st.sampled_from([None, 15, 24, 30, 38])
coolings = st.sampled_from(["closed", "meshed", {"fan": "30 m3/h"}])


@law
@given(draws, st.integers(1, 60), ambients, coolings)
def test_more_heat_is_never_better(
    draw: tuple[int, int, int], more: int, ambient: int | None, cooling: object
) -> None:
    before = plan(draw=draw, ambient=ambient, cooling=cooling)
    after = plan(draw=tuple(each + more for each in draw), ambient=ambient, cooling=cooling)
    assert bad(cabinet_heat, after) >= bad(cabinet_heat, before)


@law
@given(draws, st.integers(0, 45), st.integers(1, 20), coolings)
def test_a_warmer_room_is_never_better(
    draw: tuple[int, int, int], ambient: int, more: int, cooling: object
) -> None:
    before = plan(draw=draw, ambient=ambient, cooling=cooling)
    after = plan(draw=draw, ambient=ambient + more, cooling=cooling)
    assert bad(cabinet_heat, after) >= bad(cabinet_heat, before)


@law
@given(draws, st.integers(200, 900), st.integers(1, 900), ambients)
def test_a_taller_cabinet_is_never_worse(
    draw: tuple[int, int, int], height: int, more: int, ambient: int | None
) -> None:
    before = plan(draw=draw, height=height, ambient=ambient)
    after = plan(draw=draw, height=height + more, ambient=ambient)
    assert bad(cabinet_heat, after) <= bad(cabinet_heat, before)


@law
@given(draws, ambients)
def test_a_meshed_door_or_a_fan_is_never_worse_than_closed(
    draw: tuple[int, int, int], ambient: int | None
) -> None:
    closed = bad(cabinet_heat, plan(draw=draw, ambient=ambient, cooling="closed"))
    assert bad(cabinet_heat, plan(draw=draw, ambient=ambient, cooling="meshed")) <= closed
    assert bad(cabinet_heat, plan(draw=draw, ambient=ambient, cooling={"fan": "20 m3/h"})) <= closed


@law
@given(draws, st.integers(1, 200), st.sampled_from([15, 24, 30]))
def test_what_is_kept_free_for_makes_no_more_than_a_note(
    draw: tuple[int, int, int], heat: int, ambient: int
) -> None:
    today = bad(cabinet_heat, plan(draw=draw, ambient=ambient))
    later = plan(draw=draw, ambient=ambient, layout={5: {"keep-free": "a recorder", "heat": f"{heat} W"}})
    assert bad(cabinet_heat, later) in {today, max(today, BADNESS["note"])}


@law
@given(st.integers(-30, 50), st.integers(0, 30), st.integers(20, 70))
def test_a_milder_room_is_never_worse(low: int, span: int, bears: int) -> None:
    def at(cold: int, warm: int) -> int:
        made = plan(bears=bears)
        made["sites"]["mill"]["rooms"]["office"]["ambient"] = f"{cold} °C to {warm} °C"
        made["cabinets"] = {}
        made["devices"]["core"]["room"] = "office"
        return bad(ambient_range, made)

    milder, harsher = at(low, low + span), at(low - 5, low + span + 5)
    assert milder <= harsher


@law
@given(st.integers(0, 200), st.integers(0, 100), st.sampled_from([4, 5, 6, None]))
def test_asking_for_more_space_is_never_better(above: int, more: int, blocked: int | None) -> None:
    layout = {} if blocked is None else {blocked: {"fit": "shelf-1u"}}
    before, after = (plan(above=each, layout=layout) for each in (above, above + more))
    assert bad(clear_space, after) >= bad(clear_space, before)


@pytest.mark.parametrize("blocked", [4, 5, 6])
def test_clear_space_by_counting_units(blocked: int) -> None:
    """A switch in unit 3; a shelf in unit `blocked` leaves the units between."""
    between = (blocked - 4) * 44.45
    layout = {blocked: {"fit": "shelf-1u"}}
    assert bad(clear_space, plan(above=between, layout=layout)) == BADNESS["fine"]
    assert bad(clear_space, plan(above=between + 0.01, layout=layout)) == BADNESS["warning"]


def test_terms_add_up_and_name_what_gives_off_heat() -> None:
    (found,) = outcomes(cabinet_heat, plan(draw=(100, 110, 120), ambient=35))
    assert isinstance(found, Finding)
    assert found.level is Level.ERROR
    assert found.measurement is not None
    assert sum(term.value for term in found.measurement.terms) == pytest.approx(found.measurement.figure)
    assert any(label.text == "gives off 100 W" for label in found.related)
    assert any("m³/h" in cure.title for cure in found.cures)


def test_a_room_that_is_not_said_is_never_more_than_cannot_tell_where_it_alone_decides() -> None:
    (unsaid,) = outcomes(cabinet_heat, plan(draw=(20, 50, 65)))
    assert isinstance(unsaid, Undetermined)
    assert "ambient" in unsaid.missing[0].text
    assert bad(cabinet_heat, plan(draw=(20, 50, 65), ambient=25)) == BADNESS["fine"]
    assert bad(cabinet_heat, plan(draw=(20, 50, 65), ambient=33)) == BADNESS["warning"]
