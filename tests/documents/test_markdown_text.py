"""A text in Markdown shows itself and does nothing else, as an independent reader of Markdown sees it."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from documents.hostile_texts import HOSTILE
from firstfix.documents.markdown import inline

READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])


def leaves(source: str) -> list[Token]:
    return [leaf for token in READER.parse(source) for leaf in (token.children or [token])]


def shown(source: str) -> str:
    return "".join(leaf.content for leaf in leaves(source) if leaf.type in ("text", "text_special"))


def plain(text: str) -> str:
    return " ".join(
        "".join(" " if ord(each) < 32 or each in "\x7f\x85\u2028\u2029" else each for each in text).split()
    )


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_is_one_paragraph_of_plain_text(text: str) -> None:
    types = {token.type for token in leaves(inline(text))}
    assert types <= {"paragraph_open", "paragraph_close", "text", "text_special", "inline"}
    assert " ".join(shown(inline(text)).split()) == plain(text)


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Zl", "Zp"]), max_size=40))
@settings(derandomize=True, deadline=None, max_examples=300)
def test_any_text_in_a_table_cell_stays_in_its_cell(text: str) -> None:
    source = f"| a | b |\n| --- | --- |\n| {inline(text)} | end |\n"
    tokens = READER.parse(source)
    assert sum(token.type == "td_open" for token in tokens) == 2
    assert sum(token.type == "tr_open" for token in tokens) == 2
    assert {leaf.type for leaf in leaves(source)}.isdisjoint(
        {"html_inline", "link_open", "image", "em_open", "code_inline"}
    )


def test_addresses_and_names_stay_readable() -> None:
    assert inline("10.0.1.1") == "10.0.1.1"
    assert inline("ap-hall/1 – panel/3") == "ap-hall/1 – panel/3"
