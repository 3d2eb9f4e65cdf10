"""A phase is a presence: layer 2 as of spring has only what stands in spring."""

from pathlib import Path
from typing import Any

from firstfix.build.presence import as_of
from firstfix.graphs.layer2 import layer2
from resolve.planning import build_of, one_room


def test_layer_2_as_of_a_phase(tmp_path: Path) -> None:
    links: list[dict[str, Any]] = [{"run": ["a", "b"]}, {"run": ["b", "c"], "phase": "autumn"}]
    phases: dict[str, Any] = {"spring": {}, "autumn": {}}
    build = build_of(tmp_path, one_room(dict.fromkeys("abc", "switch-8"), links, phases=phases))
    joined = {phase: len(layer2(build, as_of(build, phase)).joins) for phase in ("spring", "autumn")}
    assert joined == {"spring": 1, "autumn": 2}
