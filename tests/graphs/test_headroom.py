"""What is left, against what the rules say of the same plan, and against counts made by hand."""

from pathlib import Path

import pytest

from compare.comparing import build_in
from firstfix.graphs.headroom import AIR, FILL, JACKS, MAINS, POE, UNITS, Headroom, headroom
from firstfix.pipeline import Compiled
from repo.editing import PLANS, compiled, read

# Rule to the row that must agree with it.
_RULES = {"poe-budget": POE, "way-fill": FILL, "strip-load": MAINS, "cabinet-heat": AIR}
FARM = next(path for path in PLANS if path.stem == "honey-farm")


def _rows(result: Compiled) -> dict[tuple[str, str, str], Headroom]:
    return {(each.what, each.id, each.of): each for each in headroom(build_in(result))}


def test_the_farm_counted_by_hand(tmp_path: Path) -> None:
    """16 jacks of the core and 8 of the barn switch; 12 units and 6, of which one and two are free. The gateway has four jacks beside
    the one for the line, which is no room for anything."""
    rows = _rows(compiled(read(FARM), tmp_path))
    jacks = {id_: (row.used, row.limit) for (what, id_, _), row in rows.items() if what == JACKS}
    counted = {"barn-switch": (5, 8), "panel": (4, 24), "gateway": (1, 4)}
    assert {each: jacks[f"device:{each}"] for each in counted} == counted
    assert [row.left for (what, _, _), row in sorted(rows.items()) if what == UNITS] == [2, 1]
    assert rows[FILL, "way:yard-duct", ""].used == pytest.approx(100 * (8.2 / 50) ** 2)


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_where_there_is_room_no_rule_says_that_there_is_none(path: Path, tmp_path: Path) -> None:
    result = compiled(read(path), tmp_path)
    over = {(_RULES[each.rule], each.subject) for each in result.report.findings if each.rule in _RULES}
    short = {(row.what, row.id) for row in headroom(build_in(result)) if (row.left or 0) < -1e-9}
    assert {each for each in over if each[0] == POE} <= short


@pytest.mark.parametrize("draw", ["12 W", "12.5 W"])
def test_a_rule_and_its_row_have_the_same_figure(draw: str, tmp_path: Path) -> None:
    """Of the barn switch, whose devices' draws are known to the watt."""
    plan = read(FARM)
    plan["parts"]["yard-camera"]["draw"] = draw
    result = compiled(plan, tmp_path)
    (found,) = [each for each in result.report.findings if each.rule == "poe-budget"]
    assert found.measurement is not None
    assert _rows(result)[POE, found.subject, ""].left == pytest.approx(found.measurement.margin, abs=0.2)
    assert (_rows(result)[POE, found.subject, ""].left or 0) <= found.measurement.margin + 1e-9


@pytest.mark.parametrize("bore", ["9 mm", "15 mm"])
def test_a_full_way_is_full_by_the_rule_and_by_its_row(bore: str, tmp_path: Path) -> None:
    plan = read(FARM)
    plan["ways"]["yard-duct"]["bore"] = bore
    result = compiled(plan, tmp_path)
    row = _rows(result)[FILL, "way:yard-duct", ""]
    assert row.used is not None
    is_said = any(each.rule == "way-fill" for each in result.report.findings)
    # The rule asks about the one cable that lies there (53 %), the row about a second one beside it (31 %).
    assert is_said == (row.used > 53)
    assert row.limit == pytest.approx(31)


def test_what_is_not_known_is_no_room(tmp_path: Path) -> None:
    plan = read(FARM)
    plan["parts"]["dark"] = {"like": "injector-class-6", "gives-poe": {"budget": "unknown"}}
    plan["devices"]["injector"]["part"] = "dark"
    row = _rows(compiled(plan, tmp_path))[POE, "device:injector", ""]
    assert row.left is None
    assert row.left_share is None
    assert row.why
