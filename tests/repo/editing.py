"""Plans as plain data, for tests that change them: read by ruamel.yaml (YAML 1.2), written as JSON, which is YAML too."""

import json
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from firstfix.pipeline import Compiled, compile_plan

ROOT = Path(__file__).parents[2]
PLANS = sorted(path for path in (ROOT / "plans").glob("*.yaml") if "." not in path.stem)
HONEY_FARM = ROOT / "plans" / "honey-farm.yaml"
LANGUAGE_PLANS = sorted((ROOT / "tests" / "language").glob("*.yaml"))
# What edits a plan's text, or moves it elsewhere, wants it in one file.
PLANS_OF_ONE_FILE = [path for path in PLANS if "\ninclude:" not in path.read_text("utf-8")]
GOOD_PLANS = sorted(path for path in (ROOT / "tests" / "rules").glob("*/good*.yaml") if "." not in path.stem)


def read(path: Path) -> Any:
    """The whole plan with what it includes. Dates stay the text they are in a plan."""
    plan = json.loads(json.dumps(YAML(typ="safe", pure=True).load(path), default=str))
    included = plan.pop("include", [])
    for name in [included] if isinstance(included, str) else included:
        _lay_into(plan, read(path.parent / name))
    return plan


def _lay_into(plan: Any, more: Any) -> None:
    """Tables name by name, however deep; lists joined. Nothing may be said twice."""
    for key, value in more.items():
        if key not in plan:
            plan[key] = value
        elif isinstance(value, dict):
            _lay_into(plan[key], value)
        else:
            assert isinstance(value, list), key
            plan[key] += value


def compiled(data: Any, folder: Path) -> Compiled:
    path = folder / "plan.yaml"
    path.write_text(json.dumps(data, indent=1), encoding="utf-8")
    return compile_plan(path, "plan.yaml")
