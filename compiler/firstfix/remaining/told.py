"""Findings about a progress file: what no longer fits the plan, and what was measured otherwise than planned."""

from collections.abc import Iterator, Mapping
from itertools import chain, islice

from firstfix.build.as_laid import are_same
from firstfix.build.cabling import RUN, Length, Piece
from firstfix.build.model import Build
from firstfix.finding.collector import MOST_FAULTS, MOST_HINTS
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Cure, Finding, Label, Measurement, Term
from firstfix.parts.facts import Fact
from firstfix.progress.kinds import FAILED_TEST, MEASURED, OUT_OF_TIME, OUTDATED, UNMATCHED
from firstfix.progress.model import FAILED, BoughtLine, DoneStep, MeasuredRun, Progress, Quantity
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need
from firstfix.remaining.pulled import needs_now
from firstfix.remaining.reckon import line_id, run_id, wanted
from firstfix.remaining.settings import split
from firstfix.remaining.words import run_words, step_words
from firstfix.source.nearest import nearest
from firstfix.source.node import clip
from firstfix.span import Span, whole_file
from firstfix.units import metres, number
from firstfix.work.model import Task
from firstfix.work.tasks import tasks

# A field tester's length may be off by so much: the velocity of propagation differs from lot to lot.
# ANSI/TIA-1152-A and ANSI/TIA-568.2-D, length, 10 % allowance (from memory).
_TESTER = 0.10
_KEPT = "the record is kept"


def progress_findings(build: Build, progress: Progress) -> Iterator[Finding]:
    """Everything to say about `progress`, in no particular order; of a hostile file's records, the first hundreds."""
    known = {task.id: task for task in tasks(build)}
    told = chain(
        _steps(build, progress, known),
        _too_early(progress, known),
        _lines(progress, {line_id(need.id): need for need in needs_now(build, progress)}),
        _labels(build, progress),
        _runs(build, progress),
    )
    yield from islice(told, MOST_FAULTS)
    further = sum(1 for _ in told)
    if further:
        message = f"{further:,} further records do not fit the plan, or are otherwise than planned"
        yield _say(OUTDATED, message, "", whole_file(progress.file))


class _Names:
    """The names that a record of one kind may have; the likeliest for a wrong one, for the first few."""

    def __init__(self, what: str, known: Mapping[str, object]) -> None:
        self._what = what
        self._known = known
        self._hints = 0

    def unmatched(self, name: str, at: Span) -> Finding:
        self._hints += 1
        near = nearest(name, self._known) if self._hints <= MOST_HINTS else None
        cures = (
            (Cure(f"if it is now '{clip(near)}', write `was:` with its old name in the plan, or that here"),)
            if near
            else ()
        )
        message = f"there is no {self._what} '{clip(name)}' in the plan any more; {_KEPT}"
        return _say(UNMATCHED, message, clip(name), at, cures=cures)


def _say(
    kind: Kind,
    message: str,
    subject: str,
    at: Span,
    measurement: Measurement | None = None,
    related: tuple[Label, ...] = (),
    cures: tuple[Cure, ...] = (),
) -> Finding:
    return Finding(kind.id, kind.level, message, subject, at, kind.basis, related, measurement, cures)


def _steps(build: Build, progress: Progress, known: Mapping[str, Task]) -> Iterator[Finding]:
    names = _Names("step", known)
    for step in progress.done.values():
        task = known.get(step.id)
        if task is None:
            yield names.unmatched(step.id, step.at)
            continue
        then, then_set = split(step.as_planned)
        now, now_set = split(step_words(build, task) if then else "")
        if then and not are_same(then, now):
            yield _outdated(f"'{step.id}' was done", then, now, step.id, step.at)
        elif then_set and then_set != now_set:
            yield _set_otherwise(step)


def _set_otherwise(step: DoneStep) -> Finding:
    day = f" on {step.on}" if step.on else ""
    message = f"what '{step.id}' sets is not what the plan said when it was done{day}; {_KEPT}"
    cure = Cure(f"set it by its sheet again, and record that: `firstfix progress PLAN --done {step.id}`")
    return _say(OUTDATED, message, step.id, step.at, cures=(cure,))


def _too_early(progress: Progress, known: Mapping[str, Task]) -> Iterator[Finding]:
    """Days are texts as ISO 8601 writes them, which sort as days do."""
    for line in progress.bought.values():
        if line.arrived_on and line.arrived_on < line.ordered_on:
            message = (
                f"'{clip(line.id)}' arrived on {line.arrived_on}, before it was ordered on {line.ordered_on}"
            )
            yield _say(OUT_OF_TIME, message, clip(line.id), line.at)
    day_of = {step.id: step.on for step in progress.done.values() if step.on}
    for step in progress.done.values():
        task = known.get(step.id)
        after = [(day_of.get(each.before, ""), each.before, each.why) for each in task.after] if task else []
        day, before, why = max(after, default=("", "", ""))
        if step.on and day > step.on:
            message = (
                f"'{step.id}' was done on {step.on}, before '{before}' on {day}, which comes first: {why}"
            )
            yield _say(OUT_OF_TIME, message, step.id, step.at)


