"""Setting devices up: on the bench if they have a mains lead, else in their place."""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.work import cautions
from firstfix.work.handling import HIGH_UP_KINDS
from firstfix.work.later_settings import PASSES_TRAFFIC, later_settings_tasks
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey


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
        and device.part.kind in PASSES_TRAFFIC
        and bool(device.part.mains.inlet)
        and has_settings(site, device)
    )


def settings_tasks(site: Survey) -> Iterator[Task]:
    for device in site.build.devices.values():
        if is_set_up_on_the_bench(site, device):
            yield _on_the_bench(site, device)
        elif has_settings(site, device):
            yield _in_place(site, device)
        if site.build.phases and has_settings(site, device):
            yield from later_settings_tasks(site, device)


def _on_the_bench(site: Survey, device: Device) -> Task:
    return site.task(
        "set-up",
        device.id,
        Stage.UNPACK,
        f"Set up {device.name} on the bench, fed by its own lead, with no cord to the network",
        phase=device.phase,
        after=(Precedence(task_id("unbox", device.id), "it must be out of its box"),),
        checks=(_comes_back(device),),
        cautions=(cautions.MAINS,),
    )


def _in_place(site: Survey, device: Device) -> Task:
    # What hangs on a ceiling is reached from anywhere, and nobody stands on a ladder for it.
    is_high = device.part.kind in HIGH_UP_KINDS
    return site.task(
        "set-up",
        device.id,
        Stage.SET_UP,
        f"Set up {device.name} {'over the network, from the ground' if is_high else 'in its place'}",
        "" if is_high else device.room,
        height=0 if is_high else site.height(device.id),
        phase=device.phase,
        after=(
            Precedence(task_id("power", device.id), "it must run to be set up"),
            *_router_first(site, device),
        ),
        checks=(_comes_back(device),),
        cautions=() if site.is_new(device.id) else (cautions.HOT_NETWORK,),
    )


def _router_first(site: Survey, device: Device) -> Iterator[Precedence]:
    """What gives addresses to others runs before they ask for one. Routers don't wait for each other."""
    if device.id in site.routers.values():
        return
    for vlan in site.build.memberships.get(device.id, ()):
        router = site.routers.get(vlan, "")
        if router:
            why = "until it runs, nothing in the network gets an address or is reached from another VLAN"
            yield Precedence(task_id("power", router), why)
            yield Precedence(task_id("set-up", router), why)


def _comes_back(device: Device) -> Check:
    return Check(
        "settings", f"{device.name} shows the settings made for it, also after power was off and on again"
    )
