"""Steps stand in the order of the phases as written, never in that of their names."""

from pathlib import Path

from firstfix.work.model import Task
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


def _two_rounds(folder: Path) -> dict[str, Task]:
    """A way and a device now, and one of each in the next phase."""
    plan = {
        "phases": {"now": {}, "later": {}},
        "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {}, "barn": {}}}},
        "ways": {
            "riser": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"},
            "wall": {"between": ["den", "barn"], "length": "9 m", "kind": "wall", "phase": "later"},
        },
        "devices": {
            "core": {"part": "switch-8-poe", "room": "den"},
            "ap": {"part": "access-point", "room": "loft", "plugs-into": "core"},
            "ap-2": {"part": "access-point", "room": "barn", "phase": "later", "plugs-into": "core"},
        },
    }
    return {task.id: task for task in tasks(build_of(folder, plan))}


def test_each_phase_cleans_up_after_itself(tmp_path: Path) -> None:
    found = _two_rounds(tmp_path)
    swept = {id_: found[id_].phase for id_ in found if id_.startswith("sweep:")}
    rooms = ("den", "loft")
    assert swept == {f"sweep:room/home/{each}": "" for each in rooms} | {
        f"sweep:room/home/{each}@later": "later" for each in ("barn", "den")
    }
    assert "sweep:room/home/barn@later" in {each.before for each in found["fit:device/ap-2"].after}


def test_what_comes_later_is_taken_out_of_its_box_later(tmp_path: Path) -> None:
    found = _two_rounds(tmp_path)
    assert (found["unbox:device/ap"].phase, found["unbox:device/ap-2"].phase) == ("", "later")
    assert found["unbox:device/ap-2"].records == ("MAC address of ap-2",)


def test_jacks_that_a_later_phase_uses_are_set_in_it(tmp_path: Path) -> None:
    plan = {
        "phases": {"later": {}},
        "sites": {"home": {"rooms": {"den": {"mains": 9}}}},
        "vlans": {"home": {"id": 10, "subnet": "10.1.1.0/24"}, "guests": {"id": 20, "subnet": "10.1.2.0/24"}},
        "devices": {
            "core": {"part": "switch-8-managed", "room": "den", "vlan": "home"},
            "simple": {"part": "switch-5", "room": "den", "plugs-into": "core/8"},
            "first": {"part": "computer-desktop", "room": "den", "vlan": "home", "plugs-into": "core/1"},
            "second": {"part": "computer-desktop", "room": "den", "vlan": "guests", "phase": "later", "plugs-into": "core/5"},
            "third": {"part": "computer-desktop", "room": "den", "vlan": "home", "phase": "later", "plugs-into": "simple"},
        },
    }  # fmt: skip
    of = {task.id: task for task in tasks(build_of(tmp_path, plan))}
    anew = of["set-up:device/core@later"]
    assert anew.phase == "later"
    assert anew.title.startswith("Set jack 5 of core ")
    assert [(each.what, each.expected) for each in anew.checks] == [("jack 5", "guests untagged")]
    # What cannot be set needs no step, and what is set from the start no second one.
    assert [each for each in of if "@later" in each and each.startswith("set-up:")] == [anew.id]
    (plug,) = (task for id_, task in of.items() if id_.startswith("patch:") and "second" in id_)
    assert anew.id in {each.before for each in plug.after}
