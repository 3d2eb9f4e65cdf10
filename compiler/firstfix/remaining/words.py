"""What a plan says of a step, in the few words that are kept beside its record, and compared when the plan has changed."""

from firstfix.build import ids
from firstfix.build.as_laid import as_laid
from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.parts.facts import Fact
from firstfix.remaining.settings import settings_words
from firstfix.units import metres
from firstfix.work.model import Task

# The length is a part of these: the cable was cut to it, the cord was bought by it.
_BY_LENGTH = ("pull", "patch")


def step_words(build: Build, task: Task) -> str:
    """What would make the step another one if it changed; "" where nothing would.

    "cat6-indoor, 20.9 m, out-workroom/1 to panel/1"; "switch-16-poe in main, unit 8"
    """
    subject = task.subject
    if subject in build.pieces:
        return _piece_words(task, build.pieces[subject])
    if subject in build.jacks:
        run = _run_at(build).get(subject)
        return "" if run is None else f"{run.part}, {_ends(run)}"
    device = build.devices.get(subject.partition("@")[0])
    if device is not None:
        return _device_words(build, task, device)
    if subject in build.cabinets:
        return build.cabinets[subject].part.name
    if subject in build.fittings:
        return build.fittings[subject].part.name
    return build.ways[subject].kind if subject in build.ways else ""


def run_words(build: Build, piece: Piece) -> str:
    return as_laid(piece, build.jacks)


def _piece_words(task: Task, piece: Piece) -> str:
    figure = piece.length.as_planned.figure
    is_by_length = task.id.partition(":")[0] in _BY_LENGTH and isinstance(figure, Fact)
    # To the decimetre: a tester tells no less, and a unit up or down in a cabinet is no other run.
    length = f", {metres(round(figure.typical, 1))}" if is_by_length and isinstance(figure, Fact) else ""
    return f"{piece.part}{length}, {_ends(piece)}"


def _ends(piece: Piece) -> str:
    return " to ".join(sorted(ids.path(end).removesuffix("@rear") for end in piece.ends))


def _device_words(build: Build, task: Task, device: Device) -> str:
    verb = task.id.partition(":")[0]
    if verb == "set-up":
        return device.part.name + settings_words(build, task.subject)
    if verb != "fit":
        return device.part.name
    if not device.cabinet:
        return f"{device.part.name} in {ids.path(device.room)}"
    unit = _unit_of(build).get(device.carried_by or device.id, 0)
    return f"{device.part.name} in {ids.path(device.cabinet)}, unit {unit}"


@once_per_build
def _unit_of(build: Build) -> dict[str, int]:
    return {mount.item: mount.low for mount in build.mounts if mount.item}


@once_per_build
def _run_at(build: Build) -> dict[str, Piece]:
    return {end: piece for piece in build.pieces.values() if piece.kind == RUN for end in piece.ends}
