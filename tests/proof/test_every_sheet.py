"""Every sheet of every example plan, looked at by a reader that shares nothing with what drew it."""

import re

import pytest

from firstfix.documents.report.page import report_page
from firstfix.pipeline import compile_plan, results
from proof.crossings import crossings, laid_out_by_graphviz, same_graph, wires
from proof.faults import CHECKS, OF_COLOUR, Check
from proof.reading import read
from proof.sheets import NAMES, PLANS, THEMES, built

# Of faults, in a message.
_SHOWN = 30


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
@pytest.mark.parametrize("name", NAMES)
def test_no_sheet_has_a_fault(name: str, check: Check) -> None:
    """What has to do with colours in all themes; the shapes are the same in each."""
    drawn = [each for each in built(name).sheets if each.is_own or check in OF_COLOUR]
    assert drawn
    found = [f"{each.says}: {fault}" for each in drawn for fault in check(each.sheet)]
    assert not found, "\n".join([f"{len(found)} faults", *found[:_SHOWN]])


@pytest.mark.parametrize("name", NAMES)
def test_every_theme_has_the_same_shapes_and_words(name: str) -> None:
    own = {each.name: each for each in built(name).sheets if each.is_own}
    for each in built(name).sheets:
        assert [text.words for text in each.sheet.texts] == [
            text.words for text in own[each.name].sheet.texts
        ]
        assert [paint.lines for paint in each.sheet.paints] == [
            paint.lines for paint in own[each.name].sheet.paints
        ]
    assert {each.theme for each in built(name).sheets} == set(THEMES)


def test_what_is_looked_at_is_what_is_written() -> None:
    files = results(compile_plan(PLANS / "honey-farm.yaml", "plan.yaml"))
    svgs = {path: read(data.decode()) for path, data in files.items() if path.endswith(".svg")}
    assert svgs == {
        f"drawings/{each.name}.svg": each.sheet for each in built("honey-farm").sheets if each.is_own
    }


@pytest.mark.parametrize("name", NAMES)
def test_wires_cross_no_oftener_than_graphviz_lets_them(name: str) -> None:
    """Both in the same graph laid out by Graphviz alone, and in the DOT source that lies beside the drawing."""
    source = next((each.dot for each in built(name).made.sheets if each.dot), "")
    of_source = crossings(laid_out_by_graphviz(source))
    for drawn in built(name).sheets:
        if drawn.name.startswith("network") and drawn.is_own and wires(drawn.sheet):
            found = crossings(wires(drawn.sheet))
            assert found <= crossings(laid_out_by_graphviz(same_graph(drawn.sheet))), drawn.name
            assert found <= of_source, drawn.name


@pytest.mark.parametrize("name", NAMES)
def test_ids_are_apart_on_the_page_that_holds_drawings(name: str) -> None:
    ids = re.findall(r'<[^>]*\sid="([^"]*)"', report_page(built(name).made))
    assert any(each.endswith("-title") for each in ids)
    assert sorted(set(ids)) == sorted(ids)
