"""Make the two shipped font files from DejaVu Sans 2.37. Run by hand, once; nothing imports it.

    python make_font.py FOLDER-WITH-DEJAVU

Keeps the scripts that names in plans are mostly written in, drops kerning and ligatures (so that a text is exactly as wide
as the sum of its advances, which is how we measure), and renames the family, as the licence asks of a modified version.
"""

import sys
from pathlib import Path

from fontTools import subset
from fontTools.ttLib import TTFont

HERE = Path(__file__).parent
FAMILY = "Firstfix Sans"
SOURCES = {"Regular": "DejaVuSans.ttf", "Bold": "DejaVuSans-Bold.ttf"}

# Blocks of the Unicode character database, and the few signs of later blocks that units and drawings need.
RANGES = (
    (0x20, 0x7E),  # Basic Latin
    (0xA0, 0x24F),  # Latin-1 Supplement, Latin Extended-A and -B
    (0x370, 0x3FF),  # Greek and Coptic
    (0x400, 0x482),  # Cyrillic and its supplement, without combining marks
    (0x48A, 0x52F),
    (0x531, 0x587),  # Armenian
    (0x5BE, 0x5BE),  # Hebrew, without points
    (0x5D0, 0x5F4),
    (0x60C, 0x60F),  # Arabic, without points: signs, digits, letters, also Persian and Urdu ones
    (0x61B, 0x61F),
    (0x621, 0x64A),
    (0x660, 0x66D),
    (0x671, 0x6D5),
    (0x6F0, 0x6F9),
    (0x10D0, 0x10FC),  # Georgian
    (0x1E00, 0x1EFF),  # Latin Extended Additional: Vietnamese
    (0x200E, 0x200E),  # left-to-right mark
    (0x2010, 0x2027),  # General Punctuation
    (0x2030, 0x203A),
    (0x2044, 0x2044),
    (0x2070, 0x209C),  # Superscripts and Subscripts
    (0x20AC, 0x20AC),
    (0x2103, 0x2109),  # degree signs
    (0x2116, 0x2122),
    (0x2126, 0x212B),  # ohm, kelvin, angstrom
    (0x2150, 0x215F),  # fractions
    (0x2190, 0x2199),  # Arrows
    (0x21B3, 0x21B5),
    (0x21D0, 0x21D5),
    (0x2200, 0x2200),
    (0x2205, 0x2205),
    (0x2211, 0x2213),
    (0x2219, 0x221E),
    (0x2248, 0x2248),
    (0x2260, 0x2265),
    (0x25A0, 0x25A1),
    (0x25B2, 0x25BF),
    (0x25CB, 0x25CF),
    (0x2610, 0x2612),  # boxes to tick
    (0x2713, 0x2717),
    (0xFB50, 0xFBFF),  # the joined shapes of Arabic letters: a text is drawn with these, see kit/letters.py
    (0xFE70, 0xFEFC),
)


def characters() -> list[int]:
    return [code for first, last in RANGES for code in range(first, last + 1)]


def rename(font: TTFont, style: str) -> None:
    """Give the family our name everywhere, and leave copyright (0) and licence (13, 14) as they are."""
    postscript = f"{FAMILY.replace(' ', '')}-{style}"
    names = {
        1: FAMILY,
        2: style,
        3: f"{postscript} from DejaVu Sans 2.37",
        4: f"{FAMILY} {style}",
        6: postscript,
    }
    table = font["name"]
    table.names = [each for each in table.names if each.nameID in (0, 5, 13, 14)]
    for name_id, text in names.items():
        table.setName(text, name_id, 3, 1, 0x409)
    table.names.sort(key=lambda each: (each.platformID, each.platEncID, each.langID, each.nameID))


def make(source: Path, style: str) -> None:
    options = subset.Options(
        layout_features=[], hinting=False, name_IDs=["*"], name_languages=["*"], notdef_outline=True, recalc_timestamp=False
    )  # fmt: skip
    options.drop_tables += ["FFTM", "kern", "GPOS", "GSUB", "GDEF", "MATH", "gasp"]
    font = subset.load_font(str(source), options)
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=characters())
    cutter.subset(font)
    rename(font, style)
    font.recalcTimestamp = False
    font.save(str(HERE / f"FirstfixSans-{style}.ttf"))


if __name__ == "__main__":
    for each_style, file_name in SOURCES.items():
        make(Path(sys.argv[1]) / file_name, each_style)
