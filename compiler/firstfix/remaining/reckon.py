"""A build's work and purchases, less what is recorded: what remains."""

from collections.abc import Iterable, Iterator

from firstfix.build import ids
from firstfix.build.cabling import RUN, Piece
from firstfix.build.hardware import IN_PLACE
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.progress.model import FAILED, NONE_YET, PASSED, BoughtLine, Progress, Quantity
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need
from firstfix.remaining.model import LineStanding, OpenStep, Remaining, RunStanding
from firstfix.remaining.parts_here import PartsHere
from firstfix.work.model import Task, task_id


def remaining(
    build: Build, ordered: tuple[Task, ...], needs: tuple[Need, ...], progress: Progress
) -> Remaining:
    """`ordered` is the work in its order, `needs` the shopping list; both of `build`."""
    done = done_steps(ordered, progress)
    lines = tuple(_line(need, progress.bought.get(line_id(need.id))) for need in needs)
    parts = PartsHere(build, needs, lines, progress, (task for task in ordered if task.id in done))
    return Remaining(
        len(ordered),
        done,
        tuple(_open(build, task, done, parts) for task in ordered if task.id not in done),
        lines,
        tuple(sorted(_unread(build), key=natural)),
        tuple(_run(piece, progress) for piece in _runs(build)),
    )


def line_id(need: str) -> str:
    """A shopping list line as one types it: `cord-cat6/1m`."""
    return ids.path(need).replace(" ", "")


def run_id(piece: Piece) -> str:
    """An installed run as one types it: `core--desk/2`."""
    return ids.path(piece.id)


def done_steps(tasks: Iterable[Task], progress: Progress) -> frozenset[str]:
    """Steps recorded as done, or as a passed test; a failed test is to be done again, whatever else is recorded."""
    tests = {task_id("test", f"piece:{each.run}"): each.verdict for each in progress.measured.values()}
    return frozenset(
        task.id
        for task in tasks
        if tests.get(task.id, "") == PASSED or (task.id in progress.done and tests.get(task.id, "") != FAILED)
    )


def recorded(quantity: Quantity, unit: str) -> float:
    """A recorded amount in the line's unit; in another unit it says nothing about this line."""
    return quantity.value if quantity.in_metres == (unit == METRES) else 0.0


def ordered_already(needs: tuple[Need, ...], progress: Progress) -> dict[str, float]:
    """How much of each need is recorded as ordered or arrived, by its id; what has nothing recorded is left out."""
    found = {}
    for need in needs:
        bought = progress.bought.get(line_id(need.id))
        if bought is not None:
            amounts = (recorded(each, need.amount.unit) for each in (bought.ordered, bought.arrived))
            found[need.id] = max(amounts)
    return found


def wanted(need: Need) -> float:
    """What is bought for a line: whole packs, or what is needed where the packs are not settled."""
    return max(need.amount.bought, need.amount.needed)


def _open(build: Build, task: Task, done: frozenset[str], parts: PartsHere) -> OpenStep:
    room = build.rooms.get(task.room)
    waits_for = tuple(sorted(each.before for each in task.after if each.before not in done))
    return OpenStep(
        task.id, task.title, room.name if room else "", task.phase, waits_for, parts.missing(task)
    )


def _line(need: Need, bought: BoughtLine | None) -> LineStanding:
    unit = need.amount.unit
    ordered, arrived = (bought.ordered, bought.arrived) if bought else (NONE_YET, NONE_YET)
    return LineStanding(
        line_id(need.id), need.title, unit, wanted(need), recorded(ordered, unit), recorded(arrived, unit)
    )


def _unread(build: Build) -> Iterator[str]:
    """Devices with a MAC address that are bought: what was there before may be out of reach."""
    in_place = {item.for_id for item in build.items if item.standing == IN_PLACE}
    for device in build.devices.values():
        if device.part.kind in ACTIVE_KINDS and not device.mac and device.id not in in_place:
            yield device.name


def _runs(build: Build) -> list[Piece]:
    runs = (piece for piece in build.pieces.values() if piece.kind == RUN)
    return sorted(runs, key=lambda piece: natural(piece.id))


def _run(piece: Piece, progress: Progress) -> RunStanding:
    found = progress.measured.get(run_id(piece))
    name = " – ".join(ids.path(end).removesuffix("@rear") for end in piece.ends)
    measured = piece.length.figure
    length = getattr(measured, "typical", 0.0) if piece.length.reckoned is not None else 0.0
    return RunStanding(
        run_id(piece), name, piece.length.as_planned.figure, length, found.verdict if found else ""
    )
