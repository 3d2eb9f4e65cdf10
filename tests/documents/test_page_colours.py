"""Pages have the drawings' own colours in the light theme: a note is copper's blue, a warning PoE's rust, what can't be told is olive."""

import re

import pytest

from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.themes import theme
from repo.editing import ROOT

_ROLES = {
    "ink": palette.INK, "quiet": palette.QUIET, "field": palette.FIELD, "band": palette.BAND,
    "error": palette.ALARM, "alarm": palette.ALARM, "warning": palette.POWER, "note": palette.COPPER,
    "link": palette.COPPER, "open": palette.KEPT,
}  # fmt: skip
# Hairlines between rows of a table carry no meaning, and may be paler than a drawing's.
_DECOR = {"line"}


@pytest.mark.parametrize("template", ["report/style.css.jinja", "install-checklist.html.jinja"])
def test_colours_are_the_palettes(template: str) -> None:
    text = (ROOT / "templates" / template).read_text(encoding="utf-8")
    found = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", text))
    light = theme("light").colours
    assert found.keys() - _DECOR <= _ROLES.keys()
    assert {name: colour for name, colour in found.items() if name not in _DECOR} == {
        name: light[_ROLES[name]] for name in found if name not in _DECOR
    }
    others = set(re.findall(r"#[0-9a-fA-F]{3,8}\b", text)) - set(found.values())
    assert others <= {"#fff"}
