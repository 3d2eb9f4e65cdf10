"""What the font lacks is written in what it has; Arabic is joined. Held against the Unicode character database and its charts."""

import unicodedata

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.documents.drawing.kit import font
from proof.glyphs import extent


@pytest.mark.parametrize(
    ("written", "drawn"),
    [
        ("plain", "plain"),
        ("🐝", "(honeybee)"),
        ("tea ☕ room", "tea (hot beverage) room"),
        ("👍🏽", "(thumbs up sign)"),
        ("蜂", "U+8702"),
        ("はち", "ha-ti"),
        ("कमरा", "ka-ma-ra-aa"),
        ("꿀벌", "ggul-beol"),
        # Joined shapes by the code charts of Arabic Presentation Forms-B: beh, yeh and teh in one word.
        ("بيت", "\ufe91\ufef4\ufe96"),
        # Alef joins only what is before it, so the beh after it begins anew: bab, "door".
        ("باب", "\ufe91\ufe8e\ufe8f"),
        ("لا", "\ufefb"),
        ("سلام", "\ufeb3\ufefc\ufee1"),
        ("بَيت", "\ufe91\ufef4\ufe96"),  # without the point for a
        ("שָׁלוֹם", "שלום"),
    ],
)
def test_how_a_text_is_drawn(written: str, drawn: str) -> None:
    assert font.shown(font.clean(written)) == drawn


def test_a_figure_of_the_next_fact_stays_to_the_right_of_a_word_that_runs_left() -> None:
    """UAX 9, N1: between letters that run left and a figure, a mark would run left too, and swap them."""
    assert font.shown("דלת · 12 m") == "דלת\u200e · 12 m"
    assert font.shown("קומה 2") == "קומה 2", "a figure that belongs to the words stays among them"


@pytest.mark.parametrize(
    "code", [code for code in range(0x621, 0x64B) if code != 0x640 and not 0x63B <= code <= 0x63F]
)
def test_every_arabic_letter_is_drawn_in_the_shape_of_its_place(code: int) -> None:
    """The other way round: the shape's compatibility decomposition (NFKC) is the letter again."""
    letter = chr(code)
    for text in (letter, f"ب{letter}", f"{letter}ب", f"ب{letter}ب"):
        drawn = font.shown(text)
        assert unicodedata.normalize("NFKC", drawn) == text
        assert not set(drawn) & set(text)


@given(st.text(max_size=60), st.booleans())
@settings(derandomize=True, deadline=None)
def test_any_text_is_drawn_in_letters_of_the_font_in_its_width(text: str, is_bold: bool) -> None:
    drawn = font.shown(font.clean(text), is_bold)
    found = extent(drawn, 8, is_bold)
    assert found.missing == ""
    assert font.width(font.clean(text), 8, is_bold) == pytest.approx(found.width)
    assert font.shown(drawn, is_bold) == drawn
