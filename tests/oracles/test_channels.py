"""Copper channels of random plans, against a second reckoning (oracles.twisted_pair) and against networkx for the ways."""

import json
import tempfile
from pathlib import Path
from typing import Any

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.finding.model import Finding
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from firstfix.rules.channel_facts import channel_facts
from firstfix.rules.channel_lengths import lengths_of
from firstfix.rules.channels import channel_length_kept
from firstfix.rules.rule import Fine, Outcome
from oracles.twisted_pair import Cable, Said, judge

RANK = ["5e", "6", "6a"]
JACKS = {"5e": "jack-cat5e", "6": "jack-cat6", "6a": "jack-cat6a-unscreened"}
law = settings(derandomize=True, deadline=None, max_examples=60)

centimetres = st.integers(1, 4500)
ways = st.lists(
    st.tuples(st.integers(0, 3), st.integers(0, 3), centimetres, st.sampled_from([None, 20, 25, 45, 60])),
    max_size=5,
)
warmths = st.sampled_from([None, 20, 33, 60])


def _chain(whole: int, parts: tuple[int, int], warm: list[int | None]) -> list[tuple[int, int | None]]:
    """Three ways of so many centimetres in all, drawn so that lengths near the limits are common."""
    first = 1 + whole * parts[0] // 250
    second = 1 + whole * parts[1] // 250
    return list(zip((first, second, max(1, whole - first - second)), warm, strict=True))


plans = st.fixed_dictionaries(
    {
        "chain": st.builds(
            _chain,
            st.one_of(st.integers(2000, 5500), st.integers(6500, 8900), st.sampled_from([9000, 9001, 7500])),
            st.tuples(st.integers(1, 120), st.integers(1, 120)),
            st.lists(warmths, min_size=3, max_size=3),
        ),
        "more": ways,
        "cord": st.integers(50, 800),
        "awg": st.sampled_from([24, 26, 28]),
        "cable": st.sampled_from(RANK),
        "jack": st.sampled_from(RANK),
        "rate": st.sampled_from([100, 1000, 2500, 5000, 10_000]),
        "loft": st.booleans(),
    }
)


def plan_of(made: dict[str, Any], unit: str = "m") -> dict[str, Any]:
    """Four rooms in a row with ways to and fro; a desk in the last, a switch in the first."""

    def length(cm: int) -> str:
        return f"{cm / 100} m" if unit == "m" else f"{cm / 30.48:.9f} ft"

    def way(near: int, far: int, cm: int, celsius: int | None, kind: str = "trunking") -> dict[str, Any]:
        warm = {} if celsius is None else {"temperature": f"{celsius} °C"}
        return {"between": [f"r{near}", f"r{far}"], "length": length(cm), "kind": kind, **warm}

    steps = {f"step-{at}": way(at, at + 1, cm, warm) for at, (cm, warm) in enumerate(made["chain"])}
    if made["loft"]:
        cm, _ = made["chain"][1]
        steps["step-1"] = way(1, 2, cm, None, "loft")
    more = {f"more-{at}": way(*each) for at, each in enumerate(made["more"]) if each[0] != each[1]}
    jack = {"family": "rj45", "rate": f"{made['rate']} Mb/s"}
    sold = made["cord"] / 100
    return {
        "sites": {"home": {"rooms": {f"r{at}": {"mains": 9} for at in range(4)}}},
        "ways": {**steps, **more},
        "cabling": {
            "slack": "0 m", "drop": "0 m", "desk-cord": length(made["cord"]),
            "indoor": "own-cable", "cords": "own-cord", "jacks": JACKS[made["jack"]],
        },
        "parts": {
            "own-cable": {"like": "cat6-indoor", "cable": {"category": made["cable"]}},
            "own-cord": {
                "like": "cord-cat6", "cable": {"category": "6a", "gauge": made["awg"], "lengths": [f"{sold} m"]}
            },
            "own-switch": {"like": "switch-8", "jacks": {"1-8": jack}},
            "own-desk": {"like": "computer-desktop", "jacks": {"1": jack}},
        },
        "devices": {
            "core": {"part": "own-switch", "room": "r0"},
            "panel": {"part": "keystone-panel-12-1u", "room": "r0"},
            "socket": {"part": "wall-outlet-1", "room": "r3"},
            "desk": {"part": "own-desk", "room": "r3"},
        },
        "links": [{"run": ["desk", "socket/1", "panel/1", "core"]}],
    }  # fmt: skip


def compiled(plan: dict[str, Any]) -> tuple[Build, Outcome]:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text(json.dumps(plan), encoding="utf-8")
        build = compile_plan(path, "plan.yaml").build
    assert build is not None
    (outcome,) = channel_length_kept.check(build)
    return build, outcome


def verdict(outcome: Outcome) -> str:
    if isinstance(outcome, Fine):
        return "fine"
    return str(outcome.level) if isinstance(outcome, Finding) else "cannot tell"


