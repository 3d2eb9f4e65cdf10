"""What is at hand is used first, never twice, and what stays over is stated. Every item keeps exactly one standing."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from firstfix.build.hardware import IN_STOCK, TO_BUY
from firstfix.build.model import Build
from firstfix.documents.shopping_list import shopping_list_markdown
from firstfix.pipeline import compile_plan
from firstfix.purchase.left_over import at_hand
from firstfix.purchase.needs import Need, needs
from firstfix.purchase.owned import already_there
from repo.editing import HONEY_FARM, compiled, read
from resolve.planning import build_of


def _farm(tmp_path: Path, stock: dict[str, Any], **more: Any) -> Build:
    plan = read(HONEY_FARM)
    plan["stock"] = stock
    for section, values in more.items():
        plan[section] = {**plan.get(section, {}), **values}
    found = compiled(plan, tmp_path)
    assert found.build is not None
    assert [gap.why for gap in found.build.gaps] == []
    return found.build


def _plain() -> Build:
    build = compile_plan(HONEY_FARM, "honey-farm.yaml").build
    assert build is not None
    return build


def _amounts(build: Build) -> Counter[str]:
    """Pieces, and millimetres of what is cut, over all standings."""
    found: Counter[str] = Counter()
    for item in build.items:
        found[item.part] += item.count * (round(item.length * 1000) or 1)
    return found


def _need(build: Build, part: str) -> Need | None:
    return next((each for each in needs(build) if each.part == part), None)


STOCKS: tuple[dict[str, Any], ...] = (
    {"cage-nut-set-m6": 7},
    {"cage-nut-set-m6": 1000, "label-cable": 3},
    {"cat6-indoor": ["60 m", "22 m"]},
    {"cat6-indoor": {"305 m": 2}},
    {"cord-cat6": {"0.5 m": 3, "1 m": 2, "20 m": 1}},
    {"camera": 1, "yard-camera": 1},
)


@pytest.mark.parametrize("stock", STOCKS, ids=str)
def test_nothing_is_lost_and_nothing_is_there_twice(stock: dict[str, Any], tmp_path: Path) -> None:
    build = _farm(tmp_path, stock)
    assert _amounts(build) == _amounts(_plain())
    assert len({item.id for item in build.items}) == len(build.items)
    taken = Counter(each.item for lot in build.stock for each in lot.taken)
    assert set(taken) == {item.id for item in build.items if item.standing == IN_STOCK}
    assert set(taken.values()) <= {1}
    for each in at_hand(build):
        assert each.left == pytest.approx(each.had - each.used)
        assert each.left >= 0


@pytest.mark.parametrize("stock", STOCKS, ids=str)
def test_each_item_is_bought_or_there(stock: dict[str, Any], tmp_path: Path) -> None:
    build = _farm(tmp_path, stock)
    bought = Counter(item for each in needs(build) for item in each.items)
    there = Counter(item for each in already_there(build) for item in each.items)
    assert bought == Counter(item.id for item in build.items if item.standing == TO_BUY)
    assert there == Counter(item.id for item in build.items if item.standing != TO_BUY)


def test_nuts_are_shared_out_to_the_last_one(tmp_path: Path) -> None:
    before, after = (
        _need(_plain(), "cage-nut-set-m6"),
        _need(_farm(tmp_path, {"cage-nut-set-m6": 7}), "cage-nut-set-m6"),
    )
    assert before is not None
    assert after is not None
    assert after.amount.needed == before.amount.needed - 7


def test_what_stays_over_is_stated(tmp_path: Path) -> None:
    build = _farm(tmp_path, {"cage-nut-set-m6": 1000})
    assert _need(build, "cage-nut-set-m6") is None
    (nuts,) = at_hand(build)
    needed = _need(_plain(), "cage-nut-set-m6")
    assert needed is not None
    assert nuts.left == 1000 - needed.amount.needed
    assert f"| {nuts.left:g} |" in shopping_list_markdown(build, needs(build), already_there(build))


def test_a_coil_at_hand_is_cut_before_one_is_bought(tmp_path: Path) -> None:
    before, build = _need(_plain(), "cat6-indoor"), _farm(tmp_path, {"cat6-indoor": ["305 m"]})
    assert before is not None
    assert _need(build, "cat6-indoor") is None
    (coil,) = at_hand(build)
    assert coil.used == pytest.approx(before.amount.needed)
    assert coil.coil is not None
    assert sum(run.length for run in coil.coil.runs) == pytest.approx(coil.used)


def test_a_cord_serves_where_it_is_long_enough_and_no_longer_than_the_bought_one(tmp_path: Path) -> None:
    """A needed 0.74 m is bought as 1 m: 0.8 m and 1 m serve, 0.7 m is too short, 1.5 m would hang about."""
    lengths = {"0.7 m": 1, "0.8 m": 1, "1 m": 1, "1.5 m": 1}
    plan: dict[str, Any] = {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "cabling": {"desk-cord": "0.74 m"},
        "devices": {"core": {"part": "switch-8"}, "a": {"part": "end-device"}, "b": {"part": "end-device"}},
        "links": [{"run": ["a", "core"]}, {"run": ["b", "core"]}],
        "stock": {"cord-cat6": lengths},
    }
    build = compiled(plan, tmp_path).build
    assert build is not None
    assert {(lot.length, lot.left) for lot in build.stock} == {(0.7, 1), (0.8, 0), (1, 0), (1.5, 1)}
    assert sorted(piece.length.sold for piece in build.pieces.values()) == [0.8, 1]


def test_a_colour_asked_for_takes_only_that_colour(tmp_path: Path) -> None:
    plan: dict[str, Any] = {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "devices": {"core": {"part": "switch-8"}, "a": {"part": "end-device"}, "b": {"part": "end-device"}},
        "links": [{"run": ["a", "core"], "colour": "green"}, {"run": ["b", "core"]}],
        "stock": {"cord-cat6": {"2 m": 1, "2 m red": 1}},
    }
    build = compiled(plan, tmp_path).build
    assert build is not None
    standing = {item.for_id: item.standing for item in build.items if item.part == "cord-cat6"}
    by_colour = {piece.colour: standing[piece.id] for piece in build.pieces.values()}
    assert by_colour == {"green": TO_BUY, "": IN_STOCK}


def test_unknown_part_is_named_at_its_place(tmp_path: Path) -> None:
    plan = read(HONEY_FARM) | {"stock": {"cage-nut-set-m7": 20}}
    found = compiled(plan, tmp_path)
    (fault,) = [each for each in found.report.findings if each.rule == "name-unknown"]
    assert fault.message == "there is no part 'cage-nut-set-m7'; did you mean 'cage-nut-set-m6'?"
    assert fault.primary is not None


def test_a_device_in_stock_is_not_bought(tmp_path: Path) -> None:
    build = _farm(tmp_path, {"yard-camera": 1})
    cameras = [item for item in build.items if item.part == "yard-camera"]
    assert sorted(item.standing for item in cameras) == [IN_STOCK, TO_BUY]


def test_plain_cords_are_spares_of_any_colour_and_say_why_they_lie_there(tmp_path: Path) -> None:
    plan: dict[str, Any] = {
        "sites": {"home": {"rooms": {"den": {"mains": 9}}}},
        "vlans": {"all": {"id": 5, "subnet": "10.1.5.0/24", "colour": "blue"}},
        "devices": {
            "core": {"part": "switch-8", "room": "den", "vlan": "all"},
            "pc": {"part": "computer-desktop", "room": "den", "vlan": "all", "plugs-into": "core"},
        },
    }
    without = [each for each in needs(build_of(tmp_path, plan)) if each.part == "cord-cat6"]
    assert [(each.colour, each.amount.spares) for each in without] == [("blue", 1)]
    length = without[0].length
    build = build_of(tmp_path, {**plan, "stock": {"cord-cat6": {f"{length:g} m": 6}}})
    cords = [each for each in needs(build) if each.part == "cord-cat6"]
    assert [(each.colour, each.amount.needed, each.amount.spares) for each in cords] == [("blue", 1, 0)]
    (lot,) = at_hand(build)
    assert lot.left == 6
    assert lot.why_left.startswith("cords of this length are asked for in blue")
    assert lot.why_left in shopping_list_markdown(build, needs(build), already_there(build)).replace("\\", "")
