"""The reference page says every key, and what it shows is right; that it is made from the schema is tested with the other pages."""

import re

from markdown_it import MarkdownIt

from firstfix import resources
from schemas.around import key_schema, keys
from schemas.judging import reader_says, says_of_text

PAGE = (resources.schemas() / "plan-reference.md").read_text("utf-8")


def test_every_key_is_on_the_page() -> None:
    for table, key in keys():
        described = key_schema(table, key)
        if table:
            assert f"| `{key}` | {described['description']} | " in PAGE
        else:
            assert (
                f"## {key}\n\n{described['description']}\n" in PAGE
                or f"| `{key}` | {described['description']} | " in PAGE
            )


def test_every_link_on_the_page_leads_to_a_heading() -> None:
    headings = {
        line.lstrip("# ").lower().replace(" ", "-") for line in PAGE.splitlines() if line.startswith("#")
    }
    assert set(re.findall(r"\]\(#([^)]*)\)", PAGE)) <= headings


def test_every_row_has_the_cells_of_its_table() -> None:
    """A bar within a cell would move what follows."""
    tokens = MarkdownIt("commonmark").enable("table").parse(PAGE)
    rows = sum(token.type == "tr_open" for token in tokens)
    assert rows == sum(line.startswith("|") and not line.startswith("|---") for line in PAGE.splitlines())
    for block in re.findall(r"(?:^\|.*\n)+", PAGE, re.MULTILINE):
        assert len({line.count("|") for line in block.splitlines()}) == 1, block


def test_every_example_on_the_page_is_a_plan() -> None:
    blocks = re.findall(r"^```yaml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)
    assert len(blocks) > 12
    for block in blocks:
        assert says_of_text(block) == []
        assert reader_says(block) == []