def _outdated(what: str, then: str, now: str, subject: str, at: Span) -> Finding:
    message = f"{what} as '{clip(then, 120)}', and the plan now says '{now}'"
    return _say(OUTDATED, message, clip(subject), at)


def _lines(progress: Progress, known: Mapping[str, Need]) -> Iterator[Finding]:
    names = _Names("shopping list line", known)
    for line in progress.bought.values():
        need = known.get(line.id)
        if need is None:
            yield names.unmatched(line.id, line.at)
        else:
            yield from _too_much(line, need)


def _too_much(line: BoughtLine, need: Need) -> Iterator[Finding]:
    unit = need.amount.unit
    has_metres = unit == METRES
    for word, quantity in (("arrived", line.arrived), ("were ordered", line.ordered)):
        if quantity.value and quantity.in_metres != has_metres:
            asked = "metres, such as 50 m" if has_metres else "pieces, without a unit"
            message = f"'{line.id}' is counted in {asked}; what {word} is not reckoned with"
            yield _say(OUTDATED, message, line.id, line.at)
        elif quantity.value > wanted(need):
            message = f"{_shown(quantity)} of '{line.id}' {word}, and the plan now asks for {_shown(Quantity(wanted(need), has_metres))}"
            yield _say(OUTDATED, message, line.id, line.at)
            return


def _shown(quantity: Quantity) -> str:
    return metres(quantity.value) if quantity.in_metres else number(quantity.value)


def _labels(build: Build, progress: Progress) -> Iterator[Finding]:
    known = {device.name: device for device in build.devices.values()}
    names = _Names("device", known)
    for label in progress.labels.values():
        device = known.get(label.device)
        if device is None:
            yield names.unmatched(label.device, label.at)
        elif label.part not in ("", device.part.name):
            what = f"the label of '{device.name}' was read from a thing recorded"
            yield _outdated(what, label.part, device.part.name, label.device, label.at)


def _runs(build: Build, progress: Progress) -> Iterator[Finding]:
    known = {run_id(piece): piece for piece in build.pieces.values() if piece.kind == RUN}
    names = _Names("installed run", known)
    for measured in progress.measured.values():
        piece = known.get(measured.run)
        if piece is None:
            yield names.unmatched(measured.run, measured.at)
        else:
            yield from _measured(build, piece, measured)


def _measured(build: Build, piece: Piece, measured: MeasuredRun) -> Iterator[Finding]:
    now = run_words(build, piece)
    if measured.as_planned and not are_same(measured.as_planned, now):
        yield _outdated(f"'{measured.run}' was measured", measured.as_planned, now, measured.run, measured.at)
        return
    if measured.verdict == FAILED:
        message = f"the run '{measured.run}' failed its test, so its step is still to do"
        yield _say(FAILED_TEST, message, piece.id, measured.at, related=_written(build, piece))
    if measured.length:
        yield from _otherwise(build, piece, measured)


def _written(build: Build, piece: Piece) -> tuple[Label, ...]:
    return (Label(build.provenance.span(piece.link), "the run as planned"),)


def _otherwise(build: Build, piece: Piece, measured: MeasuredRun) -> Iterator[Finding]:
    """Longer than planned with its slack, or shorter than any tester's error explains."""
    reckoned = piece.length.as_planned
    planned = reckoned.figure
    if not isinstance(planned, Fact):
        return
    least = (planned.low - _slack(reckoned)) * (1 - _TESTER)
    said = f"the run '{measured.run}' is planned with {metres(planned.high)} and measures {metres(measured.length)}"
    judged = "its channel is judged with the measured length"
    if measured.length > planned.high + 1e-9:
        message = f"{said}, {metres(measured.length - planned.high)} more; {judged}"
        measurement = Measurement(
            "measured length",
            measured.length,
            "at most",
            planned.high,
            "m",
            _as_measured(measured),
            "as planned: " + " + ".join(f"{term.what} {number(term.value)}" for term in reckoned.terms),
        )
        cure = Cure("correct the length of its way in the plan, before more cable is cut by it")
    elif measured.length < least - 1e-9:
        message = f"{said}, which slack and a tester's error do not explain; {judged}"
        measurement = Measurement(
            "measured length", measured.length, "at least", least, "m", _as_measured(measured),
            f"as planned without its slack, less {_TESTER * 100:g} % for the tester",
        )  # fmt: skip
        cure = Cure(
            "see that it is this run, and that the tester is set to this cable's velocity of propagation"
        )
    else:
        return
    yield _say(MEASURED, message, piece.id, measured.at, measurement, _written(build, piece), (cure,))


def _as_measured(measured: MeasuredRun) -> tuple[Term, ...]:
    return (Term("on site", measured.length, "the progress of the work"),)


def _slack(length: Length) -> float:
    """What may be cut off when the ends are terminated."""
    return sum(term.value for term in length.terms if term.what.startswith("slack"))
