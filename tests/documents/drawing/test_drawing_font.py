import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from documents.drawing.reading import parse
from firstfix.documents.drawing.kit import font, svg


def test_width_is_the_sum_of_the_advances_in_the_font_file() -> None:
    from fontTools.ttLib import TTFont

    with TTFont(font.REGULAR) as shipped:
        advances, glyphs, unit = shipped["hmtx"], shipped.getBestCmap(), shipped["head"].unitsPerEm
        expected = sum(advances[glyphs[ord(letter)]][0] for letter in "Yard-duct, 41 m → ½ Ωж") / unit * 8
    assert font.width("Yard-duct, 41 m → ½ Ωж", 8) == pytest.approx(expected)


def test_the_font_is_renamed_and_keeps_its_licence() -> None:
    from fontTools.ttLib import TTFont

    for path in (font.REGULAR, font.BOLD):
        with TTFont(path) as shipped:
            names = {record.nameID: str(record) for record in shipped["name"].names}
        assert names[1] == font.FAMILY
        assert not any(word in names[each] for each in (1, 3, 4, 6) for word in ("Vera", "Bitstream", "Arev"))
        assert "Permission is hereby granted" in names[13]
    assert "Permission is hereby granted" in (font.REGULAR.parent / "LICENSE.txt").read_text(encoding="utf-8")


def test_a_letter_that_the_font_lacks_counts_as_what_is_written_for_it() -> None:
    assert font.width("蜂", 10) == font.width("U+8702", 10)
    assert font.width("🐝", 10, True) == font.width("(honeybee)", 10, True)


def test_clipping_keeps_the_beginning_and_says_that_something_is_missing() -> None:
    clipped = font.clip("a-very-long-name-of-a-camera", 50, 8)
    assert clipped.endswith("…")
    assert "a-very-long-name-of-a-camera".startswith(clipped[:-1])
    assert font.width(clipped, 8) <= 50 < font.width("a-very-long-name-of-a-camera", 8)
    assert font.clip("camera", 0, 8) == ""
    assert font.clip("camera", 100, 8) == "camera"


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("two\nlines\tand  more", "two lines and more"),
        ("bell\x07 null\x00 \x1b[31m", "bell null [31m"),
        ("\u202eevil\u202c \u2066x\u2069\u200f", "evil x"),
        ("Zo\u0308e\u0308", "Zöë"),
        ("Z\u0334\u031b\u033a\u032aa\u0335", "Za"),
        ("lone \ud800 surrogate \uffff", "lone surrogate"),
    ],
)
def test_cleaning(written: str, shown: str) -> None:
    assert font.clean(written) == shown


def test_lines_are_broken_at_spaces_and_the_last_one_is_clipped() -> None:
    lines = font.wrap("via panel/16, injector, surge-house and surge-barn", 70, 7, 2)
    assert len(lines) == 2
    assert all(font.width(line, 7) <= 70 for line in lines)
    assert lines[-1].endswith("…")
    assert font.wrap("short", 70, 7, 2) == ("short",)


@given(st.text(st.characters(codec=None), max_size=80), st.floats(0, 200))
@settings(derandomize=True, deadline=None)
def test_any_text_is_one_harmless_line_that_fits(text: str, room: float) -> None:
    drawn = svg.text(0, 10, text, 8, room=room)
    if not drawn:
        return
    element = parse(drawn)
    assert list(element) == []
    assert element.text is not None
    assert "\n" not in element.text
    assert font.width(element.text, 8) <= room + 1e-9
