"""PoE from parts and cables to figures: what a run puts in the way, what is counted, what is handed on and who is fed.

Resistances are reckoned again by hand from IEC 60028 and ASTM B258: 8.4213 ohm per 100 m of solid 24 AWG at 20 °C,
13.3904 of 26 AWG; 0.2 ohm for each mated connection (IEC 60603-7); 1.026 for stranded wire.
"""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.parts.facts import Fact, Unknown
from firstfix.rules.poe_shedding import dark_first
from resolve.planning import build_of

CABLE_24 = {
    "like": "cat5e-indoor",
    "cable": {
        "medium": "copper", "category": "5e", "gauge": 24, "stranded": False, "conductor": "copper", "rating": "indoor",
        "lengths": ["305 m"],
    },
}  # fmt: skip


def _plan(
    devices: dict[str, Any], links: list[Any], way: dict[str, Any] | None = None, **parts: Any
) -> dict[str, Any]:
    return {
        "sites": {"mill": {"rooms": {"store": {}, "yard": {}}}},
        "ways": {"duct": {"between": ["store", "yard"], "length": "55 m", "kind": "trunking", **(way or {})}},
        "cabling": {"slack": "0 m", "drop": "0 m", "dressing": "0 m", "indoor": "cable-24"},
        "parts": {
            "cable-24": CABLE_24,
            "cam": {"like": "camera-outdoor", "takes-poe": {"class": 4}, "draw": "25.5 W"},
            **parts,
        },
        "devices": devices,
        "links": links,
    }


def _straight(way: dict[str, Any] | None = None, **gives: Any) -> dict[str, Any]:
    giving = {"jacks": "1-4", "class": 4, "budget": "60 W", "counts": "draw", **gives}
    return _plan(
        {"core": {"part": "giver", "room": "store"}, "eye": {"part": "cam", "room": "yard"}},
        [{"run": ["core", "eye"]}],
        {"temperature": "20 °C"} if way is None else way,
        giver={"like": "switch-8-poe", "gives-poe": giving},
    )


def _only_run(build: Build) -> PowerRun:
    (run,) = build.power_runs.values()
    return run


def _loop(build: Build) -> Fact:
    loop = _only_run(build).loop
    assert isinstance(loop, Fact)
    return loop


def _left(build: Build, source: str = "device:core") -> float:
    left = build.power_sources[source].left
    assert isinstance(left, Fact)
    return left.low


def test_the_actual_channel_gives_the_power_at_the_source(tmp_path: Path) -> None:
    """55 m of 24 AWG, 25.5 W, 50 V: 26.834 W, by the quadratic of IEEE Std 802.3 Clause 145."""
    build = build_of(tmp_path, _straight())
    assert _loop(build).high == pytest.approx(4.6317, abs=1e-4)
    reserved = _only_run(build).reserved
    assert isinstance(reserved, Fact)
    assert reserved.low == reserved.high == pytest.approx(26.834, abs=0.001)
    source = build.power_sources["device:core"]
    assert _left(build) == pytest.approx(60 - 26.834, abs=0.001)
    share = source.left_share
    assert isinstance(share, Fact)
    assert share.low == pytest.approx((60 - 26.834) / 60, abs=1e-4)


def test_an_unsaid_temperature_sets_least_and_most_apart(tmp_path: Path) -> None:
    run = _only_run(build_of(tmp_path, _straight({})))
    assert isinstance(run.loop, Fact)
    assert run.loop.low == pytest.approx(4.6317, abs=1e-4)
    assert run.loop.high == pytest.approx(4.6317 * (1 + 0.00393 * 40), abs=1e-3)
    assert run.doubts == ("the temperature of the way 'duct'",)


def test_a_warmer_way_leaves_less(tmp_path: Path) -> None:
    cool = _left(build_of(tmp_path, _straight()))
    warm = _left(build_of(tmp_path, _straight({"temperature": "45 °C"})))
    assert warm < cool


def _patched(cord: str = "cord-24", between: list[str] | None = None) -> dict[str, Any]:
    between = between or ["panel", "socket"]
    kinds = {"panel": ("keystone-panel-24-1u", "store"), "socket": ("wall-outlet-1", "yard"), "joiner": ("coupler-rj45", "yard")}  # fmt: skip
    cords = {
        name: {
            "like": "cord-cat6",
            "cable": {**CABLE_24["cable"], "gauge": gauge, "stranded": stranded, "lengths": ["2 m"]},  # type: ignore[dict-item]
        }
        for name, gauge, stranded in (("cord-24", 24, True), ("cord-26", 26, True), ("cord-solid", 24, False))
    }
    plan = _straight()
    plan["parts"] |= cords
    plan["cabling"]["cords"] = cord
    plan["devices"] |= {name: {"part": kinds[name][0], "room": kinds[name][1]} for name in between}
    plan["links"] = [{"run": ["core", *between, "eye"]}]
    return plan


