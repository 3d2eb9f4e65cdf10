"""A panel's jack has two faces: installed runs and cords written as links of their own may share one."""

from pathlib import Path
from typing import Any

from resolve.planning import compiled


def test_as_many_runs_and_as_many_cords_as_a_panel_has_jacks(tmp_path: Path) -> None:
    count = 24
    desks = {f"desk-{number}": {"part": "computer-desktop", "room": "attic"} for number in range(count)}
    plan: dict[str, Any] = {
        "sites": {"home": {"rooms": {"study": {"mains": 9}, "attic": {"mains": 30}}}},
        "ways": {"riser": {"between": ["study", "attic"], "length": "9 m", "kind": "riser"}},
        "devices": {
            "core": {"part": "switch-24-managed", "room": "study"},
            "panel": {"part": "keystone-panel-24-1u", "room": "study"},
            **desks,
        },
        "links": [
            *({"run": [name, "panel"]} for name in desks),
            *({"run": ["panel", f"core/{number + 1}"]} for number in range(count)),
        ],
    }
    build = compiled(tmp_path, plan).build
    assert build is not None
    assert len(build.pieces) == 2 * count
    ends = [end for piece in build.pieces.values() for end in piece.ends if end.startswith("jack:panel/")]
    assert len(set(ends)) == 2 * count
