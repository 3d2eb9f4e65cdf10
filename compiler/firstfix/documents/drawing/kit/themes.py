"""The themes: a role of the palette to the colour that is drawn. A sheet is drawn once, in roles, and finished in any of them.

Takes a sheet's markup in roles; gives SVG. `print` is pure black on white: what the others tell by a tint it tells by a pattern.
"""

import re
from collections.abc import Mapping
from typing import NamedTuple

from firstfix.documents.drawing.kit import paints, palette

LIGHT, DARK, PRINT = "light", "dark", "print"
THEMES = (LIGHT, DARK, PRINT)
# Where the foot of a sheet goes; like a role, no text of a plan can hold it.
FOOT_SLOT = "\ue0ff"

_BLACK, _WHITE = "#000000", "#ffffff"
_DOTS = "dots"
_PREFIX = re.compile(r'aria-labelledby="(\S*?)title ')


class Theme(NamedTuple):
    """`colours`: of each role, as #rrggbb. `dotted`: roles that are a field of dots in ink instead."""

    name: str
    colours: Mapping[str, str]
    dotted: frozenset[str] = frozenset()


_LIGHT = Theme(
    LIGHT,
    {
        palette.GROUND: "#ffffff",
        palette.PAPER: "#ffffff",
        palette.INK: "#1b2430",
        palette.QUIET: "#48535f",
        palette.HAIR: "#76828d",
        palette.FIELD: "#f4f6f4",
        palette.BAND: "#dbe8ea",
        palette.PASSIVE_BAND: "#efe7d6",
        palette.COPPER: "#14506e",
        palette.FIBRE: "#8226a9",
        palette.POWER: "#9a3a00",
        palette.VLAN: "#0d715d",
        palette.KEPT: "#6b6828",
        palette.ALARM: "#a3123a",
    },
)
_DARK = Theme(
    DARK,
    {
        palette.GROUND: "#11171d",
        palette.PAPER: "#11171d",
        palette.INK: "#eaf0f4",
        palette.QUIET: "#b7c2cb",
        palette.HAIR: "#7f8d99",
        palette.FIELD: "#1a232b",
        palette.BAND: "#1d3d49",
        palette.PASSIVE_BAND: "#41371f",
        palette.COPPER: "#6cb4ff",
        palette.FIBRE: "#c3a3e0",
        palette.POWER: "#ffab45",
        palette.VLAN: "#7dedc0",
        palette.KEPT: "#e8de7a",
        palette.ALARM: "#ff8a86",
    },
)
_IS_WHITE = frozenset((palette.GROUND, palette.PAPER, palette.FIELD, palette.BAND, palette.PASSIVE_BAND))
_PRINT = Theme(
    PRINT,
    {role: _WHITE if role in _IS_WHITE else _BLACK for role, _, _ in palette.ROLES},
    frozenset({palette.PASSIVE_BAND}),
)
_BY_NAME = {theme.name: theme for theme in (_LIGHT, _DARK, _PRINT)}


def theme(name: str) -> Theme:
    """KeyError for a name that is none of THEMES."""
    return _BY_NAME[name]


def finish(markup: str, name: str = LIGHT, *, foot: str = "", is_transparent: bool = False) -> str:
    """A sheet in roles as SVG in the theme `name`. `foot` is markup in roles, put where the sheet keeps room for it.

    Without a background (`is_transparent`) only what lies under the whole sheet is left out; boxes keep their fill.
    """
    chosen = theme(name)
    markup = markup.replace(FOOT_SLOT, foot)
    colours = {**chosen.colours, **paints.colours(name == PRINT)}
    if is_transparent:
        colours[palette.GROUND] = "none"
    dotted = sorted(role for role in chosen.dotted if role in markup)
    found = _PREFIX.search(markup) if dotted else None
    if found:
        id_ = f"{found[1]}{_DOTS}"
        colours |= dict.fromkeys(dotted, f"url(#{id_})")
        markup = markup.replace("</desc>", f"</desc>{_dots(id_)}", 1)
    return markup.translate({ord(role): colour for role, colour in colours.items()})


def _dots(id_: str) -> str:
    """Far enough apart, and small enough, that letters on them stay clear: our own judgement from looking at prints."""
    return (
        f'<defs><pattern id="{id_}" width="3.2" height="3.2" patternUnits="userSpaceOnUse">'
        f'<rect x="0" y="0" width="3.2" height="3.2" fill="{palette.PAPER}"/>'
        f'<circle cx="1.6" cy="1.6" r="0.32" fill="{palette.INK}"/></pattern></defs>'
    )
