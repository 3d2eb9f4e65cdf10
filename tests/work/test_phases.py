"""Steps stand in the order of the phases as written, never in that of their names."""

from pathlib import Path

from firstfix.work.order import order
from firstfix.work.tasks import tasks
from resolve.planning import build_of


def test_the_order_of_phases_is_the_plans(tmp_path: Path) -> None:
    plan = {
        "phases": {"winter": {}, "autumn": {}},
        "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {"mains": 9}}}},
        "ways": {"riser": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"}},
        "cabinets": {
            "late": {
                "part": "wall-cabinet-6u",
                "room": "loft",
                "phase": "autumn",
                "layout": {"2": {"fit": "shelf-1u"}},
            }
        },
        "devices": {
            "core": {"part": "switch-8", "room": "den"},
            "first": {"part": "computer-desktop", "room": "den", "phase": "winter", "plugs-into": "core"},
            "second": {"part": "computer-desktop", "room": "loft", "phase": "autumn", "plugs-into": "core"},
        },
    }
    build = build_of(tmp_path, plan)
    line = order(tasks(build), build.phases)
    phases = [step.phase for step in line]
    assert set(phases) == {"", "winter", "autumn"}
    assert max(at for at, phase in enumerate(phases) if phase == "winter") < phases.index("autumn")
    of = {step.id: step.phase for step in line}
    assert of["hang:cabinet/late"] == of["fit:fitting/late/2"] == of["finish:cabinet/late"] == "autumn"
