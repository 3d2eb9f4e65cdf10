"""SVG elements as text: numbers rounded, everything escaped, and the root with its title and description.

Every text carries its measured width, so that a viewer without our font still keeps it in its box.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from xml.sax.saxutils import escape

from firstfix.documents.drawing.kit import font, palette, themes
from firstfix.documents.drawing.kit.palette import GROUND, INK, PAPER, Stroke

Attribute = str | float
_LONGEST_DESCRIPTION = 20_000


@dataclass(frozen=True, slots=True)
class Drawing:
    """One drawing, finished but for its theme. `name` is safe as the stem of a file's name.

    `markup` is SVG with roles for colours and room for a foot; `svg` is what is shown. `dot` is "" where Graphviz has no part in it.
    `onward` are names of the sheets that it says it continues on.
    """

    name: str
    title: str
    alt: str
    markup: str
    dot: str
    width: float
    height: float
    onward: tuple[str, ...] = ()
    theme: str = themes.LIGHT
    foot: str = ""
    is_transparent: bool = False

    @property
    def svg(self) -> str:
        return themes.finish(self.markup, self.theme, foot=self.foot, is_transparent=self.is_transparent)


def number(value: float) -> str:
    """One decimal, without a trailing zero and without minus zero.

    >>> number(12.04), number(3), number(-0.01)
    ('12', '3', '0')
    """
    text = f"{value:.1f}".removesuffix(".0")
    return "0" if text == "-0" else text


def _attributes(pairs: dict[str, Attribute]) -> str:
    return "".join(
        f' {name.rstrip("_").replace("_", "-")}="{value_of(value)}"' for name, value in pairs.items() if value != ""
    )  # fmt: skip


def value_of(value: Attribute) -> str:
    """What stands between the quotes. Nothing that a plan says is ever made an attribute: this is a second lock."""
    return escape(value, {'"': "&quot;"}) if isinstance(value, str) else number(value)


def element(name: str, *inside: str, **attributes: Attribute) -> str:
    """`inside` is markup already; attributes are escaped here. An attribute of "" is left out; `_` stands for `-`."""
    body = "".join(inside)
    return (
        f"<{name}{_attributes(attributes)}>{body}</{name}>" if body else f"<{name}{_attributes(attributes)}/>"
    )


def group(hint: str, *inside: str) -> str:
    """Things that belong together; `hint` is the whole, unclipped text that a viewer shows on pointing at them."""
    title = f"<title>{escape(font.clean(hint))}</title>" if font.clean(hint) else ""
    return element("g", title, *inside)


def text(
    x: float, y: float, content: str, size: float, *, is_bold: bool = False, colour: str = INK, anchor: str = "",
    room: float | None = None,
) -> str:  # fmt: skip
    """One line that stands on `y`. `anchor` is "", middle or end. With `room`, in points, it is clipped to fit."""
    shown = font.clean(content) if room is None else font.clip(content, room, size, is_bold)
    if not shown:
        return ""
    return element(
        "text", escape(font.shown(shown, is_bold)), x=x, y=y, font_size=size, font_weight="bold" if is_bold else "", fill=colour,
        text_anchor=anchor, textLength=font.width(shown, size, is_bold), lengthAdjust="spacingAndGlyphs",
    )  # fmt: skip


def rect(
    x: float, y: float, width: float, height: float, *, fill: str = "none", stroke: str = "", weight: float = 0.0,
    dash: str = "", radius: float = 0.0,
) -> str:  # fmt: skip
    return element(
        "rect", x=x, y=y, width=width, height=height, rx=radius or "", fill=fill, stroke=stroke,
        stroke_width=weight if stroke else "", stroke_dasharray=dash,
    )  # fmt: skip


def path(data: str, stroke: Stroke) -> str:
    """A line; a stroke with a core is drawn twice, white on top."""
    drawn = _stroked(data, stroke.colour, stroke.weight, stroke.dash)
    return drawn + _stroked(data, PAPER, stroke.core, "") if stroke.core else drawn


def _stroked(data: str, colour: str, weight: float, dash: str) -> str:
    return element("path", d=data, fill="none", stroke=colour, stroke_width=weight, stroke_dasharray=dash)


def line(x1: float, y1: float, x2: float, y2: float, stroke: Stroke) -> str:
    return path(f"M{number(x1)} {number(y1)}L{number(x2)} {number(y2)}", stroke)


def hair(x1: float, y1: float, x2: float, y2: float, colour: str = palette.HAIR) -> str:
    return line(x1, y1, x2, y2, Stroke(colour, palette.HAIRLINE))


def document(prefix: str, title: str, description: str, width: float, height: float, *inside: str) -> str:
    """The whole SVG in roles, for `themes.finish`, `width` by `height` points. Every id in it starts with `prefix`, so several fit on one page."""
    title_id, desc_id = f"{prefix}title", f"{prefix}desc"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {number(width)} {number(height)}"'
        f' width="{number(width)}pt" height="{number(height)}pt" role="img" aria-labelledby="{title_id} {desc_id}"'
        f""" direction="ltr" font-family="'{font.FAMILY}', 'DejaVu Sans', sans-serif">"""
        f'<title id="{title_id}">{escape(font.clean(title))}</title>'
        f'<desc id="{desc_id}">{escape(font.clean(description, _LONGEST_DESCRIPTION))}</desc>'
        + rect(0, 0, width, height, fill=GROUND)
        + "".join(inside)
        + "</svg>\n"
    )


def safe_name(text_: str) -> str:
    """`text_` as a part of a file's name or of an id: a to z, 0 to 9, dashes; "x" if nothing is left.

    >>> safe_name("main"), safe_name("../Hall 2"), safe_name("…")
    ('main', 'hall-2', 'x')
    """
    kept = "".join(
        character if character.isascii() and character.isalnum() else "-" for character in text_.lower()
    )
    return "-".join(part for part in kept.split("-") if part)[:60].strip("-") or "x"


def distinct_names(words: Mapping[str, str]) -> dict[str, str]:
    """For each id a safe name made of its words; where two come out the same, the later ones are numbered."""
    names: dict[str, str] = {}
    taken: set[str] = set()
    for id_, said in words.items():
        name = base = safe_name(said)
        ordinal = 1
        while name in taken:
            ordinal += 1
            name = f"{base}-{ordinal}"
        taken.add(name)
        names[id_] = name
    return names
