"""Cords and the plugs of runs: in when both ends stand, the run has passed its test, and earth is there."""

from collections.abc import Iterator

from firstfix.build.cabling import Piece
from firstfix.graphs.administration import identifiers
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.units import metres
from firstfix.work import cautions
from firstfix.work.handling import HIGH_UP_KINDS
from firstfix.work.later_settings import before_plug
from firstfix.work.model import Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey, end_name, labels_of, piece_name


def patching_tasks(site: Survey) -> Iterator[Task]:
    for piece in site.cords():
        if site.is_new(piece.id):
            yield _patch(site, piece)
    for piece in site.runs():
        if site.is_new(piece.id):
            for end in piece.ends:
                if site.device_at(end).part.kind not in TERMINATION_KINDS:
                    yield _connect(site, piece, end)


def _patch(site: Survey, piece: Piece) -> Task:
    cord = f"a {piece.colour} cord" if piece.colour else "a cord"
    sold = f" with {cord} of {metres(piece.length.sold)}" if piece.length.sold else ""
    is_spare = piece.id in site.spare_pieces
    note = "; it closes a loop on purpose" if is_spare else ""
    near = site.device_at(piece.ends[0])
    return site.task(
        "patch",
        piece.id,
        Stage.SET_UP if is_spare else Stage.PATCH,
        f"Patch {end_name(piece.ends[0])} to {end_name(piece.ends[1])}{sold}{note}",
        near.room,
        height=site.height(near.id),
        phase=site.phase_of(piece),
        # A simple label says what the step says already.
        checks=() if identifiers(site.build).is_simple else (labels_of(site, piece),),
        after=(
            precedence
            for end in piece.ends
            for precedence in (*_before_plug(site, piece, end), *_tested_behind(site, end))
        ),
        cautions=_cautions(site, piece),
    )


def _connect(site: Survey, piece: Piece, end: str) -> Task:
    device = site.device_at(end)
    is_spare = piece.id in site.spare_pieces
    return site.task(
        "connect",
        end,
        Stage.SET_UP if is_spare else Stage.PATCH,
        f"Plug the run {piece_name(piece)} in at {end_name(end)}",
        device.room,
        height=site.height(device.id),
        phase=site.phase_of(piece),
        after=(
            Precedence(task_id("test", piece.id), "a run is tested before anything is connected to it"),
            *_before_plug(site, piece, end),
        ),
        cautions=(
            *((cautions.LADDER,) if device.part.kind in HIGH_UP_KINDS else ()),
            *_cautions(site, piece),
        ),
    )


def _before_plug(site: Survey, piece: Piece, end: str) -> Iterator[Precedence]:
    device = site.device_at(end)
    yield Precedence(task_id("fit", device.id), f"{device.name} must be in its place")
    yield from before_plug(site, end, piece.id)
    for surge in site.surge_protectors_of(piece):
        yield Precedence(
            task_id("bond", surge.id), "a run between buildings is connected only to protectors with earth"
        )
    if piece.id in site.spare_pieces:
        yield from _before_loop(site, piece)


def _before_loop(site: Survey, piece: Piece) -> Iterator[Precedence]:
    for device_id in site.build.links[piece.link].hops:
        why = "a loop may be closed only where spanning tree is set up"
        yield Precedence(task_id("set-up", device_id), why)


def _tested_behind(site: Survey, end: str) -> Iterator[Precedence]:
    """The installed run at the rear of the jack that a cord goes into."""
    run = site.run_behind.get(end_name(end))
    if run is not None:
        yield Precedence(task_id("test", run), "a run is tested before anything is patched to it")


def _cautions(site: Survey, piece: Piece) -> Iterator[str]:
    if site.medium(piece) == "fibre":
        yield cautions.LASER
    elif site.surge_protectors_of(piece) or site.leaves_building(piece):
        yield cautions.LIGHTNING
    if not all(site.is_new(device.id) for device in site.devices_of(piece)):
        yield cautions.HOT_NETWORK