def test_cords_count_by_their_gauge_and_their_strands(tmp_path: Path) -> None:
    """Two cords of 2 m and two connections; the run between is the same."""
    loops = {
        cord: _loop(build_of(tmp_path, _patched(cord))).low for cord in ("cord-solid", "cord-24", "cord-26")
    }
    assert loops["cord-solid"] == pytest.approx(4.6317 + 4 * 0.084213 + 0.4, abs=1e-3)
    assert loops["cord-24"] - loops["cord-solid"] == pytest.approx(4 * 0.084213 * 0.026, abs=1e-5)
    assert loops["cord-26"] == pytest.approx(4.6317 + 4 * 0.133904 * 1.026 + 0.4, abs=1e-3)


def test_plans_that_differ_in_one_thing_only_differ_in_what_is_left(tmp_path: Path) -> None:
    plain = _left(build_of(tmp_path, _patched()))
    thin = _left(build_of(tmp_path, _patched("cord-26")))
    joined = _left(build_of(tmp_path, _patched(between=["panel", "socket", "joiner"])))
    assert thin < plain
    assert joined < plain


def test_a_low_class_over_four_pairs_loses_half_where_both_parts_say_so(tmp_path: Path) -> None:
    plan = _straight(pairs=4)
    assert _loop(build_of(tmp_path, plan)).low == pytest.approx(4.6317, abs=1e-4)
    plan["parts"]["cam"]["takes-poe"]["pairs"] = 4
    assert _loop(build_of(tmp_path, plan)).low == pytest.approx(4.6317 / 2, abs=1e-4)


@pytest.mark.parametrize(
    ("source", "device", "how", "watts"),
    [
        (True, True, "asked", 30.0),
        (True, False, "class", 30.0),
        (False, True, "class", 30.0),
    ],
)
def test_what_is_asked_for_counts_where_both_negotiate(
    source: bool, device: bool, how: str, watts: float, tmp_path: Path
) -> None:
    """25.5 W is all of class 4, so that asking for it saves nothing."""
    plan = _straight(counts="class", negotiates=source)
    plan["parts"]["cam"]["takes-poe"]["negotiates"] = device
    run = _only_run(build_of(tmp_path, plan))
    assert run.counted == how
    assert isinstance(run.reserved, Fact)
    assert run.reserved.high == pytest.approx(watts)


def _cascade(depth: int, **gives: Any) -> dict[str, Any]:
    """core - hub-1 - ... - hub-n - eye, each hub fed by the one before it."""
    hub: dict[str, Any] = {
        "like": "switch-8-poe-fed",
        "takes-poe": {"jacks": "in", "class": 6},
        "gives-poe": {"jacks": "1-7", "class": 6, "counts": "draw", "pairs": "4", **gives},
        "draw": "5 W",
    }
    big: dict[str, Any] = {"like": "switch-8-poe-class-6", "gives-poe": {"jacks": "1-8", "class": 6, "budget": "240 W", "counts": "draw"}}  # fmt: skip
    hubs = [f"hub-{n}" for n in range(1, depth + 1)]
    devices = {"core": {"part": "big", "room": "store"}, "eye": {"part": "small-cam", "room": "store"}}
    devices |= {name: {"part": "hub", "room": "store"} for name in hubs}
    links = [{"run": [f"{before}/1", f"{after}/in"]} for before, after in zip(["core", *hubs], hubs, strict=False)]  # fmt: skip
    links.append({"run": [f"{hubs[-1]}/1", "eye"]})
    cam = {"like": "camera-outdoor", "takes-poe": {"class": 3}, "draw": "9 W"}
    plan = _plan(devices, links, hub=hub, big=big)
    plan["parts"]["small-cam"] = cam
    return plan


def test_in_a_chain_each_link_draws_what_hangs_on_it(tmp_path: Path) -> None:
    """No loss in conversion: each of three hubs adds its own 5 W and the loss of a cord to 9 W."""
    build = build_of(tmp_path, _cascade(3, efficiency=1.0, **{"when-fed": {}}))
    drawn = [build.power_runs[f"power-run:hub-{n}/in"].drawn for n in (1, 2, 3)]
    watts = [each.high for each in drawn if isinstance(each, Fact)]
    assert watts[2] == pytest.approx(14.0, abs=0.1)
    assert watts[1] == pytest.approx(19.0, abs=0.2)
    assert watts[0] == pytest.approx(24.0, abs=0.3)
    assert watts[0] > watts[1] + 5 > watts[2] + 10


