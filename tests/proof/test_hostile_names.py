"""Whatever a plan's texts are, the drawings are whole, nothing in them does anything, and what is written can be read."""

import json
from pathlib import Path
from typing import Any

import pytest

from proof.faults import CHECKS, OF_COLOUR
from proof.hostile_names import TEXTS, plan_of_long_names, plan_with
from proof.reading import read
from proof.sheets import made_of, written


def _faults(plan: Any, folder: Path) -> tuple[list[str], str, str]:
    """What the checks find, all the words that are drawn, and the titles. That there are but shapes and texts, the reader sees to."""
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan, ensure_ascii=False), encoding="utf-8")
    sheets = {stem: read(svg) for stem, svg in written(made_of(path)).items()}
    faults = [
        f"{stem}: {fault}"
        for stem, sheet in sheets.items()
        for check in CHECKS
        if check not in OF_COLOUR
        for fault in check(sheet)
    ]
    words = "\n".join(text.words for sheet in sheets.values() for text in sheet.texts)
    titles = "\n".join(
        said for sheet in sheets.values() for kind, said in sheet.told.values() if kind == "title"
    )
    return faults, words, titles


# What of each text a reader must find, drawn in letters that the font has.
READS_AS = {
    "markup": "<script>alert(1)</script>",
    "quotes": "\"it's\" & 'so' <b>bold</b> ]]> &#0; &lt;",
    "right to left": "דבורים",
    "right to left and joined": "\ufe91\ufef4\ufe96",  # beh first, yeh in the middle, teh last: Unicode's chart of Forms-B
    "combining marks": "Zalgo Café Việt",
    "emoji": "(honeybee) honey (thumbs up sign) (man)-(woman)-(girl)",
    "other writings": "U+8702-U+871C ha-ti-mi-tu ggul-beol",
    "turned round": "gnp.exe x",
    "200 letters": "WWWW",
    "200 letters in words": "Wide shed Wide shed",
    "control": "bell and[31m red",
}

# And what a screen reader is given, where that differs: the author's own letters.
IS_SPOKEN_AS = {
    "right to left and joined": "بيت النحل والعسل",
    "emoji": "🐝 honey 👍🏽",
    "other writings": "蜂蜜 はちみつ 꿀벌",
}


@pytest.mark.parametrize("kind", TEXTS)
def test_a_hostile_text_is_harmless_and_reads_as_something(kind: str, tmp_path: Path) -> None:
    faults, words, titles = _faults(plan_with(TEXTS[kind]), tmp_path)
    assert not faults, "\n".join(faults[:30])
    assert READS_AS[kind] in words
    assert IS_SPOKEN_AS.get(kind, READS_AS[kind]) in titles


def test_names_as_long_as_they_may_be(tmp_path: Path) -> None:
    faults, words, _ = _faults(plan_of_long_names(), tmp_path)
    assert not faults, "\n".join(faults[:30])
    for word in ("gateway", "core", "panel", "camera", "till"):
        assert f"{word}-ww" in words
