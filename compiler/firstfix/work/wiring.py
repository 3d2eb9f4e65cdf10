"""Installed cable: pulled and labelled, terminated, tested, and only then closed over."""

from collections.abc import Iterator
from dataclasses import replace

from firstfix.build.cabling import Piece
from firstfix.build.hardware import Device
from firstfix.build.places import Way
from firstfix.parts.facts import Fact, Unknown
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.units import metres
from firstfix.work import cautions
from firstfix.work.handling import HIGH_UP_KINDS
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.preparing import DIRECT_BURIAL, closing_words, way_cautions
from firstfix.work.survey import Survey, end_name, labels_of, piece_name
from firstfix.work.tools import FIBRE_TOOLS, LADDER_TOOLS, without_drawing


def wiring_tasks(site: Survey) -> Iterator[Task]:
    for piece in site.runs():
        if site.is_new(piece.id):
            yield _pull(site, piece)
            yield from (_terminate(site, piece, end) for end in piece.ends)
        yield _test(site, piece)
    yield from _closing_ways(site)


def _pull(site: Survey, piece: Piece) -> Task:
    part = site.part(piece.part)
    kind = part.title if part else piece.part
    planned = piece.length.as_planned.figure
    length = metres(planned.typical) if isinstance(planned, Fact) else "a length not known yet"
    ways = ", ".join(site.build.ways[way].name for way in piece.route)
    along = f" along {ways}" if ways else ""
    # Into an open trench a cable is laid; wherever else it goes, it is pulled.
    laid = bool(piece.route) and all(site.build.ways[way].kind == DIRECT_BURIAL for way in piece.route)
    doing = "Lay" if laid else "Pull"
    title = f"{doing} {piece_name(piece)}{along}: {length} of {kind}; label both ends"
    task = site.task(
        "pull",
        piece.id,
        Stage.PULL,
        title,
        site.device_at(piece.ends[0]).room,
        phase=site.phase_of(piece),
        after=_before_pull(site, piece),
        checks=(labels_of(site, piece),),
        cautions=_pull_cautions(site, piece),
    )
    return replace(task, tools=without_drawing(task.tools)) if laid else task


def _before_pull(site: Survey, piece: Piece) -> Iterator[Precedence]:
    for way in piece.route:
        yield Precedence(task_id("prepare", way), "the cable runs along it")
    for device in site.devices_of(piece):
        yield Precedence(task_id("box", device.id), "the cable ends in it")
        if device.cabinet:
            yield Precedence(task_id("hang", device.cabinet), "the cable is led into it")
            for heavy in site.heavy_in.get(device.cabinet, ()):
                if site.is_no_later(heavy, site.phase_of(piece)):
                    yield Precedence(
                        task_id("fit", heavy), "heavy things are lifted in before cables hang in the way"
                    )


def _pull_cautions(site: Survey, piece: Piece) -> Iterator[str]:
    exposures = {site.build.ways[way].exposure for way in piece.route}
    if "buried" not in exposures or len(exposures) > 1:
        yield cautions.LADDER
    if exposures & {"buried", "outdoor"} and site.medium(piece) != "fibre":
        yield cautions.LIGHTNING


def _terminate(site: Survey, piece: Piece, end: str) -> Task:
    device = site.device_at(end)
    task = site.task(
        "terminate",
        end,
        Stage.TERMINATE,
        _terminate_title(piece, end, device),
        device.room,
        height=site.height(device.id),
        phase=site.phase_of(piece),
        after=_before_terminate(piece, device),
        cautions=(
            *((cautions.LADDER,) if device.part.kind in HIGH_UP_KINDS else ()),
            *_terminate_cautions(site, piece),
        ),
    )
    return _with_tools_for(site, piece, task, "terminate")


def _with_tools_for(site: Survey, piece: Piece, task: Task, verb: str) -> Task:
    if site.medium(piece) != "fibre":
        return task
    return replace(task, tools=(*FIBRE_TOOLS[verb], *(each for each in task.tools if each in LADDER_TOOLS)))


