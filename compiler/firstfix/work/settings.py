"""Setting devices up: on the bench if they have a mains lead, else in their place."""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.work import cautions
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.preparing import UNPACK
from firstfix.work.survey import Survey

# What passes others' traffic must not meet the network with the settings it left the factory with.
_PASSES_TRAFFIC = ("gateway", "switch")


def has_settings(site: Survey, device: Device) -> bool:
    """Whether there is anything to set: VLANs on its jacks, or an address of its own."""
    if device.part.kind not in ACTIVE_KINDS:
        return False
    has_setup = any(jack in site.build.port_setups for jack in site.build.jacks_of.get(device.id, ()))
    speaks_vlans = device.part.vlan_aware is not False and has_setup
    return speaks_vlans or device.part.routes is True or device.id in site.addressed


def is_set_up_on_the_bench(site: Survey, device: Device) -> bool:
    return (
        site.is_new(device.id)
        and not site.is_moved(device)
        and device.part.kind in _PASSES_TRAFFIC
        and bool(device.part.mains.inlet)
        and has_settings(site, device)
    )


def settings_tasks(site: Survey) -> Iterator[Task]:
    for device in site.build.devices.values():
        if is_set_up_on_the_bench(site, device):
            yield _on_the_bench(site, device)
        elif has_settings(site, device):
            yield _in_place(site, device)


def _on_the_bench(site: Survey, device: Device) -> Task:
    return site.task(
        "set-up",
        device.id,
        Stage.UNPACK,
        f"Set up {device.name} on the bench, fed by its own lead, with no cord to the network",
        phase=device.phase,
        after=(Precedence(UNPACK, "it must be out of its box"),),
        checks=(_comes_back(device),),
        cautions=(cautions.MAINS,),
    )


def _in_place(site: Survey, device: Device) -> Task:
    return site.task(
        "set-up",
        device.id,
        Stage.SET_UP,
        f"Set up {device.name} in its place",
        device.room,
        height=site.height(device.id),
        phase=device.phase,
        after=(Precedence(task_id("power", device.id), "it must run to be set up"),),
        checks=(_comes_back(device),),
        cautions=() if site.is_new(device.id) else (cautions.HOT_NETWORK,),
    )


def _comes_back(device: Device) -> Check:
    return Check(
        "settings", f"{device.name} shows the settings made for it, also after power was off and on again"
    )
