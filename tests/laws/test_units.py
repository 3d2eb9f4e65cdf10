"""A figure is the same figure in another unit: lengths in feet, powers in milliwatts, temperatures in Fahrenheit change no verdict."""

import re
from pathlib import Path
from typing import Any

import pytest

from laws.corpus import EXAMPLES, ONE_OF_EACH_RULE, changed, compiled, name_of, read, verdicts

_FIGURE = r"(?<![\w.-])(-?\d+(?:\.\d+)?) "
_METRES = re.compile(_FIGURE + r"m(?![\w³²/])")
_MILLIMETRES = re.compile(_FIGURE + r"mm(?![\w³²/])")
_WATTS = re.compile(_FIGURE + r"W(?![\w/])")
_CELSIUS = re.compile(_FIGURE + r"(?:°C|C)(?!\w)")
# Texts for people, and coils and cords in stock, whose lengths are names of what is sold.
_TEXTS = {"note", "title", "name", "reason", "keep-free", "url", "ssid"}


def _in_other_units(leaf: Any, at: tuple[str, ...]) -> Any:
    if not isinstance(leaf, str) or at[-1] in _TEXTS or "<key>" in at:
        return leaf
    leaf = _METRES.sub(lambda found: f"{float(found[1]) / 0.3048:.12f} ft", leaf)
    leaf = _MILLIMETRES.sub(lambda found: f"{float(found[1]) / 10:.10f} cm", leaf)
    leaf = _WATTS.sub(lambda found: f"{float(found[1]) / 1000:.12f} kW", leaf)
    return _CELSIUS.sub(lambda found: f"{float(found[1]) * 1.8 + 32:.10f} °F", leaf)


@pytest.mark.parametrize("path", [*EXAMPLES, *ONE_OF_EACH_RULE], ids=name_of)
def test_the_same_in_other_units(path: Path, tmp_path: Path) -> None:
    plan = read(path)
    other = changed(plan, _in_other_units)
    assert other != plan or not re.search(r"\d (m|mm|W|C|°C)\b", path.read_text("utf-8"))
    before, after = (compiled(each, tmp_path) for each in (plan, other))
    assert verdicts(after) == verdicts(before)
