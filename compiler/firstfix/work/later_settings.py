"""Settings that a later phase brings to a device that is set up by then: each jack is set before anything is plugged into it.

What a cable carries in between is no business of these steps: a cable that lies carries the new VLANs once both of its ends are set,
and what changed on a jack that was set before, `firstfix progress` says.
"""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.ids import natural
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey, end_name

# What passes others' traffic must not meet the network with the settings it left the factory with.
PASSES_TRAFFIC = ("gateway", "switch")


def later_settings_tasks(site: Survey, device: Device) -> Iterator[Task]:
    """One for each phase after the device's own that puts anything into its jacks."""
    by_phase: defaultdict[str, set[str]] = defaultdict(set)
    for piece in site.pieces_at.get(device.id, ()):
        for end in piece.ends:
            if site.build.jacks[end].device == device.id and (phase := phase_set_in(site, end, piece.id)):
                by_phase[phase].add(end)
    for phase in sorted(by_phase, key=site.phase_key):
        yield _set_anew(site, device, phase, sorted(by_phase[phase], key=natural))


def before_plug(site: Survey, end: str, piece: str) -> Iterator[Precedence]:
    phase = phase_set_in(site, end, piece)
    if phase:
        step = _step(site.build.jacks[end].device, phase)
        yield Precedence(step, "its jack must be set for what is plugged in")


def phase_set_in(site: Survey, end: str, piece: str) -> str:
    """The phase in which a jack is set apart from its device's other ones, "" if it is set with them, or there is nothing to set."""
    if not site.build.phases or end not in site.build.port_setups:
        return ""
    device, phase = site.device_at(end), site.phase_of(site.build.pieces[piece])
    is_later = site.phase_key(phase) > site.phase_key(device.phase)
    takes = device.part.kind in PASSES_TRAFFIC and device.part.vlan_aware is not False
    return phase if is_later and takes else ""


def _step(device: str, phase: str) -> str:
    return task_id("set-up", f"{device}@{phase}")


def _set_anew(site: Survey, device: Device, phase: str, jacks: list[str]) -> Task:
    shown = [end_name(jack).partition("/")[2] for jack in jacks]
    words = f"jack {shown[0]}" if len(shown) == 1 else f"jacks {', '.join(shown[:-1])} and {shown[-1]}"
    return site.task(
        "set-up",
        f"{device.id}@{phase}",
        Stage.UNPACK,
        f"Set {words} of {device.name} for what this phase plugs in",
        phase=phase,
        after=(
            Precedence(task_id("set-up", device.id), "what it was set up with stays"),
            Precedence(task_id("power", device.id), "it must run to be set up"),
        ),
        checks=[_shows(site, jack, name) for jack, name in zip(jacks, shown, strict=True)],
    )


def _shows(site: Survey, jack: str, name: str) -> Check:
    setup, vlans = site.build.port_setups[jack], site.build.vlans
    untagged = f"{vlans[setup.untagged].name} untagged" if setup.untagged else "nothing untagged"
    tagged = ", ".join(vlans[each].name for each in setup.tagged)
    return Check(f"jack {name}", f"{untagged}{f', tagged {tagged}' if tagged else ''}")
