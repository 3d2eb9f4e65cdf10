"""The options of `firstfix progress` as changes of the file: each name is one that the plan knows, each value is checked."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import NamedTuple

from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.cli.progress_names import line_named, run_named, step_named
from firstfix.cli.progress_several import EVERYTHING, several_steps
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.progress.change import Change
from firstfix.progress.model import FAILED, PASSED, Progress
from firstfix.progress.read import LONGEST_RUN, MOST_PIECES, is_date, plain_mac
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need
from firstfix.remaining.pulled import needs_now
from firstfix.remaining.reckon import done_steps, line_id, run_id, wanted
from firstfix.remaining.words import run_words, step_words
from firstfix.source.fields import LONGEST_TEXT
from firstfix.source.nearest import did_you_mean
from firstfix.units import LENGTH, Dimension, QuantityFault, number, parse_quantity
from firstfix.work.model import Task
from firstfix.work.tasks import tasks

Asked = Mapping[str, tuple[str, ...]]


class Recorded(NamedTuple):
    """One change for each record, in the order asked for, and half a sentence where a step comes early by the record, else "".

    `counts`: how many steps or lines each word means that means several.
    """

    changes: tuple[Change, ...]
    early: str
    counts: tuple[tuple[str, int, str], ...] = ()


def changes_asked(build: Build, progress: Progress, asked: Asked, on: str) -> Recorded:
    """All of it or none. Raises one TroubleError that says everything that is wrong."""
    if on and not is_date(on):
        raise TroubleError(f"--on takes a date such as 2027-03-14 (year-month-day), not '{cut(on, 40)}'")
    made = _Changes(on)
    early = _steps(build, progress, asked, made)
    _lines(build, progress, asked, made)
    _labels(build, progress, asked, made)
    _runs(build, asked, made)
    return Recorded(made.all(), early, tuple(made.counts))


class _Changes:
    """Gathers values by record, so that several options about one thing are one change; and what is wrong, to say it at once."""

    def __init__(self, on: str) -> None:
        self._on = on
        self._found: dict[tuple[str, str], dict[str, str] | None] = {}
        self._said: dict[tuple[str, str, str], str] = {}
        self._wrong: list[str] = []
        self.counts: list[tuple[str, int, str]] = []

    @contextmanager
    def each(self) -> Iterator[None]:
        """What is wrong with one thing asked for doesn't keep the next one from being looked at."""
        try:
            yield
        except TroubleError as fault:
            self._wrong.append(str(fault))

    def once(self, option: str, name: str, text: str) -> None:
        """Said twice in the same words is said once; in other words, nobody knows which is meant."""
        section, _, key = option.partition(" ")
        before = self._said.setdefault((section, name, key), text)
        if before != text:
            raise TroubleError(
                f"'{cut(name, 80)}' is given twice, as '{cut(before, 60)}' and '{cut(text, 60)}'"
            )

    def put(self, section: str, name: str, values: Mapping[str, str], date_key: str = "on") -> None:
        known = self._found.setdefault((section, name), {})
        if known is None:
            raise TroubleError(f"'{cut(name, 80)}' is to be recorded and taken out at once")
        known.update({key: value for key, value in values.items() if value})
        if self._on and date_key:
            known[date_key] = self._on

    def take_out(self, section: str, name: str) -> None:
        if self._found.setdefault((section, name), None) is not None:
            raise TroubleError(f"'{cut(name, 80)}' is to be recorded and taken out at once")

    def all(self) -> tuple[Change, ...]:
        if self._wrong:
            raise TroubleError(_nothing(list(dict.fromkeys(self._wrong))))
        return tuple(Change(section, name, values) for (section, name), values in self._found.items())


def _nothing(wrong: Sequence[str]) -> str:
    if len(wrong) == 1:
        return f"{wrong[0]} (nothing is recorded)"
    listed = "; ".join(f"({place}) {each}" for place, each in enumerate(wrong, start=1))
    return f"nothing is recorded, for {len(wrong)} things are wrong: {listed}"


def _steps(build: Build, progress: Progress, asked: Asked, made: _Changes) -> str:
    """What is recorded though a step that comes before it is not; "" where there is no such."""
    if not (asked["done"] or asked["not-done"]):
        return ""
    known = {task.id: task for task in tasks(build)}
    done: list[Task] = []
    for text in asked["done"]:
        with made.each():
            several = several_steps(text, known, progress.done, [each.name for each in build.phases])
            if several is not None:
                made.counts.append((text, len(several), "step"))
            for task in several if several is not None else (step_named(text, known),):
                made.put("done", task.id, {"as": step_words(build, task)})
                done.append(task)
    for text in asked["not-done"]:
        with made.each():
            name = text if text in progress.done else step_named(text, known).id
            if name not in progress.done:
                raise TroubleError(f"'{cut(text, 80)}' is not recorded as done")
            made.take_out("done", name)
    return _early(done, done_steps(known.values(), progress) | {task.id for task in done})


