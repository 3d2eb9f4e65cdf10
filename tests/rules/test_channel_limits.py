"""Limits of copper channels at, just over and beyond their edge, where a plan of its own for each would only repeat itself."""

import json
from pathlib import Path
from typing import Any

import pytest

from firstfix.finding.model import Finding, Undetermined
from firstfix.pipeline import compile_plan
from firstfix.rules.channels import channel_connections, channel_length_kept
from firstfix.rules.rule import Fine, Outcome
from firstfix.units import metres
from oracles.twisted_pair import warm


def hall(length: str, **cabling: Any) -> dict[str, Any]:
    """A desk behind an outlet, a panel and a way of this length; cords of 5 m."""
    return {
        "sites": {"library": {"rooms": {"office": {"mains": 6}, "reading": {"mains": 6}}}},
        "ways": {"gallery": {"between": ["office", "reading"], "length": length}},
        "cabling": {"slack": "0 m", "drop": "0 m", "desk-cord": "4.7 m", **cabling},
        "parts": {},
        "devices": {
            "core": {"part": "switch-8", "room": "office"},
            "panel": {"part": "keystone-panel-12-1u", "room": "office"},
            "socket": {"part": "wall-outlet-1", "room": "reading"},
            "desk": {"part": "computer-desktop", "room": "reading"},
        },
        "links": [{"run": ["desk", "socket/1", "panel/1", "core"]}],
    }


def at_rate(plan: dict[str, Any], rate: str, category: str) -> dict[str, Any]:
    """Both ends at this rate, all of the channel of this category."""
    jack = {"family": "rj45", "rate": rate}
    cable, cord = ({"like": like, "cable": {"category": category}} for like in ("cat6a-indoor", "cord-cat6a"))
    plan["parts"] = {
        "own-switch": {"like": "switch-8", "jacks": {"1-8": jack}},
        "own-desk": {"like": "computer-desktop", "jacks": {"1": jack}},
        "own-jack": {"like": "jack-cat6a", "category": category},
        "own-cable": cable,
        "own-cord": cord,
    }
    plan["cabling"] |= {"indoor": "own-cable", "cords": "own-cord", "jacks": "own-jack"}
    plan["devices"]["core"]["part"], plan["devices"]["desk"]["part"] = "own-switch", "own-desk"
    return plan


def outcomes(folder: Path, plan: dict[str, Any]) -> tuple[Outcome, Outcome]:
    """Of the length and of the connections of its one channel."""
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    (length,), (connections,) = channel_length_kept.check(build), channel_connections.check(build)
    return length, connections


def said(outcome: Outcome) -> str:
    if isinstance(outcome, Finding):
        return f"{outcome.level}: {outcome.message.partition(': ')[2]}"
    return "fine" if isinstance(outcome, Fine) else "cannot tell"


# IEC 60028 and ASTM B566: 24 AWG has 8.4213 ohm in 100 m, clad with 62.9 % of copper's conductivity 13.388.
_LOOP_LEFT = 25 - 2 * 2 * 0.2 - 2 * 0.1 * 8.4213
_LONGEST_CLAD = _LOOP_LEFT / (2 * 0.13388)


@pytest.mark.parametrize(("more", "verdict"), [(-0.02, "fine"), (0.02, "error")])
def test_the_loop_of_a_pair(tmp_path: Path, more: float, verdict: str) -> None:
    plan = hall(f"{_LONGEST_CLAD + more:.3f} m", indoor="cat5e-cca-indoor")
    assert said(outcomes(tmp_path, plan)[0]).partition(":")[0] == verdict


@pytest.mark.parametrize("rate", ["25 Gb/s", "40 Gb/s"])
@pytest.mark.parametrize(
    ("length", "verdict"),
    [
        ("20 m", "fine"),
        ("20.001 m", "error: 1 mm too long for {phy} over category 8 ('own-cord')"),
        ("25 m", "error: 5 m too long for {phy} over category 8 ('own-cord')"),
    ],
)
def test_category_8_goes_30_m(tmp_path: Path, rate: str, length: str, verdict: str) -> None:
    found, connections = outcomes(tmp_path, at_rate(hall(length), rate, "8"))
    phy = {"25 Gb/s": "25GBASE-T", "40 Gb/s": "40GBASE-T"}[rate]
    assert said(found) == verdict.format(phy=phy)
    assert isinstance(connections, Fine)


@pytest.mark.parametrize(
    ("length", "verdict"),
    [("24 m", "fine"), ("24.001 m", "warning: 1 mm too long: permanent link of category 8, for 25GBASE-T")],
)
def test_category_8_has_a_permanent_link_of_its_own(tmp_path: Path, length: str, verdict: str) -> None:
    plan = at_rate(hall(length), "25 Gb/s", "8")
    plan["cabling"]["desk-cord"] = "1.8 m"
    assert said(outcomes(tmp_path, plan)[0]) == verdict


def test_category_8_in_warmth_has_no_published_reach(tmp_path: Path) -> None:
    plan = at_rate(hall("20 m"), "25 Gb/s", "8")
    plan["ways"]["gallery"]["temperature"] = "45 C"
    found = outcomes(tmp_path, plan)[0]
    assert isinstance(found, Undetermined)
    assert "no de-rating is published for category 8" in found.missing[0].text


