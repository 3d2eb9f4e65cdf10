"""The whole build as JSON, for programs. Provenance and gaps are not in it: moving a comment changes no byte."""

import json
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from typing import Any

from firstfix.build.later import Later
from firstfix.build.model import Build
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import Part

FORMAT = 1
_LEFT_OUT = ("library", "gaps", "unsettled", "provenance", "jacks_of")


def build_json(build: Build) -> str:
    """One object: `format`, then the build's own tables by id; parts once each, by name. Keys sorted, figures in base units."""
    data: dict[str, Any] = {
        each.name: _plain(getattr(build, each.name)) for each in fields(build) if each.name not in _LEFT_OUT
    }
    used = {item.part for item in build.items} | {piece.part for piece in build.pieces.values()}
    data["parts"] = {name: _part(build.library[name]) for name in sorted(used) if name in build.library}
    return json.dumps({"format": FORMAT, **data}, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _part(part: Part) -> dict[str, Any]:
    return {each.name: _plain(getattr(part, each.name)) for each in fields(part) if each.name != "said"}


def _plain(value: Any) -> Any:
    if isinstance(value, Part):
        return value.name
    if isinstance(value, Fact):
        return value._asdict()
    if isinstance(value, Unknown):
        return {"unknown": value.why}
    if isinstance(value, Mapping):
        return {str(key): _plain(each) for key, each in value.items()}
    if isinstance(value, Later):
        return [_plain(each) for each in value]
    if isinstance(value, tuple):
        named = getattr(value, "_asdict", None)
        return _plain(named()) if named else [_plain(each) for each in value]
    if is_dataclass(value) and not isinstance(value, type):
        return {each.name: _plain(getattr(value, each.name)) for each in fields(value)}
    return value
