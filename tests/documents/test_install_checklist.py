"""The checklist as a file: each task a box to tick, with all that is known of it, whatever the plan's words are."""

import re
from dataclasses import replace

import pytest
from markdown_it import MarkdownIt
from markdown_it.token import Token

from documents.hostile_texts import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.install_checklist import install_checklist_markdown
from firstfix.documents.markdown import inline
from firstfix.work.order import order
from firstfix.work.tasks import tasks
from purchase.sample import PARTS, sample, with_parts

READER = MarkdownIt("commonmark").enable("table")


def checklist(build: Build) -> str:
    return install_checklist_markdown(build, order(tasks(build)))


def steps(source: str) -> list[str]:
    return [line for line in source.splitlines() if line.startswith("- [ ] ")]


def step(source: str, id_: str) -> str:
    """One step with its sub-points."""
    start = source.index(f"· {inline(id_)}\n")
    ends = [source.find(mark, start) for mark in ("\n- [ ] ", "\n\n")]
    return source[start : min((end for end in ends if end > 0), default=len(source))]


def test_each_task_is_a_box_to_tick_numbered_in_order_and_known_by_its_id() -> None:
    line = order(tasks(sample()))
    found = steps(checklist(sample()))
    assert len(found) == len(line)
    for number, (text, task) in enumerate(zip(found, line, strict=True), start=1):
        assert text.startswith(f"- [ ] **{number}. ")
        assert text.endswith(f"· {inline(task.id)}")


def test_a_step_says_all_that_is_known_of_it() -> None:
    text = checklist(sample())
    for task in tasks(sample()):
        said = step(text, task.id)
        for caution in task.cautions:
            assert f"    - **Caution.** {inline(caution)}\n" in f"{said}\n" or _refers(text, said, caution)
        for check in task.checks:
            assert f"    - Test: {inline(f'{check.what}: {check.expected}')}\n" in f"{said}\n"
        for record in task.records:
            assert f"    - Write down {inline(record)}: " in said
        assert ("    - Parts: " in said) == bool(task.parts)
        assert ("    - Tools: " in said) == bool(task.tools)
        assert ("    - After: " in said) == bool(task.after)


def _refers(text: str, said: str, caution: str) -> bool:
    """To a step further up, without another heading between, that says it in full."""
    found = re.search(rf"\*\*Caution\.\*\* {caution.partition(':')[0]}: as at step ([0-9]+)\.\n", f"{said}\n")
    assert found is not None, said
    start, here = text.index(f"- [ ] **{found[1]}. "), text.index(said)
    between = text[start:here]
    return inline(caution) in between.split("\n- [ ] ")[0] and "\n#" not in between


def test_what_precedes_a_step_has_a_smaller_number() -> None:
    text = checklist(sample())
    said = step(text, "fit:device/storage")
    assert "(it stands on it)" in said
    numbers = {task.id: number for number, task in enumerate(order(tasks(sample())), start=1)}
    assert f"{numbers['fit:fitting/main/5']} (it stands on it)" in said


def test_parts_are_counted_and_cable_has_its_length() -> None:
    said = step(checklist(sample()), "pull:piece/ap-hall--core/1/2")
    assert "Parts: 2 × cable label; 1 × cable, category 6, 18.5 m\n" in said


def test_the_head_says_what_it_adds_up_to_and_invents_no_time() -> None:
    text = checklist(sample())
    assert "3 runs to pull, 73.7 m of cable, 6 ends to terminate, 3 runs to test, 8 cords to plug in" in text
    assert "a guess without a source" in text
    assert not any(f" {unit}" in text for unit in ("minutes", "hours", "min)"))


def test_codes_and_electricians_come_first_at_the_head_too() -> None:
    assert "Local codes come first, and a licensed electrician" in checklist(sample()).split("##", 1)[0]


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_words_add_no_step_and_no_markup(text: str) -> None:
    parts = (replace(PARTS[name], title=text) for name in ("poe-switch", "indoor-cable"))
    build = replace(with_parts(sample(), *parts), name=text)
    source = checklist(build)
    assert len(steps(source)) == len(steps(checklist(sample())))
    leaves = [leaf for token in READER.parse(source) for leaf in (token.children or [token])]
    assert {leaf.type for leaf in leaves}.isdisjoint(
        {"html_block", "html_inline", "link_open", "image", "table_open", "em_open"}
    )
    plain = [leaf for token in READER.parse(checklist(sample())) for leaf in (token.children or [token])]
    assert count(leaves, "heading_open") == count(plain, "heading_open")
    assert count(leaves, "list_item_open") == count(plain, "list_item_open")


def count(leaves: list[Token], kind: str) -> int:
    return sum(leaf.type == kind for leaf in leaves)


def test_same_build_same_bytes() -> None:
    build = sample()
    assert checklist(replace(build, items=build.items[::-1])) == checklist(build)