def test_a_chain_without_an_efficiency_runs_from_none_lost_to_a_tenth(tmp_path: Path) -> None:
    build = build_of(tmp_path, _cascade(1, efficiency="unknown", **{"when-fed": {}}))
    budget = build.power_sources["device:hub-1"].budget
    assert isinstance(budget, Fact)
    assert budget.low == pytest.approx(41.4)
    assert budget.high == pytest.approx(46.0)


def test_a_figure_for_a_class_that_was_not_granted_serves_for_a_stronger_one_only(tmp_path: Path) -> None:
    weaker = build_of(tmp_path, _cascade(1, **{"when-fed": {4: "14 W"}})).power_sources["device:hub-1"].budget
    stronger = (
        build_of(tmp_path, _cascade(1, **{"when-fed": {8: "60 W"}})).power_sources["device:hub-1"].budget
    )
    assert isinstance(weaker, Fact)
    assert weaker.low == 14
    assert isinstance(stronger, Unknown)
    assert "not by class 6" in stronger.why


def test_a_splitter_draws_what_hangs_on_its_lead(tmp_path: Path) -> None:
    low_voltage = {"voltage": "12 V", "power": "10 W", "efficiency": 0.8}
    plan = _plan(
        {
            "core": {"part": "switch-8-poe", "room": "store"},
            "clock": {"part": "clock-part", "room": "yard"},
            "divider": {"part": "divider-part", "room": "yard"},
        },
        [{"run": ["clock", "divider", "core/1"]}],
    )
    plan["parts"] |= {
        "divider-part": {"like": "splitter", "low-voltage": low_voltage},
        "clock-part": {"like": "end-device", "draw": "8 W"},
    }
    build = build_of(tmp_path, plan)
    run = _only_run(build)
    assert run.feeds == "device:clock"
    assert isinstance(run.drawn, Fact)
    assert run.drawn.high == pytest.approx(10.0)
    assert not [feed for feed in build.mains_feeds if feed.device == "device:clock"]


def test_the_least_important_goes_dark_first(tmp_path: Path) -> None:
    """Three of class 4 on 60 W: two are fed. Without priorities the last jack is the first to go."""
    names = ["gate", "barn", "door"]
    priorities = {"gate": "low", "barn": "critical", "door": "high"}

    def dark(with_priorities: bool) -> list[str]:
        devices: dict[str, Any] = {"core": {"part": "giver", "room": "store"}}
        for name in names:
            more = {"poe-priority": priorities[name]} if with_priorities else {}
            devices[name] = {"part": "cam", "room": "yard", **more}
        giver = {"like": "switch-8-poe", "gives-poe": {"jacks": "1-4", "class": 4, "budget": "60 W", "counts": "class"}}  # fmt: skip
        links = [{"run": [f"core/{jack}", name]} for jack, name in enumerate(names, 1)]
        build = build_of(tmp_path, _plan(devices, links, giver=giver))
        runs = [build.power_runs[each] for each in build.power_sources["device:core"].runs]
        return [build.jacks[run.sink].device for run in dark_first(build, runs, 60)]

    assert dark(with_priorities=False) == ["device:door"]
    assert dark(with_priorities=True) == ["device:gate"]


@pytest.mark.parametrize(
    ("gives", "asked", "granted", "volts"),
    [
        ({"class": 3}, 3, 3, 44),
        ({"class": 4}, 3, 3, 50),  # a source keeps the voltage of its own Type
        ({"class": 8, "type": 4}, 3, 3, 52),
        ({"class": 3, "type": 3}, 3, 3, 50),
        ({"class": 6}, 6, 6, 50),
        ({"class": 6, "pairs": 2}, 6, 4, 50),  # two pairs carry class 4 at the most
        ({"class": 8, "jack-limit": "60 W"}, 8, 6, 52),
        ({"class": 8, "jack-limit": "59.9 W"}, 8, 4, 52),
    ],
)
def test_what_two_parts_agree_on(
    gives: dict[str, Any], asked: int, granted: int, volts: float, tmp_path: Path
) -> None:
    """Lowest volts of the Types 1 to 4: 44, 50, 50, 52 V (IEEE Std 802.3, Clauses 33 and 145)."""
    plan = _straight()
    plan["parts"]["giver"]["gives-poe"] = {"jacks": "1-4", "budget": "100 W", "counts": "class", **gives}
    plan["parts"]["cam"]["takes-poe"] = {"class": asked}
    run = _only_run(build_of(tmp_path, plan))
    assert isinstance(run.assigned, Fact)
    assert (run.assigned.low, run.volts) == (granted, volts)