def test_category_8_at_10_gbit_goes_as_far_as_6a(tmp_path: Path) -> None:
    plan = at_rate(hall("80 m"), "10 Gb/s", "8")
    assert isinstance(outcomes(tmp_path, plan)[0], Fine)


@pytest.mark.parametrize(("couplers", "is_fine"), [(2, True), (3, False)])
def test_four_connections_and_no_more(tmp_path: Path, couplers: int, is_fine: bool) -> None:
    plan = hall("20 m")
    names = [f"joint-{number}" for number in range(couplers)]
    plan["devices"] |= {name: {"part": "coupler-rj45", "room": "reading"} for name in names}
    plan["links"] = [{"run": ["desk", *names, "socket/1", "panel/1", "core"]}]
    found = outcomes(tmp_path, plan)[1]
    assert isinstance(found, Fine) is is_fine
    assert is_fine or (
        isinstance(found, Finding) and found.measurement is not None and found.measurement.margin == -1
    )


def test_two_connections_over_category_8(tmp_path: Path) -> None:
    plan = at_rate(hall("5 m"), "25 Gb/s", "8")
    plan["devices"]["joint"] = {"part": "coupler-rj45-cat6a", "room": "reading", "note": "one too many"}
    plan["parts"]["joint-8"] = {"like": "coupler-rj45", "category": "8"}
    plan["devices"]["joint"]["part"] = "joint-8"
    plan["links"] = [{"run": ["desk", "joint", "socket/1", "panel/1", "core"]}]
    found = outcomes(tmp_path, plan)[1]
    assert isinstance(found, Finding)
    assert found.measurement is not None
    assert (found.measurement.figure, found.measurement.limit) == (3, 2)


def test_what_is_missing_cannot_excuse_what_is_too_long(tmp_path: Path) -> None:
    """A cord of unknown gauge adds at least its own length: 101 m are too long whatever it is made of."""
    plan = hall("89 m", cords="vague")
    plan["cabling"]["desk-cord"] = "6 m"
    gauge = {"gauge": "unknown", "lengths": ["6 m"]}
    plan["parts"]["vague"] = {"like": "cord-cat6", "cable": gauge}
    found = outcomes(tmp_path, plan)[0]
    assert isinstance(found, Finding)
    assert any("'vague' does not say its gauge" in each.text for each in found.related)


def test_each_term_of_a_finding_can_be_redone_by_hand(tmp_path: Path) -> None:
    plan = hall("88 m", cords="cord-cat6-thin")
    plan["ways"]["gallery"] |= {"kind": "loft", "temperature": "50 C"}
    found = outcomes(tmp_path, plan)[0]
    assert isinstance(found, Finding)
    assert found.measurement is not None
    terms = {term.what: term for term in found.measurement.terms}
    way, cord = terms["way 'gallery'"], terms["cord of 'cord-cat6-thin'"]
    assert way.value == pytest.approx(88 * (1 + 20 * 0.004 + 10 * 0.006))
    assert "88 m at 50 °C, factor 1.14 by 0.4 % per K from 20 °C and 0.6 % per K from 40 °C" in way.source
    assert cord.value == pytest.approx(5 * 1.95)
    assert "5 m of 28 AWG cord, factor 1.95; ANSI/TIA-568.2-D (2018)" in cord.source
    total = sum(term.value for term in found.measurement.terms)
    assert total == pytest.approx(found.measurement.figure)


@pytest.mark.parametrize(("ambient", "verdict"), [("20 °C", "fine"), ("35 °C", "error")])
def test_a_way_is_as_warm_as_the_warmer_of_its_rooms(tmp_path: Path, ambient: str, verdict: str) -> None:
    plan = hall("88 m")
    plan["sites"]["library"]["rooms"]["reading"]["ambient"] = ambient
    assert said(outcomes(tmp_path, plan)[0]).partition(":")[0] == verdict


@pytest.mark.parametrize("length", [75.5, 80, 84, 89.5])
def test_a_loft_says_up_to_which_warmth_the_channel_fits(tmp_path: Path, length: float) -> None:
    plan = hall(f"{length} m")
    plan["ways"]["gallery"]["kind"] = "loft"
    found = outcomes(tmp_path, plan)[0]
    assert isinstance(found, Undetermined)
    fitting = [celsius for celsius in range(20, 60) if length * warm(celsius, screened=False) + 12 <= 102]
    over = length * warm(60, screened=False) + 12 - 102
    (missing,) = (each.text for each in found.missing)
    assert f"up to {max(fitting)} °C this channel fits, at 60 °C it is {metres(over)} too long" in missing
    assert "'gallery' (loft)" in missing


def test_a_stated_length_lies_in_its_warm_ways_as_they_share_it(tmp_path: Path) -> None:
    """75 m at 60 °C are the most; a way reckoned at 60 m does not make a run of 80 m any cooler."""
    plan = hall("60 m")
    plan["ways"]["gallery"] |= {"kind": "loft", "temperature": "60 C"}
    assert isinstance(outcomes(tmp_path, plan)[0], Fine)
    plan["links"][0]["length"] = "80 m"
    assert said(outcomes(tmp_path, plan)[0]).startswith("error")
    plan["links"][0]["length"] = "75 m"
    assert isinstance(outcomes(tmp_path, plan)[0], Fine)
