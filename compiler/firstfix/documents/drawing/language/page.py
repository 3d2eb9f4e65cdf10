"""The visual language in words: what palette.py says, and its roles, sizes and lines as tables with their figures."""

from collections.abc import Iterator

from firstfix.documents.drawing.kit import palette, themes
from firstfix.documents.drawing.kit.key import MEANINGS

PICTURE = "visual-language.svg"
_HEAD = f"""\
# The visual language of the drawings

<!-- Made by `make pages` from the drawings' own palette; what is changed here by hand is lost. -->

![Every sign of the drawings, each with its name](../plans/pictures/{PICTURE})

"""
_SIZES = (
    (palette.TITLE_SIZE, "bold", "titles"),
    (palette.NAME_SIZE, "bold", "names"),
    (palette.TEXT_SIZE, "regular", "what one reads"),
    (palette.SMALL_SIZE, "regular, bold on dark", "numbers of jacks, places, the key, the foot"),
)


def language_page() -> str:
    """Markdown, with a picture beside it that `sample` draws."""
    return "".join((_HEAD, *_signs(), *_roles(), *_lines(), *_sizes()))


def _signs() -> Iterator[str]:
    """The palette's own words: a line that begins at the margin names a sign, the ones below it go on."""
    yield "## Signs\n\n| what | how it is drawn |\n|---|---|\n"
    rows: list[tuple[str, list[str]]] = []
    for line in (palette.__doc__ or "").split("\n")[2:]:
        name, _, words = line.partition("  ")
        if name:
            rows.append((name, [words.strip()]))
        elif words.strip():
            rows[-1][1].append(words.strip())
    yield from (f"| **{name.rstrip(',')}** | {' '.join(words)} |\n" for name, words in rows)


def _roles() -> Iterator[str]:
    yield "\n## Colours\n\nA colour is a role, and each theme gives it a look. In print, what is dotted has dots in ink on white.\n\n"
    yield f"| role | {' | '.join(themes.THEMES)} | for |\n|---|{'---|' * len(themes.THEMES)}---|\n"
    for role, name, words in palette.ROLES:
        looks = [themes.theme(each) for each in themes.THEMES]
        shown = [f"`{look.colours[role]}`{' dotted' if role in look.dotted else ''}" for look in looks]
        yield f"| {name} | {' | '.join(shown)} | {words} |\n"


def _lines() -> Iterator[str]:
    names = {role: name for role, name, _ in palette.ROLES}
    yield "\n## Lines\n\nWeights and dashes in points; a core is paper's colour on top, which makes two lines of one.\n\n"
    yield "| line | colour | weight | dash and gap | core |\n|---|---|---|---|---|\n"
    for stroke, words in MEANINGS:
        core = f"{stroke.core:g}" if stroke.core else "–"
        yield f"| {words} | {names[stroke.colour]} | {stroke.weight:g} | {stroke.dash or 'solid'} | {core} |\n"


def _sizes() -> Iterator[str]:
    yield f"\n## Type\n\nOne font, shipped, measures all text. Nothing is below {palette.SMALLEST_SIZE:g} pt on paper.\n\n"
    yield "| size | weight | for |\n|---|---|---|\n"
    yield from (f"| {size:g} pt | {weight} | {words} |\n" for size, weight, words in _SIZES)
