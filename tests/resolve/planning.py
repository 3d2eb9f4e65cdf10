"""Small plans as data, compiled, for the tests of this stage."""

import json
from pathlib import Path
from typing import Any

from firstfix.build.model import Build
from firstfix.pipeline import Compiled, compile_plan


def compiled(folder: Path, plan: dict[str, Any]) -> Compiled:
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), encoding="utf-8")
    return compile_plan(path, "plan.yaml")


def build_of(folder: Path, plan: dict[str, Any]) -> Build:
    build = compiled(folder, plan).build
    assert build is not None
    return build


def one_room(devices: dict[str, str], links: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    """Devices by name and part, all in one room."""
    return {
        "sites": {"home": {"rooms": {"study": {}}}},
        "devices": {name: {"part": part} for name, part in devices.items()},
        "links": links,
        **more,
    }
