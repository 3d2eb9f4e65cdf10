"""The options of `firstfix progress` as changes of the file: each name is one that the plan knows, each value is checked."""

from collections.abc import Iterable, Mapping

from firstfix.build import ids
from firstfix.build.cabling import RUN, Piece
from firstfix.build.model import Build
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.progress.change import Change
from firstfix.progress.model import FAILED, PASSED, Progress
from firstfix.progress.read import LONGEST_RUN, MOST_PIECES, is_date, plain_mac
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need, needs
from firstfix.remaining.reckon import line_id, run_id, wanted
from firstfix.remaining.words import run_words, step_words
from firstfix.source.fields import LONGEST_TEXT
from firstfix.source.nearest import did_you_mean
from firstfix.units import LENGTH, Dimension, QuantityFault, number, parse_quantity
from firstfix.work.model import Task
from firstfix.work.tasks import tasks

Asked = Mapping[str, tuple[str, ...]]


def changes_asked(build: Build, progress: Progress, asked: Asked, on: str) -> tuple[Change, ...]:
    """One change for each record, in the order asked for. Raises TroubleError at the first that cannot be."""
    if on and not is_date(on):
        raise TroubleError(f"--on takes a date such as 2027-03-14 (year-month-day), not '{cut(on, 40)}'")
    made = _Changes(on)
    _steps(build, progress, asked, made)
    _lines(build, asked, made)
    _labels(build, progress, asked, made)
    _runs(build, asked, made)
    return made.all()


class _Changes:
    """Gathers values by record, so that several options about one thing are one change."""

    def __init__(self, on: str) -> None:
        self._on = on
        self._found: dict[tuple[str, str], dict[str, str] | None] = {}

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
        return tuple(Change(section, name, values) for (section, name), values in self._found.items())


def _steps(build: Build, progress: Progress, asked: Asked, made: _Changes) -> None:
    if not (asked["done"] or asked["not-done"]):
        return
    known = {task.id: task for task in tasks(build)}
    for text in asked["done"]:
        task = _step(text, known)
        made.put("done", task.id, {"as": step_words(build, task)})
    for text in asked["not-done"]:
        name = text if text in progress.done else _step(text, known).id
        if name not in progress.done:
            raise TroubleError(f"'{cut(text, 80)}' is not recorded as done")
        made.take_out("done", name)


def _step(text: str, known: Mapping[str, Task]) -> Task:
    """By its id, or without the kind of its subject where that leaves one: `fit:core`."""
    if text in known:
        return known[text]
    verb, _, path = text.partition(":")
    found = [
        task
        for task in known.values()
        if task.id.partition(":")[0] == verb and ids.path(task.subject) == path
    ]
    if len(found) == 1:
        return found[0]
    if found:
        raise TroubleError(f"'{cut(text, 80)}' may be {' or '.join(task.id for task in found)}; write which")
    shorter = (f"{task.id.partition(':')[0]}:{ids.path(task.subject)}" for task in known.values())
    raise TroubleError(f"there is no step '{cut(text, 80)}'{did_you_mean(text, {*known, *shorter})}")


def _lines(build: Build, asked: Asked, made: _Changes) -> None:
    if not (asked["ordered"] or asked["arrived"]):
        return
    known = {line_id(need.id): need for need in needs(build)}
    for word in ("ordered", "arrived"):
        for text in asked[word]:
            name, equals, amount = text.partition("=")
            name = name.strip().replace(" ", "")
            if name not in known:
                raise TroubleError(
                    f"the shopping list has no line '{cut(name, 80)}'{did_you_mean(name, known)}"
                )
            value = _amount(word, known[name], amount.strip()) if equals else _whole(known[name])
            made.put("bought", name, {word: value}, f"{word}-on")


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
            name, value = _pair(word, text, "DEVICE")
            if name not in known:
                raise TroubleError(f"there is no device '{cut(name, 80)}'{did_you_mean(name, known)}")
            value = _mac(name, value, macs) if word == "mac" else _serial(value)
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
        name, value = _pair("length", text, "RUN")
        length = _quantity("--length", value, LENGTH, LONGEST_RUN)
        _put_run(build, made, _run(name, runs), {"length": f"{number(length, 3)} m"})
    for word, verdict in (("passed", PASSED), ("failed", FAILED)):
        for text in asked[word]:
            _put_run(build, made, _run(text.strip(), runs), {"test": verdict})


def _put_run(build: Build, made: _Changes, piece: Piece, values: Mapping[str, str]) -> None:
    made.put("measured", run_id(piece), {**values, "as": run_words(build, piece)})


def _run(text: str, runs: Mapping[str, Piece]) -> Piece:
    """By its name, or by its link's alone where that has one run."""
    if text in runs:
        return runs[text]
    found = [piece for piece in runs.values() if ids.path(piece.link) == text]
    if len(found) == 1:
        return found[0]
    names: Iterable[str] = (run_id(piece) for piece in found)
    hint = f"; it has {' and '.join(names)}" if found else did_you_mean(text, runs)
    raise TroubleError(f"there is no installed run '{cut(text, 80)}'{hint}")
