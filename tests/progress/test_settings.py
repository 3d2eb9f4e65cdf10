"""A device that is set up is set otherwise once the plan says so; what a later phase plugs in has a step of its own."""

from pathlib import Path

from cli.running import firstfix
from progress.sample import PLAN, compiled, standing, told, write

SET = "set-up:device/core"
GUESTS = "  guests: {id: 20, subnet: 10.61.20.0/24}\n"
# More VLANs, and a desk in one of them, now or in a later phase.
_MORE = "{part: computer-desktop, room: study, vlan: guests, plugs-into: core/5%s}"


def plan(phase: str = "") -> str:
    desk = f"  desk:     {_MORE % phase}\n"
    more = PLAN.replace("  ap-attic: ", f"{desk}  ap-attic: ") + GUESTS
    return more + ("phases: {first: {}, later: {}}\n" if phase else "")


def test_new_settings_of_a_device_that_is_set_up_are_told(tmp_path: Path) -> None:
    path = write(tmp_path)
    done = firstfix("progress", "shed.yaml", "--done", SET, "--on", "2027-03-14", cwd=tmp_path)
    assert done.code == 0, done.err
    kept = path.with_name("shed.progress.yaml").read_text("utf-8")
    assert told(compiled(tmp_path, kept)) == []
    assert told(compiled(tmp_path, kept, plan())) == [("progress-outdated", SET)]
    # Recorded anew, it is so again.
    write(tmp_path, kept, plan())
    firstfix("progress", "shed.yaml", "--done", SET, cwd=tmp_path)
    anew = path.with_name("shed.progress.yaml").read_text("utf-8")
    assert told(compiled(tmp_path, anew, plan())) == []


def test_what_a_later_phase_plugs_in_is_a_step_of_its_own(tmp_path: Path) -> None:
    path = write(tmp_path)
    firstfix("progress", "shed.yaml", "--done", SET, cwd=tmp_path)
    kept = path.with_name("shed.progress.yaml").read_text("utf-8")
    later = plan(", phase: later")
    result = compiled(tmp_path, kept, later.replace("vlan: guests", "vlan: house").replace(GUESTS, ""))
    assert told(result) == []
    assert f"{SET}@later" in {step.id for step in standing(result).steps}
    # A VLAN that was not there goes over the jack to the router, too, which was set before.
    assert told(compiled(tmp_path, kept, later)) == [("progress-outdated", SET)]


def test_a_record_from_before_says_nothing_of_settings(tmp_path: Path) -> None:
    old = f'done: {{"{SET}": {{as: "switch-16-poe"}}}}\n'
    assert told(compiled(tmp_path, old, plan())) == []
    other = old.replace("switch-16-poe", "switch-8")
    assert told(compiled(tmp_path, other, plan())) == [("progress-outdated", SET)]