def _terminate_title(piece: Piece, end: str, device: Device) -> str:
    other = end_name(next(each for each in piece.ends if each != end))
    if device.part.kind in TERMINATION_KINDS:
        return f"Terminate {end_name(end)}, the run from {other}"
    return f"Fit the plug for {end_name(end)} to the run from {other}"


def _before_terminate(piece: Piece, device: Device) -> Iterator[Precedence]:
    yield Precedence(task_id("pull", piece.id), "the cable must be there, with its slack, before it is cut")
    if device.part.kind == "panel":
        yield Precedence(
            task_id("fit", device.id), "the cables are tied to its rear before they are cut to length"
        )


def _terminate_cautions(site: Survey, piece: Piece) -> Iterator[str]:
    if site.medium(piece) == "fibre":
        yield cautions.LASER
    elif site.leaves_building(piece):
        yield cautions.LIGHTNING


def _test(site: Survey, piece: Piece) -> Task:
    reason = "both ends must be terminated to be tested"
    task = site.task(
        "test",
        piece.id,
        Stage.TEST,
        f"Test the run {piece_name(piece)}",
        site.device_at(piece.ends[0]).room,
        phase=site.phase_of(piece),
        after=(Precedence(task_id("terminate", end), reason) for end in piece.ends),
        checks=_test_checks(site, piece),
        cautions=(
            *_terminate_cautions(site, piece),
            *((cautions.POE,) if piece.id in site.powered_pieces else ()),
        ),
        records=(f"measured length of {piece_name(piece)}",),
    )
    return _with_tools_for(site, piece, task, "test")


def _test_checks(site: Survey, piece: Piece) -> Iterator[Check]:
    if site.medium(piece) == "fibre":
        yield Check(
            "light",
            "each fibre passes light from end to end, and each end's sending meets the other's receiving",
        )
    else:
        yield Check("wire map", _wire_map(site, piece))
    yield Check("length", _expected_length(piece))


def _wire_map(site: Survey, piece: Piece) -> str:
    part = site.part(piece.part)
    screened = part is not None and part.cable is not None and part.cable.is_screened
    screen = ", the screen too" if screened else ""
    return f"1 to 8 straight through{screen}; nothing open, shorted, crossed, no split pair"


def _expected_length(piece: Piece) -> str:
    figure = piece.length.as_planned.figure
    if isinstance(figure, Unknown):
        return f"cannot tell what to expect: {figure.why}"
    return f"at most {metres(figure.high)}, the planned length with its slack"


def _closing_ways(site: Survey) -> Iterator[Task]:
    """Lids on and holes sealed, once every run in the way has passed its test."""
    through: dict[str, list[Piece]] = {}
    for piece in site.runs():
        if site.is_new(piece.id):
            for way in piece.route:
                through.setdefault(way, []).append(piece)
    for way, pieces in sorted(through.items()):
        yield _close(site, site.build.ways[way], pieces)


def _close(site: Survey, way: Way, pieces: list[Piece]) -> Task:
    """Later phases pull through a way that is opened and closed again, as whoever does it sees fit."""
    first_phase = min((site.phase_of(piece) for piece in pieces), key=site.phase_key)
    why = "a run that fails its test is pulled again"
    return site.task(
        "close",
        way.id,
        Stage.CLOSE,
        f"Close the way {way.name}: {closing_words(way)}",
        way.ends[0],
        phase=first_phase,
        after=(
            Precedence(task_id("test", each.id), why) for each in pieces if site.phase_of(each) == first_phase
        ),
        checks=(Check("holes", sealed(way.exposure)),),
        cautions=(each for each in way_cautions(way) if each in (cautions.LADDER, cautions.OUTDOOR)),
    )


def sealed(exposure: str) -> str:
    """What is seen of the holes of a way once it is closed."""
    outside = "" if exposure == "indoor" else "; no water can follow the cable in"
    return f"closed against fire and smoke where local codes ask for it{outside}"
