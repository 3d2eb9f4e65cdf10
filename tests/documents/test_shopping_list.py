"""The shopping list as files: they read back as the lines they were made from, whatever the plan's words are."""

import csv
import io
from dataclasses import replace
from decimal import Decimal

import pytest
from markdown_it import MarkdownIt

from documents.hostile_texts import HOSTILE
from firstfix.build.model import Build
from firstfix.documents.csv_table import guarded
from firstfix.documents.shopping_list import CSV_HEADER, shopping_list_csv, shopping_list_markdown
from firstfix.purchase.needs import needs, total
from firstfix.purchase.owned import already_there
from purchase.sample import PARTS, sample, with_parts

READER = MarkdownIt("commonmark").enable("table")


def markdown(build: Build) -> str:
    return shopping_list_markdown(build, needs(build), already_there(build))


def table_rows(source: str) -> int:
    tokens = READER.parse(source)
    heads = sum(token.type == "thead_open" for token in tokens)
    return sum(token.type == "tr_open" for token in tokens) - heads


def with_title(text: str) -> Build:
    """The sample with `text` as title of a device, a cable and a thing that is there already, and as its own name."""
    parts = (replace(PARTS[name], title=text) for name in ("poe-switch", "indoor-cable", "router"))
    return replace(with_parts(sample(), *parts), name=text)


def test_each_line_is_one_row_of_a_table() -> None:
    build = sample()
    assert table_rows(markdown(build)) == len(needs(build)) + len(already_there(build))


def test_the_csv_reads_back_as_the_lines() -> None:
    build = sample()
    rows = list(csv.DictReader(io.StringIO(shopping_list_csv(build, needs(build)), newline="")))
    expected = [(each, pack) for each in needs(build) for pack in each.amount.packs]
    assert len(rows) == len(expected)
    for row, (each, pack) in zip(rows, expected, strict=True):
        assert (row["section"], row["what"], row["part"]) == (each.section, each.title, each.part)
        assert (int(row["packs"]), float(row["in a pack"])) == (pack.number, pack.size)
        assert float(row["needed in all"]) == each.amount.needed


def test_the_column_of_sums_adds_up_to_the_total() -> None:
    build = sample()
    rows = list(csv.DictReader(io.StringIO(shopping_list_csv(build, needs(build)), newline="")))
    summed = sum(Decimal(row["sum"]) for row in rows if row["sum"] != "no price")
    assert summed == Decimal(total(needs(build)).known) / 100


def test_a_line_without_packs_is_a_row_all_the_same() -> None:
    build = sample()
    unmeasured = replace(build, items=tuple(item._replace(length=0.0) for item in build.items))
    rows = list(csv.reader(io.StringIO(shopping_list_csv(unmeasured, needs(unmeasured)), newline="")))
    assert [row[3] for row in rows if row[1] == "cable, category 6"] == [""]
    assert "not settled" in markdown(unmeasured)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_titles_change_no_row_and_run_nothing(text: str) -> None:
    build = with_title(text)
    source = markdown(build)
    assert table_rows(source) == len(needs(build)) + len(already_there(build))
    leaves = [leaf for token in READER.parse(source) for leaf in (token.children or [token])]
    assert {leaf.type for leaf in leaves}.isdisjoint(
        {"html_block", "html_inline", "link_open", "image", "em_open"}
    )
    assert sum(leaf.type == "heading_open" for leaf in leaves) == sum(
        leaf.type == "heading_open" for leaf in READER.parse(markdown(sample()))
    )
    rows = list(csv.reader(io.StringIO(shopping_list_csv(build, needs(build)), newline="")))
    assert {len(row) for row in rows} == {len(CSV_HEADER)}
    assert guarded(text) in {row[1] for row in rows}


def test_unknown_prices_are_said_and_the_sum_is_called_a_part() -> None:
    text = markdown(sample())
    assert "no price" in text
    assert "so the whole costs more than that" in text


def test_the_bound_of_the_cutting_is_printed() -> None:
    """Where all that is shorter was refuted it says that nothing shorter can do; after a job too large for that, the bound."""
    build = sample()
    assert "50 m bought; nothing shorter can hold these runs without a join" in markdown(build)
    run = next(item for item in build.items if item.part == "indoor-cable")
    part = PARTS["indoor-cable"]
    assert part.cable is not None
    only_100_m = replace(part, cable=part.cable._replace(lengths=(100.0,)))
    lengths = enumerate((45.0, 40.0, 35.0, 30.0, 25.0, 20.0) * 11)
    trap = tuple(run._replace(id=f"item:{number}", length=length) for number, length in lengths)
    assert "2300 m bought; less than 2200 m cannot do" in markdown(
        replace(with_parts(build, only_100_m), items=trap)
    )


def test_same_build_same_bytes() -> None:
    build = sample()
    shuffled = replace(build, items=build.items[::-1])
    assert markdown(shuffled) == markdown(build)
    assert shopping_list_csv(shuffled, needs(shuffled)) == shopping_list_csv(build, needs(build))
