"""The tools that steps ask for, as parts to borrow or buy: each word has its answer, each tool stands once, what is at hand not at all."""

from pathlib import Path

import pytest

from firstfix.parts.library_files import library
from firstfix.pipeline import compile_plan
from firstfix.work.tasks import tasks
from firstfix.work.tool_parts import TOOL_PARTS, ToolLine, tool_lines
from firstfix.work.tools import DIGGING_TOOLS, FIBRE_TOOLS, HELPER, TOOLS

_PLANS = Path(__file__).parents[2] / "plans"


def lines(folder: Path, name: str, more: str = "") -> dict[str, ToolLine]:
    return lines_of(folder, (_PLANS / name).read_text("utf-8") + more)


def lines_of(folder: Path, text: str) -> dict[str, ToolLine]:
    path = folder / "plan.yaml"
    path.write_text(text, "utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    return {each.part: each for each in tool_lines(build, tasks(build))}


def test_each_word_of_a_step_is_known() -> None:
    asked = (*TOOLS.values(), *FIBRE_TOOLS.values(), DIGGING_TOOLS, HELPER)
    assert {word for words in asked for word in words} == set(TOOL_PARTS)


@pytest.mark.parametrize("name", sorted({name for names in TOOL_PARTS.values() for name in names}))
def test_each_tool_is_in_the_library(name: str) -> None:
    # The cleaner for fibres is used up, and still belongs into the toolbox.
    assert library()[name].kind == ("consumable" if name == "fibre-cleaner" else "tool")


def test_the_farm_needs_tools_for_plugs_and_jacks_and_none_for_fibre(tmp_path: Path) -> None:
    found = lines(tmp_path, "honey-farm.yaml")
    # 18 ends: 6 at panel and outlets, 12 with plugs; 9 runs to test.
    assert found["tool-jack"].steps == 6
    assert found["tool-plug"].steps == 12
    assert found["tool-tester-length"].steps == 9
    assert not {"tool-splicer", "tool-fibre-light", "fibre-cleaner"} & set(found)


def test_spliced_fibre_needs_a_splicer_and_a_cleaner(tmp_path: Path) -> None:
    found = lines(tmp_path, "rowing-club.yaml")
    assert found["tool-splicer"].steps == 2
    # Both ends, and the test.
    assert found["fibre-cleaner"].steps == 3
    assert found["tool-fibre-light"].steps == 1


def test_fibre_with_plugs_put_on_needs_no_splicer(tmp_path: Path) -> None:
    found = lines(tmp_path, "rowing-club.yaml", "\ncabling: {fibre-ends: plugs}\n")
    assert "tool-splicer" not in found
    assert found["fibre-cleaner"].steps == 3


def test_a_way_longer_than_the_rods_is_passed_with_a_string(tmp_path: Path) -> None:
    # The yard duct of 38 m: one step lays it open, one pulls the run; no other way is over 30 m.
    found = lines(tmp_path, "honey-farm.yaml")
    assert found["pull-string"].steps >= 1
    short = (_PLANS / "honey-farm.yaml").read_text("utf-8").replace("length: 38 m", "length: 28 m")
    assert "pull-string" not in lines_of(tmp_path, short)


def test_what_is_in_stock_is_at_hand(tmp_path: Path) -> None:
    found = lines(tmp_path, "honey-farm.yaml", "\nstock: {tool-drill: 1, tool-ladder: 0}\n")
    assert "tool-drill" not in found
    assert "tool-ladder" in found
