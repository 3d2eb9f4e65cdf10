"""Putting things where they stay, each after what holds it and before what hides it."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from firstfix.build.administration import NAME_LABEL
from firstfix.build.hardware import Device, Fitting, Mount
from firstfix.graphs.administration import identifiers
from firstfix.parts.part import ACTIVE_KINDS, INLINE_KINDS, MAINS_KINDS, Part
from firstfix.work import cautions
from firstfix.work.handling import HIGH_UP_KINDS, needs_two_people
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.preparing import swept
from firstfix.work.settings import is_set_up_on_the_bench
from firstfix.work.survey import Survey, piece_name, says_of_label
from firstfix.work.tools import DRILLING_TOOLS

_COVERS = {"brush": "brush panel", "mesh": "mesh panel", "rings": "panel with rings for cords"}
_HURT_BY_DUST = (*ACTIVE_KINDS, *INLINE_KINDS, *MAINS_KINDS)


def mounting_tasks(site: Survey) -> Iterator[Task]:
    for device in site.build.devices.values():
        if site.is_new(device.id):
            yield _device(site, device)
    for fitting in site.build.fittings.values():
        if site.is_new(fitting.id):
            yield _fitting(site, fitting)


def _device(site: Survey, device: Device) -> Task:
    task = site.task(
        "fit",
        device.id,
        _stage(site, device),
        _title(site, device),
        device.room,
        height=site.height(device.id),
        phase=device.phase,
        checks=_plate(site, device),
        after=(
            *_before_device(site, device),
            *_before_in_cabinet(site, device.id, device.cabinet, device.phase),
        ),
        cautions=_cautions(site, device),
    )
    is_drilled = cautions.DRILL in task.cautions
    return replace(task, tools=(*task.tools, *DRILLING_TOOLS)) if is_drilled else task


def _plate(site: Survey, device: Device) -> tuple[Check, ...]:
    if all(item.part != NAME_LABEL for item in site.items_for.get(device.id, ())):
        return ()
    return says_of_label(device.name, identifiers(site.build).devices[device.id])


def _fitting(site: Survey, fitting: Fitting) -> Task:
    mount = site.mounts[fitting.id]
    where = _where(site, mount)
    title = f"Mount the {_called(fitting.part)} {where}{_room_above(site, fitting, mount)}"
    held = _before_in_cabinet(site, fitting.id, fitting.cabinet, fitting.phase)
    stage = Stage.HEAVY if site.is_heavy(fitting.id) else Stage.FINISH if mount.is_over else Stage.FITTINGS
    after = (*held, *_before_cover(site, mount))
    room = site.build.cabinets[fitting.cabinet].room
    lift = (cautions.LIFT,) if needs_two_people(fitting.part) else ()
    return site.task(
        "fit",
        fitting.id,
        stage,
        title,
        room,
        height=mount.low,
        phase=fitting.phase,
        after=after,
        cautions=lift,
    )


def _called(part: Part) -> str:
    form = part.cover.form if part.cover is not None else ""
    return _COVERS.get(str(form), part.kind.replace("-", " "))


def _room_above(site: Survey, fitting: Fitting, mount: Mount) -> str:
    """A shelf is one unit high or two; the rest of its units are for what stands on it."""
    if fitting.part.kind != "shelf" or mount.low == mount.high:
        return ""
    carried = sorted(each.name for each in site.build.devices.values() if each.carried_by == fitting.id)
    if not carried:
        return ""
    return f": its foot in unit {mount.low}, the space above it for {', '.join(carried)}"


def _stage(site: Survey, device: Device) -> Stage:
    if device.part.kind == "outlet":
        return Stage.CLOSE
    if device.cabinet and site.is_heavy(device.id):
        return Stage.HEAVY
    return Stage.FITTINGS if device.part.kind == "panel" else Stage.MOUNT


def _title(site: Survey, device: Device) -> str:
    mount = site.mounts.get(device.id)
    if mount is not None:
        verb = "Move" if site.is_moved(device) else "Mount"
        return f"{verb} {device.name} {_where(site, mount)}"
    if device.carried_by:
        carrier = site.build.fittings[device.carried_by].part.kind
        return f"Put {device.name} on the {carrier} {_where(site, site.mounts[device.carried_by])}"
    if device.part.kind == "outlet":
        return f"Screw on the outlet {device.name}"
    return f"Put {device.name} in its place in {site.room_name(device.room)}"


def _where(site: Survey, mount: Mount) -> str:
    units = f"unit {mount.low}" if mount.low == mount.high else f"units {mount.low} to {mount.high}"
    rear = ", from the rear" if mount.face == "rear" else ""
    return f"in {site.build.cabinets[mount.cabinet].name}, {units}{rear}"


def _before_in_cabinet(site: Survey, subject: str, cabinet: str, phase: str) -> Iterator[Precedence]:
    if not cabinet:
        return
    yield Precedence(task_id("hang", cabinet), "the cabinet holds it")
    if not site.is_heavy(subject):
        for heavy in site.heavy_in.get(cabinet, ()):
            if site.is_no_later(heavy, phase):
                yield Precedence(task_id("fit", heavy), "heavy things go in while there is room to hold them")


def _before_device(site: Survey, device: Device) -> Iterator[Precedence]:
    kind = device.part.kind
    if device.carried_by:
        yield Precedence(task_id("fit", device.carried_by), "it stands on it")
    if kind in ACTIVE_KINDS:
        yield Precedence(
            task_id("unbox", device.id), "the label with its MAC address is hidden once it is mounted"
        )
        if is_set_up_on_the_bench(site, device):
            yield Precedence(task_id("set-up", device.id), "its settings keep it from upsetting the network")
    if kind in _HURT_BY_DUST:
        for phase in dict.fromkeys(("", device.phase)):
            yield Precedence(swept(device.room, phase), "dust gets into fans and jacks")
    if kind == "outlet" or (kind in ACTIVE_KINDS and not device.cabinet):
        yield from _before_closing_over(site, device)


def _before_closing_over(site: Survey, device: Device) -> Iterator[Precedence]:
    """What sits on a wall or ceiling closes over the end of its run."""
    yield Precedence(task_id("box", device.id), "it is screwed to the box")
    for piece in site.runs_at(device.id):
        yield Precedence(
            task_id("test", piece.id), f"the end of {piece_name(piece)} is out of reach once it is on"
        )


def _before_cover(site: Survey, cover: Mount) -> Iterator[Precedence]:
    """A panel in front of something closes the way to it: its fixing, its cords and its plug come first."""
    if not cover.is_over:
        return
    for behind in site.behind(cover):
        yield Precedence(task_id("fit", behind), "it closes the way to what stands behind it")
        yield Precedence(task_id("power", behind), "it closes the way to the plug behind it")
        for piece in site.pieces_at.get(behind, ()):
            yield Precedence(task_id("patch", piece.id), "it closes the way to the jacks behind it")


def _cautions(site: Survey, device: Device) -> Iterable[str]:
    if needs_two_people(device.part):
        yield cautions.LIFT
    if site.is_moved(device):
        yield cautions.HOT_NETWORK
    room = site.build.rooms.get(device.room)
    if device.part.kind in HIGH_UP_KINDS:
        yield cautions.LADDER
        yield cautions.DRILL
    if room is not None and room.is_outdoors:
        yield cautions.OUTDOOR
