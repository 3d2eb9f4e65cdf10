"""What would lift a limit: its price by hand, and how far it goes by trying the plan in which it was done."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.build.cabling import RUN
from firstfix.finding.model import Level
from firstfix.growth.anew import moved
from firstfix.growth.model import Lift
from firstfix.parts.facts import Fact
from firstfix.parts.library_files import library
from growth.networks import Data, clean, grown, home
from resolve.planning import compiled


def _lifts(folder: Path, change: Callable[[Data], None], what: str) -> tuple[Lift, ...]:
    return grown(clean(folder, home(change)), what).lifts


def _hungry(plan: Data) -> None:
    plan["parts"]["by-class"]["gives-poe"]["budget"] = "100 W"


def _narrow(plan: Data) -> None:
    plan["ways"]["duct"].update(bore="20 mm")


def _few_openings(plan: Data) -> None:
    plan["devices"]["panel"]["part"] = "keystone-panel-12-1u"


def _few_openings_there(plan: Data) -> None:
    _few_openings(plan)
    plan["devices"]["panel"]["owned"] = True


def _narrow_shelf(plan: Data) -> None:
    plan["parts"]["box"]["size"] = {"width": "150 mm", "height": "80 mm"}


def _small_cabinet(plan: Data) -> None:
    plan["cabinets"]["main"]["layout"] |= {"13": {"keep-free": "a router"}, "2-7": {"keep-free": "a shelf"}}


def _dear_switches(plan: Data) -> None:
    _hungry(plan)
    plan["parts"]["by-class"]["price"] = 100
    plan["devices"]["core"]["owned"] = True


def test_an_injector_for_each_is_the_cheapest_source(tmp_path: Path) -> None:
    """18 EUR in the library for class 3. Of six outlets of the room three are free, and one more of the strip."""
    first, *_ = _lifts(tmp_path, _dear_switches, "cameras")
    assert "'injector-class-3'" in first.words
    assert (first.price, first.unpriced) == (1800, ())
    assert first.more == 3 + 4
    assert first.then[0].rule == "mains-outlets"


def test_a_dearer_one_is_told_where_it_goes_further(tmp_path: Path) -> None:
    first, second = _lifts(tmp_path, _dear_switches, "cameras")
    assert second.more > first.more
    assert "in place of 'by-class'" in second.words


@pytest.mark.parametrize(
    ("change", "what", "price", "words"),
    [
        # A panel of 24 openings costs 26 EUR, and one of 12 need not be bought, 15 EUR.
        (_few_openings, "wired-places", 1100, "'keystone-panel-24-1u' in place of 'keystone-panel-12-1u' as 'panel'"),
        # Where that one is there already, nothing is saved: one more like it is the cheapest.
        (_few_openings_there, "wired-places", 1500, "a second 'keystone-panel-12-1u' beside 'panel'"),
        (_narrow_shelf, "storage", 1900, "a second 'shelf-1u' in 'main'"),
    ],
)  # fmt: skip
def test_price_of_one_part_more(
    change: Callable[[Data], None], what: str, price: int, words: str, tmp_path: Path
) -> None:
    first, *_ = _lifts(tmp_path, change, what)
    assert (first.words, first.price) == (words, price)


def test_price_of_another_part_is_the_difference_of_the_lists(tmp_path: Path) -> None:
    """A cabinet of 18 units costs 205 EUR and one of 15 units 175 EUR; it has three units more."""
    found = grown(clean(tmp_path, home(_small_cabinet)), "cabinet-height")
    first, *_ = found.lifts
    assert (first.price, found.more, first.more) == (3000, 0, 3)


def test_a_wider_way_goes_as_far_as_a_plan_with_it(tmp_path: Path) -> None:
    """Written into the plan, the same number of cameras fit, and one more does not."""
    (lift,) = _lifts(tmp_path, _narrow, "cameras")
    part = lift.words.partition("'")[2].partition("'")[0]
    (folder := tmp_path / "wider").mkdir()

    def wider(plan: Data, cameras: int) -> None:
        del plan["ways"]["duct"]["bore"]
        plan["ways"]["duct"]["material"] = part
        for number in range(cameras):
            plan["devices"][f"more-{number}"] = dict(plan["devices"]["cam"])
            plan["links"].append({"run": [f"more-{number}", "panel", "core"]})

    def rules(cameras: int) -> set[str]:
        report = compiled(folder, home(lambda plan: wider(plan, cameras))).report
        return {each.rule for each in report.findings if each.level is not Level.NOTE}

    assert lift.more > 3
    assert rules(lift.more) == set()
    assert rules(lift.more + 1) == {each.rule for each in lift.then}


def test_what_nobody_sells_has_no_price(tmp_path: Path) -> None:
    def unpriced(plan: Data) -> None:
        _narrow_shelf(plan)
        plan["parts"]["own-shelf"] = {"like": "shelf-1u", "price": "unknown"}
        plan["cabinets"]["main"]["layout"]["8-12"]["fit"] = "own-shelf"

    (lift,) = _lifts(tmp_path, unpriced, "storage")
    assert (lift.price, lift.unpriced) == (None, ("own-shelf",))


def test_where_nothing_helps_nothing_is_told(tmp_path: Path) -> None:
    """Of strips the library has none with more outlets; something was looked for."""
    found = grown(clean(tmp_path, home()), "storage")
    assert found.first[0].rule == "outlets-covered"
    assert found.lifts == ()


def _six_jacks(plan: Data) -> None:
    part = plan["parts"]["by-class"]
    part["jacks"] = {
        "1-6": {"family": "rj45", "rate": "1 Gb/s"},
        "sfp1-sfp4": {"family": "sfp", "rate": "1 Gb/s"},
    }
    part["gives-poe"]["jacks"] = "1-6"
    plan["devices"]["gateway"]["part"] = "gateway-1u-10g"
    plan["cabinets"]["main"]["layout"]["13"] = "gateway"
    del plan["devices"]["gateway"]["room"]


def test_choosing_anew_says_what_moves_and_what_it_costs(tmp_path: Path) -> None:
    """Five of six jacks are taken; the gateway can move into a cage, with a transceiver of 19 EUR (library)."""
    found = grown(clean(tmp_path, home(_six_jacks)), "cameras")
    assert [each.rule for each in found.first] == ["kept-in-the-way"]
    first = found.lifts[0]
    bought = library()["sfp-copper"].price
    assert isinstance(bought, Fact)
    count = first.more - found.more
    assert first.words.startswith("choosing the jacks of 'core' anew (`build --choose-anew core`), ")
    assert first.words.endswith(f", {count} 'sfp-copper' bought")
    assert (first.price, first.unpriced) == (count * bought.typical * 100, ())


def test_what_would_have_to_be_pulled_anew_is_not_offered(tmp_path: Path) -> None:
    before = clean(tmp_path, home()).build
    assert before is not None
    run = next(each for each in before.pieces.values() if each.kind == RUN)
    after = replace(
        before, pieces={**before.pieces, run.id: run._replace(ends=(run.ends[0], "jack:panel/24@rear"))}
    )
    assert moved(before, after)[:2] == (0, 1)
    assert moved(before, before) == (0, 0, ())
