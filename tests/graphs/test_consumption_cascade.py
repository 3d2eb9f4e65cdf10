"""A switch that PoE feeds, and that feeds others: what it usually draws hangs on what they usually draw."""

from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.build.model import Build
from firstfix.graphs.consumption import at_source, consumption, drawn_at_sink
from firstfix.parts.facts import Fact
from firstfix.pipeline import compile_plan
from firstfix.standards.mains import mains_limits

FED = "power-run:barn-switch/in"


@pytest.fixture(scope="module")
def build() -> Build:
    path = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"
    made = compile_plan(path, path.name).build
    assert made is not None
    return made


def test_its_usual_draw_is_its_own_and_theirs_and_what_is_lost(build: Build) -> None:
    """5 W of its own; 11.5 + 5 + 5 + 1.5 W at its devices, 0.04 W at the most in the cables, and half of the worst loss that is usual."""
    given = 11.5 + 5 + 5 + 1.5 + 0.04
    efficiency = (1 + mains_limits().conversion_least.value) / 2
    found = drawn_at_sink(build, build.power_runs[FED])
    assert found.usual == pytest.approx(5 + given / efficiency, abs=0.05)
    run = build.power_runs[FED]
    assert isinstance(run.drawn, Fact)
    assert found.most == run.drawn.high


def test_the_injector_gives_that_and_the_cables_loss(build: Build) -> None:
    drawn, given = drawn_at_sink(build, build.power_runs[FED]), at_source(build, build.power_runs[FED])
    # 31.4 W at 50 V are 0.628 A; over 1.837 ohms that is 0.72 W.
    assert given.usual - drawn.usual == pytest.approx(0.72, abs=0.01)


def test_of_what_hands_nothing_on_it_is_what_the_part_says(build: Build) -> None:
    assert drawn_at_sink(build, build.power_runs["power-run:cam-yard/1"]) == (5.0, 5.0, 8.0)


def test_two_that_are_said_to_feed_each_other_have_an_end(build: Build) -> None:
    run = build.power_runs[FED]
    back = run._replace(
        id="power-run:injector/back", sink=build.jacks_of["device:injector"][0], source="jack:barn-switch/1"
    )
    barn = build.power_sources["device:barn-switch"]
    injector = build.power_sources["device:injector"]
    circle = replace(
        build,
        power_runs={**build.power_runs, back.id: back},
        power_sources={
            **build.power_sources,
            "device:barn-switch": barn._replace(runs=(back.id,)),
            "device:injector": injector._replace(fed_by=back.id),
        },
    )
    assert consumption(circle, circle.devices["device:injector"]).taken.most > 0
