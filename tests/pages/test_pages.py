"""Generated pages are what the program would write now, and the page of rules leaves nothing out."""

import re
from collections import Counter

import pytest
from markdown_it import MarkdownIt

from firstfix.finding.help_text import help_headings
from firstfix.rules.all_kinds import all_kinds, kind_families
from firstfix.rules.facts_needed import RULES_ON
from pages.examples import examples
from pages.generated import PAGES, ROOT, page_of_rules

# A plan of so many megabytes or faults, or one on which work has begun, is no example for a page.
_WITHOUT_EXAMPLE = {
    "fault-count", "file-size", "label-twice", "length-measured", "progress-out-of-time", "progress-outdated", "progress-unmatched",
    "run-failed-test",
}  # fmt: skip


@pytest.mark.parametrize("place", PAGES)
def test_the_page_in_the_repository_is_the_generated_one(place: str) -> None:
    """Byte for byte; `make pages` writes it anew."""
    assert (ROOT / place).read_bytes() == PAGES[place]().encode("utf-8")


def test_every_kind_has_its_section_with_level_basis_and_remedy() -> None:
    sections = dict(re.findall(r"^### (\S+)\n(.*?)(?=^##|\Z)", page_of_rules(), re.MULTILINE | re.DOTALL))
    assert list(sections) == [kind.id for family in kind_families() for kind in family.kinds]
    for kind in all_kinds():
        text = _shown(sections[kind.id])
        assert f"{kind.level.value}: {kind.summary.replace('`', '')}" in text
        assert f"Basis: {kind.basis}" in text
        for heading, said in help_headings(kind).items():
            if heading != "Example":
                assert f"{heading}: {said.replace('`', '')}" in text
    assert "Facts of a part it needs: cable.gauge, gives-poe.budget" in _shown(sections["poe-budget"])


def test_facts_needed_are_those_of_rules() -> None:
    assert {rule for rules in RULES_ON.values() for rule in rules} <= {kind.id for kind in all_kinds()}


def test_every_kind_has_an_example_or_a_reason() -> None:
    kinds = tuple(kind.id for kind in all_kinds())
    assert set(kinds) - set(examples(kinds)) == _WITHOUT_EXAMPLE


def test_links_of_the_contents_lead_to_sections() -> None:
    page = page_of_rules()
    targets = Counter(re.findall(r"\]\(#([a-z0-9-]+)\)", page))
    assert targets == Counter(re.findall(r"^### (\S+)$", page, re.MULTILINE))
    assert set(targets.values()) == {1}


def _shown(markdown: str) -> str:
    """What a reader of the page sees, in one line."""
    tokens = MarkdownIt().parse(markdown)
    texts = (
        "".join(child.content for child in token.children or () if child.type in ("text", "code_inline"))
        for token in tokens
        if token.type == "inline"
    )
    return " ".join(texts)