def expected(made: dict[str, Any], build: Build) -> Said:
    (run,) = (piece for piece in build.pieces.values() if piece.kind == RUN)
    cables, loft = [], 0.0
    for way in (build.ways[each] for each in run.route):
        assert isinstance(way.length, Fact)
        if way.kind == "loft":
            loft += way.length.high
        else:
            warm = way.temperature.high if isinstance(way.temperature, Fact) else 20.0
            cables.append(Cable(way.length.high, warm))
    cord = made["cord"] / 100
    worst = RANK[min(RANK.index(made["cable"]), RANK.index(made["jack"]))]
    return judge(cables, [(cord, made["awg"])] * 2, made["rate"], worst, loft)


@law
@given(plans)
def test_the_verdict_is_that_of_the_second_reckoning(made: dict[str, Any]) -> None:
    build, outcome = compiled(plan_of(made))
    said = expected(made, build)
    assert verdict(outcome) == said.verdict
    (channel,) = build.channels.values()
    found = lengths_of(build, channel_facts(build).pieces(channel), at_worst=False)
    assert 102 - found.equivalent_m == pytest.approx(said.margin, abs=1e-6)


@law
@given(plans)
def test_the_way_is_as_long_as_networkx_says(made: dict[str, Any]) -> None:
    build, _ = compiled(plan_of(made))
    graph: Any = networkx.MultiGraph()
    for way in build.ways.values():
        assert isinstance(way.length, Fact)
        graph.add_edge(*way.ends, weight=way.length.typical)
    shortest = networkx.shortest_path_length(graph, "room:home/r0", "room:home/r3", weight="weight")
    (run,) = (piece for piece in build.pieces.values() if piece.kind == RUN)
    assert isinstance(run.length.figure, Fact)
    assert run.length.figure.high == pytest.approx(shortest)


BADNESS = {"fine": 0, "cannot tell": 1, "warning": 2, "error": 3}


@law
@given(plans, st.integers(0, 2), st.integers(1, 3000))
def test_longer_is_never_better(made: dict[str, Any], step: int, extra: int) -> None:
    row = {**made, "more": []}
    longer = [(cm + extra * (at == step), warm) for at, (cm, warm) in enumerate(row["chain"])]
    before, after = (verdict(compiled(plan_of(each))[1]) for each in (row, {**row, "chain": longer}))
    assert BADNESS[after] >= BADNESS[before]


@law
@given(plans, st.integers(0, 2), st.integers(21, 60))
def test_hotter_is_never_better(made: dict[str, Any], step: int, celsius: int) -> None:
    row = {**made, "more": [], "loft": False}
    hotter = [
        (cm, max(celsius, warm or 20) if at == step else warm) for at, (cm, warm) in enumerate(row["chain"])
    ]
    before, after = (verdict(compiled(plan_of(each))[1]) for each in (row, {**row, "chain": hotter}))
    assert BADNESS[after] >= BADNESS[before]


@law
@given(plans)
def test_metres_and_feet_say_the_same(made: dict[str, Any]) -> None:
    (_, one), (_, other) = (compiled(plan_of(made, unit)) for unit in ("m", "ft"))
    assert verdict(one) == verdict(other)


def margins(made: dict[str, Any]) -> tuple[float, int]:
    build, _ = compiled(plan_of(made))
    (channel,) = build.channels.values()
    found = lengths_of(build, channel_facts(build).pieces(channel))
    return 102 - found.equivalent_m, 4 - channel.connections


ROW: dict[str, Any] = {
    "chain": [(1000, None), (2000, None), (3000, None)], "more": [], "cord": 500, "awg": 24, "cable": "6",
    "jack": "6", "rate": 1000, "loft": False,
}  # fmt: skip


def test_the_gauge_of_a_cord_changes_the_margin() -> None:
    thick, thin = margins(ROW)[0], margins({**ROW, "awg": 28})[0]
    assert thick == pytest.approx(102 - 60 - 1.2 * 10)
    assert thick - thin == pytest.approx((1.95 - 1.2) * 10)


def test_the_warmth_of_a_way_changes_the_margin() -> None:
    warm = {**ROW, "chain": [(1000, None), (2000, 50), (3000, None)]}
    assert margins(ROW)[0] - margins(warm)[0] == pytest.approx(20 * (20 * 0.004 + 10 * 0.006))


def test_a_coupler_changes_the_margin() -> None:
    plan = plan_of(ROW)
    plan["devices"]["joint"] = {"part": "coupler-rj45", "room": "r3"}
    plan["links"] = [{"run": ["desk", "joint", "socket/1", "panel/1", "core"]}]
    build, _ = compiled(plan)
    (channel,) = build.channels.values()
    found = lengths_of(build, channel_facts(build).pieces(channel))
    # One connection more, and one cord of 5 m more.
    assert 4 - channel.connections == margins(ROW)[1] - 1
    assert 102 - found.equivalent_m == pytest.approx(margins(ROW)[0] - 1.2 * 5)