def _early(recorded: Iterable[Task], done: frozenset[str]) -> str:
    """Who did the work knows best, so it is taken and said."""
    waits = {task.id: [each.before for each in task.after if each.before not in done] for task in recorded}
    step, before = next(((step, before) for step, before in waits.items() if before), ("", []))
    if not step:
        return ""
    # A cabinet that isn't hung is what is most likely forgotten.
    first = next((each for each in before if each.startswith("hang:")), before[0])
    others = f" and {len(before) - 1} more" if len(before) > 1 else ""
    steps = sum(1 for each in waits.values() if each)
    alike = f"; the same with {steps - 1} more of these steps" if steps > 1 else ""
    return f"'{step}' comes after '{first}'{others}, not recorded as done{alike}"


def _lines(build: Build, progress: Progress, asked: Asked, made: _Changes) -> None:
    if not (asked["ordered"] or asked["arrived"]):
        return
    known = {line_id(need.id): need for need in needs_now(build, progress)}
    for word in ("ordered", "arrived"):
        for text in _each_line(word, asked[word], known, progress, made):
            with made.each():
                name, equals, amount = text.partition("=")
                name = name.strip().replace(" ", "")
                need = line_named(name, known)
                value = _amount(word, need, amount.strip()) if equals else _whole(need)
                made.once(f"bought {word}", name, value)
                made.put("bought", name, {word: value}, f"{word}-on")


def _each_line(
    word: str, texts: Iterable[str], known: Mapping[str, Need], progress: Progress, made: _Changes
) -> Iterator[str]:
    """What is asked for, and for `everything` the lines of which less than the whole is recorded."""
    for text in texts:
        if text != EVERYTHING:
            yield text
            continue
        had = {name: getattr(line, word).value for name, line in progress.bought.items()}
        lines = [name for name, need in known.items() if had.get(name, 0.0) < wanted(need)]
        made.counts.append((text, len(lines), "line"))
        yield from lines


def _whole(need: Need) -> str:
    value = wanted(need)
    return f"{number(value, 3)} m" if need.amount.unit == METRES else number(value, 0)


def _amount(word: str, need: Need, text: str) -> str:
    if need.amount.unit == METRES:
        return f"{number(_quantity(f'--{word}', text, LENGTH, 10 * LONGEST_RUN), 3)} m"
    if not (text.isascii() and text.isdigit() and len(text) < 8 and int(text) <= MOST_PIECES):
        raise TroubleError(f"--{word} takes a whole number of pieces here, not '{cut(text, 40)}'")
    return str(int(text))


def _quantity(option: str, text: str, dimension: Dimension, most: float) -> float:
    value = parse_quantity(text, dimension)
    if isinstance(value, QuantityFault):
        written = " or ".join(f"'{each}'" for each in value.suggestions or (dimension.example,))
        raise TroubleError(f"{option} takes {dimension.name}: {value.problem}; write {written}")
    if not 0 < value <= most:
        raise TroubleError(f"{option} of '{cut(text, 40)}' is beyond what is possible")
    return value


def _labels(build: Build, progress: Progress, asked: Asked, made: _Changes) -> None:
    known = {device.name: device for device in build.devices.values()}
    macs = {label.mac: label.device for label in progress.labels.values() if label.mac}
    for word in ("mac", "serial"):
        for text in asked[word]:
            with made.each():
                name, value = _pair(word, text, "DEVICE")
                if name not in known:
                    raise TroubleError(f"there is no device '{cut(name, 80)}'{did_you_mean(name, known)}")
                value = _mac(name, value, macs) if word == "mac" else _serial(value)
                made.once(f"labels {word}", name, value)
                made.put("labels", name, {word: value, "part": known[name].part.name}, "")


def _pair(option: str, text: str, what: str) -> tuple[str, str]:
    name, equals, value = text.partition("=")
    if not equals or not value.strip():
        raise TroubleError(f"--{option} takes {what}=VALUE, and '{cut(text, 60)}' has no value")
    return name.strip(), value.strip()


def _mac(device: str, text: str, taken: dict[str, str]) -> str:
    mac = plain_mac(text)
    if not mac:
        raise TroubleError(
            f"'{cut(text, 40)}' is no device's MAC address; that has six pairs of hex digits, the first pair even, "
            "such as 00:00:5e:00:53:0a"
        )
    if taken.setdefault(mac, device) != device:
        raise TroubleError(f"{mac} is the MAC address of {cut(taken[mac], 60)} already")
    return mac


def _serial(text: str) -> str:
    if len(text) > LONGEST_TEXT:
        raise TroubleError(f"a serial number has at most {LONGEST_TEXT:,} characters")
    return text


def _runs(build: Build, asked: Asked, made: _Changes) -> None:
    runs = {run_id(piece): piece for piece in build.pieces.values() if piece.kind == RUN}
    for text in asked["length"]:
        with made.each():
            name, value = _pair("length", text, "RUN")
            piece = run_named(name, runs, build)
            length = f"{number(_quantity('--length', value, LENGTH, LONGEST_RUN), 3)} m"
            made.once("measured length", run_id(piece), length)
            _put_run(build, made, piece, {"length": length})
    for word, verdict in (("passed", PASSED), ("failed", FAILED)):
        for text in asked[word]:
            with made.each():
                piece = run_named(text.strip(), runs, build)
                made.once("measured test", run_id(piece), verdict)
                _put_run(build, made, piece, {"test": verdict})


def _put_run(build: Build, made: _Changes, piece: Piece, values: Mapping[str, str]) -> None:
    made.put("measured", run_id(piece), {**values, "as": run_words(build, piece)})
