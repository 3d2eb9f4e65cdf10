"""drawings/index.md: every sheet, in order, once; what a plan says does nothing in it."""

import re

from documents.drawing.sample_build import farm
from firstfix.documents.drawing.index import index_markdown
from firstfix.documents.drawing.set import sheets


def test_every_sheet_in_order_with_a_link_to_its_file() -> None:
    drawn = sheets(farm())
    text = index_markdown(farm(), drawn)
    assert re.findall(r"^- \[([^\]]+)\]\(\1\.svg\): \*\*", text, re.M) == [each.name for each in drawn]
    assert all(len(line) < 400 for line in text.splitlines())


def test_a_title_is_no_markup() -> None:
    from dataclasses import replace

    drawn = [replace(sheets(farm())[0], title="<b>](x)", alt="a|b " * 90)]
    line = index_markdown(farm(), drawn).splitlines()[-1]
    assert r"**\<b\>\](x)**" in line
    assert line.endswith("…")
