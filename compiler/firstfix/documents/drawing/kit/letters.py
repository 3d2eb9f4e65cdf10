"""A text in letters that the shipped font has, so that a name in any writing reads as something wherever it is drawn.

Takes a text and the font's letters; gives the text to draw. Only what is drawn is changed: titles and descriptions, which a screen
reader speaks, keep the author's own letters. Arabic letters take their joined shapes, since the font has no rules to choose them;
what the font lacks is spelled by its name in the Unicode character database: a honeybee is "(honeybee)", a kana its syllable.
"""

import re
import unicodedata
from collections.abc import Collection
from functools import cache

_SHAPES = ((0xFB50, 0xFC00), (0xFE70, 0xFEFD))  # Arabic Presentation Forms-A and -B
# Points that tell vowels in Hebrew and Arabic; both are read without them.
_POINTS = ((0x591, 0x5BD), (0x5BF, 0x5C7), (0x610, 0x61A), (0x64B, 0x65F), (0x670, 0x670), (0x6D6, 0x6ED))
_LAM, _ALEFS, _STRETCH = "\u0644", "\u0622\u0623\u0625\u0627", "\u0640"
_ALONE, _FIRST, _MIDDLE, _LAST = "isolated", "initial", "medial", "final"
# In names of characters: what stands before the letter's own name.
_KINDS = (" LETTER ", " SYLLABLE ", " VOWEL SIGN ", " CHARACTER ", " SYLLABICS ")
_BETWEEN = "-"
# A figure after a mark after a word that runs to the left belongs to the next fact: a left-to-right mark keeps it to the right
# of the word, where the Unicode bidirectional algorithm (UAX 9, rule N1) would put it to the left.
_LEFT_TO_RIGHT = "\u200e"
_RUNS_LEFT = re.compile(r"[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]")
_NEXT_FACT = re.compile(rf"({_RUNS_LEFT.pattern})(?=\W*[^\w\s\u200e]\W*\d)")


def legible(text: str, known: Collection[str]) -> str:
    """`text`, one line as `font.clean` leaves it, in letters of `known` alone; in the order of reading, as it was."""
    if not _RUNS_LEFT.search(text) and all(map(known.__contains__, text)):
        return text
    plain = "".join(character for character in text if not _is_point(character))
    kept: list[str] = []
    was_spelled = False
    for character in _joined(plain):
        if character in known:
            kept.append(character)
            was_spelled = False
            continue
        spelled = _spelled(character, known)
        kept.append(_BETWEEN + spelled if was_spelled and spelled else spelled)
        was_spelled = was_spelled or bool(spelled)
    return _NEXT_FACT.sub(rf"\1{_LEFT_TO_RIGHT}", "".join(kept))


def _is_point(character: str) -> bool:
    return any(first <= ord(character) <= last for first, last in _POINTS)


def _is_arabic(character: str) -> bool:
    return "\u0600" <= character <= "\u06ff"


def _spelled(character: str, known: Collection[str]) -> str:
    """A letter by its sound, a sign by its name in brackets, else its code. Tints of skin and silent marks say nothing."""
    name = unicodedata.name(character, "").replace("LETTER SMALL ", "LETTER ")
    category = unicodedata.category(character)
    sounds = [name.rpartition(kind)[2].lower() for kind in _KINDS if kind in name]
    if category == "Sk" or (category.startswith("M") and not sounds):
        return ""
    found = f"U+{ord(character):04X}"
    if sounds and (category[0] in "LM" or name.startswith("REGIONAL ")):
        found = min(sounds, key=len).replace(" ", _BETWEEN)
    elif category.startswith("S") and name:
        found = f"({name.lower()})"
    return "".join(each for each in found if each in known)


@cache
def _shapes() -> dict[tuple[str, str], str]:
    """(letters, place in the word) to the shape, by the decompositions of the Unicode character database."""
    found: dict[tuple[str, str], str] = {}
    for code in (code for first, end in _SHAPES for code in range(first, end)):
        place, *letters = unicodedata.decomposition(chr(code)).split()[:3] or [""]
        word = "".join(chr(int(letter, 16)) for letter in letters)
        if len(word) == 1 or (len(word) == 2 and word[0] == _LAM and word[1] in _ALEFS):
            found.setdefault((word, place.strip("<>")), chr(code))
    return found


def _joins_on(character: str) -> bool:
    """Whether it joins the letter after it."""
    return character == _STRETCH or (character, _FIRST) in _shapes()


def _joins_back(character: str) -> bool:
    return character == _STRETCH or (character, _LAST) in _shapes()


def _joined(text: str) -> list[str]:
    """Letters of Arabic in the shape of their place in the word (Unicode 16, section 9.2); lam and alef become one."""
    if not any(map(_is_arabic, text)):
        return list(text)
    units: list[str] = []
    for character in text:
        if character in _ALEFS and units and units[-1] == _LAM:
            units[-1] += character
        else:
            units.append(character)
    return [_shape(units, index) for index in range(len(units))]


def _shape(units: list[str], index: int) -> str:
    unit = units[index]
    before = index > 0 and _joins_on(units[index - 1]) and _joins_back(unit)
    after = index + 1 < len(units) and _joins_on(unit) and _joins_back(units[index + 1][0])
    place = {(False, False): _ALONE, (False, True): _FIRST, (True, True): _MIDDLE, (True, False): _LAST}
    return _shapes().get((unit, place[before, after]), unit)
