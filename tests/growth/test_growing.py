"""What people read: `check PLAN --grow`, and the section of the report."""

import json
import shutil
from pathlib import Path

import pytest

from cli.running import firstfix
from firstfix.documents.growth_words import growth_rows
from firstfix.growth.model import CAMERAS, KINDS, Behind, Growth, Lift, Spot, Trouble
from firstfix.pipeline import results
from growth.networks import PLANS, clean, home
from resolve.planning import compiled


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name in ("honey-farm.yaml", "honey-farm.allocations.yaml"):
        shutil.copy(PLANS / name, tmp_path)
    return tmp_path


def test_says_how_many_what_ends_it_and_what_would_lift_it(folder: Path) -> None:
    said = firstfix("check", "honey-farm.yaml", "--grow", "ap-house", cwd=folder)
    assert (said.code, said.err) == (0, "")
    assert (
        said.out
        == """\
Each for itself, everything else staying as it is: one more is a thing of the same part at the same place,
wired the same way to the same switch. What is kept free stays free.

access points
  like 'ap-house' in 'landing', at 'core': 4 more
    with 5 more, 'core' has 120 W of PoE to give, and 7 devices take 126.61 W of it, counted by draw
    (poe-budget)
    lifted by an injector 'injector-class-4' in line before 'core' for each one more, 29.00 EUR each: then 6
    more in all; with 7 more, a further 'injector' finds no free mains outlet: all those of 'farm/study' are
    taken (mains-outlets)
    limits, each alone: PoE of 'core' after 4 (89.23 W left); jacks giving PoE of 'core' after 6 (6 left);
                        rj45 jacks of 'core' after 8 (8 left); warmth in 'main' after about 15 (3.99 K left);
                        rj45 jacks of 'panel' after 20 (20 left)
"""
    )


def test_without_a_name_tells_all_and_writes_nothing(folder: Path) -> None:
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    said = firstfix("check", "honey-farm.yaml", "--grow", "--format", "json", cwd=folder)
    assert said.code == 0
    told = json.loads(said.out)
    assert [each["kind"] for each in told] == sorted((each["kind"] for each in told), key=KINDS.index)
    assert {each["kind"] for each in told} == set(KINDS)
    house = next(each for each in told if each["like"] == "ap-house")
    assert (house["more"], house["exact"], house["ended_by"][0]["rule"]) == (4, True, "poe-budget")
    assert house["lifted_by"][0]["price_minor"] == 2900
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (("--grow", "kitchen"), "nothing that could grow is called 'kitchen'"),
        (("--grow", "--format", "sarif"), "no SARIF"),
        (("--grow", "--why", "core"), "--grow looks at the plan as it is"),
    ],
)
def test_misuse_is_one_sentence(given: tuple[str, ...], said: str, folder: Path) -> None:
    run = firstfix("check", "honey-farm.yaml", *given, cwd=folder)
    assert (run.code, run.out) == (2, "")
    assert said in run.err
    assert run.err.count("\n") <= 2


def test_a_plan_with_nothing_says_so(tmp_path: Path) -> None:
    (tmp_path / "empty.yaml").write_text("name: Nothing\n")
    run = firstfix("check", "empty.yaml", "--grow", cwd=tmp_path)
    assert run.out.startswith("the plan has nothing that could grow")


def test_a_plan_that_cannot_be_read_gives_its_findings(tmp_path: Path) -> None:
    (tmp_path / "bad.yaml").write_text("name: [unclosed\n")
    run = firstfix("check", "bad.yaml", "--grow", cwd=tmp_path)
    assert run.code == 2
    assert "error" in run.out


def test_report_has_a_section(tmp_path: Path) -> None:
    page = results(clean(tmp_path, home()))["report.html"].decode()
    section = page.partition('aria-labelledby="growth"')[2].partition("</section>")[0]
    assert '<a href="#growth">Room to grow</a>' in page
    for kind in KINDS:
        assert f"<h3>{kind.capitalize()}</h3>" in section
    assert "<strong>19 more</strong> like &#39;cam&#39; in &#39;gate&#39;, at &#39;core&#39;" in section


def test_report_of_a_draft_has_none(tmp_path: Path) -> None:
    made = compiled(
        tmp_path, home(lambda plan: plan["devices"].update(other={"part": "camera", "room": "gate"}))
    )
    assert made.report.has_errors
    assert b'id="growth"' not in results(made)["report.html"]


_SPOT = Spot(CAMERAS, "cam", "home/gate", "core", 0)
_OPEN = Trouble("cabinet-heat", "cabinet:main", "cannot tell", "how warm 'gate' gets")


def _growth(more: int, first: tuple[Trouble, ...], lifts: tuple[Lift, ...] = ()) -> Growth:
    near = (
        Behind("PoE", "device:core", "", "W", 3.0, 2.0, 1),
        Behind("PoE", "device:box", "", "W", None, 0.0, None, "the budget of 'box'"),
    )
    return Growth(_SPOT, more, not first, first, near, (_OPEN,), lifts, True)


def test_what_cannot_be_told_never_reads_as_room() -> None:
    (row,) = growth_rows((_growth(0, (_OPEN,)),), "EUR")
    assert row.more == "cannot tell"
    assert row.lifts == ()
    assert row.behind[1].left == "cannot tell: the budget of 'box'"
    (row,) = growth_rows((_growth(2, (_OPEN,)),), "EUR")
    assert row.more == "2 more; past that it cannot be told"


def test_prices() -> None:
    ended = (Trouble("poe-budget", "device:core", "error", "too much"),)
    lifts = (
        Lift("a part", 1234, (), 3, False, ended),
        Lift("a cheaper part", -500, (), 3, True, ()),
        Lift("a part that nobody sells", None, ("own",), 3, True, ()),
        Lift("a part and a cord", 100, ("cord",), 3, True, ()),
    )
    (row,) = growth_rows((_growth(1, ended, lifts),), "EUR")
    assert row.lifts == (
        "lifted by a part, 12.34 EUR: then 3 more in all; with 4 more, too much (poe-budget)",
        "lifted by a cheaper part, 5.00 EUR less: then 3 more in all, and further",
        "lifted by a part that nobody sells, unpriced: then 3 more in all, and further",
        "lifted by a part and a cord, 1.00 EUR, without cord, which have no price: then 3 more in all, and further",
    )
