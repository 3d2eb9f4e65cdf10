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
GOOD_PLANS = sorted(path for path in (ROOT / "tests" / "rules").glob("*/good*.yaml") if "." not in path.stem)


def read(path: Path) -> Any:
    """Dates stay the text they are in a plan."""
    return json.loads(json.dumps(YAML(typ="safe", pure=True).load(path), default=str))


def compiled(data: Any, folder: Path) -> Compiled:
    path = folder / "plan.yaml"
    path.write_text(json.dumps(data, indent=1), encoding="utf-8")
    return compile_plan(path, "plan.yaml")
