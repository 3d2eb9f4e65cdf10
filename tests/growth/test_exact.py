"""The number that the search finds is the number that trying one after another finds, by a judge of its own."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from firstfix.build.model import Build
from firstfix.finding.model import Level, Report
from firstfix.growth.grow import growth, reckoned_growth
from firstfix.growth.limits import rows
from firstfix.growth.model import CAMERAS, HEIGHT, MOST, PLACES, STORAGE, Growth, Spot
from firstfix.growth.more import with_more
from firstfix.growth.spots import one_of_each, spots
from firstfix.parts.facts import Fact, Figure
from firstfix.pipeline import Compiled
from firstfix.plan.model import Plan
from growth.networks import Data, clean, grown, home, shipped, spot, variants
from resolve.planning import build_of, compiled

# Ends of which more is known than that there is no jack, or no PoE, or no bore.
_RECKONED = {"poe-budget", "jacks-exhausted", "kept-in-the-way", "way-fill", "unpowered"}


def _wrongs(report: Report) -> Counter[tuple[str, str]]:
    """How often each rule has a verdict that is no note."""
    found = Counter((each.rule, each.level.value) for each in report.findings if each.level is not Level.NOTE)
    found.update((each.rule, "cannot tell") for each in report.undetermined if not each.waits)
    return found


def _one_after_another(
    made: Compiled, place: Spot, compile_variant: Callable[[Plan], tuple[Build, Report]], most: int
) -> int:
    """Judged by counts of verdicts alone: no rule may have more of them than before."""
    assert made.plan is not None
    assert made.build is not None
    before = _wrongs(made.report)
    for number in range(1, most + 1):
        _, report = compile_variant(with_more(made.plan, made.build, place, number))
        if _wrongs(report) - before:
            return number - 1
    return most


def _check(made: Compiled, place: Spot) -> Growth:
    compile_variant = variants(made)
    assert made.plan is not None
    assert made.build is not None
    found = growth(made.plan, made.build, made.report, place, compile_variant)
    assert found.more == _one_after_another(made, place, compile_variant, found.more + 1), place
    return found


@pytest.mark.parametrize("name", ["honey-farm", "rowing-club"])
def test_search_finds_what_counting_finds(name: str) -> None:
    made = shipped(name)
    assert made.plan is not None
    assert made.build is not None
    kinds = set()
    for place in one_of_each(spots(made.plan, made.build)):
        found = _check(made, place)
        kinds.add(place.kind)
        reckoned = reckoned_growth(made.build, rows(made.build), place)
        if place.kind not in (HEIGHT, STORAGE) and found.first[0].rule in _RECKONED:
            assert reckoned.more == found.more, place
        elif place.switch:
            # Other limits are not reckoned, and may only come earlier.
            assert reckoned.more >= found.more
    assert len(kinds) == 5


_BORES = st.sampled_from([15, 18, 20, 25, 30, 40])
_SWITCHES = st.sampled_from([("1-8", 60), ("1-8", 130), ("1-24", 95), ("1-4", 370), ("1-24", 370)])


@settings(derandomize=True, deadline=None, max_examples=10)
@given(_BORES, _SWITCHES, st.sampled_from(["class", "draw"]), st.sampled_from([0, 2, 3]), st.integers(1, 3))
def test_of_random_networks(
    tmp_path_factory: pytest.TempPathFactory,
    bore: int,
    switch: tuple[str, int],
    counts: str,
    poe_class: int,
    cameras: int,
) -> None:
    def change(plan: Data) -> None:
        plan["ways"]["duct"]["bore"] = f"{bore} mm"
        plan["parts"]["by-class"]["gives-poe"] |= {
            "jacks": switch[0],
            "budget": f"{switch[1]} W",
            "counts": counts,
        }
        plan["parts"]["eye"]["takes-poe"]["class"] = poe_class
        plan["parts"]["eye"]["draw"] = "3 W"
        for number in range(2, cameras + 1):
            plan["devices"][f"cam-{number}"] = dict(plan["devices"]["cam"])
            plan["links"].append({"run": [f"cam-{number}", "panel", "core"]})

    made = compiled(tmp_path_factory.mktemp("plan"), home(change))
    # What is over a limit already has a test of its own.
    assume(not _wrongs(made.report))
    assert made.plan is not None
    assert made.build is not None
    for place in one_of_each(spots(made.plan, made.build)):
        if place.kind in (CAMERAS, PLACES):
            found = _check(made, place)
            reckoned = reckoned_growth(made.build, rows(made.build), place).more
            if found.first and found.first[0].rule in _RECKONED:
                assert reckoned == found.more, (place, found)


@pytest.mark.parametrize("what", ["cam", "ap", "out", "store"])
def test_more_of_a_thing_never_mends(what: str, tmp_path: Path) -> None:
    """The search halves: whoever is over a limit stays over it."""
    made = clean(tmp_path, home(lambda plan: plan["ways"]["duct"].update(bore="20 mm")))
    assert made.plan is not None
    assert made.build is not None
    place = spot(made, what)
    compile_variant, before = variants(made), _wrongs(made.report)
    fine = [
        not _wrongs(compile_variant(with_more(made.plan, made.build, place, number))[1]) - before
        for number in range(3, 26)
    ]
    assert fine == sorted(fine, reverse=True)
    assert not fine[-1]


@pytest.mark.parametrize(
    ("name", "run"),
    [("cam", ["panel", "core"]), ("ap", ["panel", "core"]), ("out", ["panel", "core"]), ("store", ["core"])],
)
def test_a_grown_plan_is_one_that_could_have_been_written(name: str, run: list[str], tmp_path: Path) -> None:
    """The same build as of the plan in which somebody typed the copies."""
    copies = [f"{name}-more-1", f"{name}-more-2"]

    def typed(plan: Data) -> None:
        for copy in copies:
            plan["devices"][copy] = dict(plan["devices"][name])
            plan["links"].append({"run": [copy, *run]})
        if name == "store":
            plan["cabinets"]["main"]["layout"]["8-12"]["carries"] += copies

    made = clean(tmp_path, home())
    assert made.plan is not None
    assert made.build is not None
    more, _ = variants(made)(with_more(made.plan, made.build, spot(made, name), 2))
    (folder := tmp_path / "typed").mkdir()
    assert _of(more) == _of(build_of(folder, home(typed)))


def _watts(figure: Figure) -> float:
    assert isinstance(figure, Fact)
    return round(figure.high, 6)


def _of(build: Build) -> dict[str, object]:
    """What does not depend on which of equal jacks a run has."""
    return {
        "devices": build.devices,
        "links": {(each.hops, each.lanes) for each in build.links.values()},
        "cable": Counter((each.kind, each.part, each.route) for each in build.pieces.values()),
        "power": {source: (each.budget, _watts(each.taken)) for source, each in build.power_sources.items()},
        "mains": Counter(each.source for each in build.mains_feeds),
        "items": Counter((each.part, each.standing) for each in build.items),
        "addresses": {(each.device, each.vlan) for each in build.addresses},
    }


def test_nothing_ends_it_within_what_anybody_adds(tmp_path: Path) -> None:
    """Told as at least so many; here by a switch, a panel and outlets without end, as far as the search goes."""

    def change(plan: Data) -> None:
        plan["parts"]["wide"] = {"like": "keystone-panel-48-2u", "openings": {"1-99": "keystone"}}
        plan["parts"]["large"] = {
            "like": "switch-48-poe",
            "jacks": {"1-99": {"family": "rj45", "rate": "1 Gb/s"}},
        }
        plan["devices"]["core"]["part"] = "large"
        plan["devices"]["panel"]["part"] = "wide"
        layout = plan["cabinets"]["main"]["layout"]
        del layout["15"], layout["14"]
        layout |= {"15": "core", "13-14": "panel"}

    found = grown(clean(tmp_path, home(change)), "wired-places")
    assert (found.more, found.is_least, found.first, found.lifts) == (MOST, True, (), ())
