"""The tree of a progress file to what it says. Every fault is reported; what is faulty is left out."""

import datetime
import re
from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.finding.model import Label
from firstfix.progress.kinds import LABEL_TWICE
from firstfix.progress.model import (
    FAILED,
    NONE_YET,
    PASSED,
    BoughtLine,
    DeviceLabel,
    DoneStep,
    MeasuredRun,
    Progress,
    Quantity,
)
from firstfix.source.fields import Fields, as_integer, as_quantity
from firstfix.source.node import Mapping, Node, Scalar, clip, is_null
from firstfix.span import Span
from firstfix.units import LENGTH

FILE_KEYS = ("done", "bought", "labels", "measured", "note")
DONE_KEYS = ("on", "as", "note")
BOUGHT_KEYS = ("ordered", "ordered-on", "arrived", "arrived-on", "note")
LABEL_KEYS = ("mac", "serial", "part", "note")
MEASURED_KEYS = ("length", "test", "on", "as", "note")
# The second digit is even: with the lowest bit of the first octet set it is a group's address (IEEE Std 802, 8.2).
_MAC = re.compile(r"[0-9A-Fa-f][02468ACEace](?:[:-][0-9A-Fa-f]{2}){5}")
# Metres. Longer than any run of one cable here; a slip such as km for m is caught.
LONGEST_RUN = 10_000.0
MOST_PIECES = 1_000_000
_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")


def read_progress(tree: Mapping, file: str, faults: Collector) -> Progress:
    """What `tree` says; `file` is its path as shown to people."""
    fields = Fields(tree, faults, "a progress file", FILE_KEYS)
    labels = {each.device: each for each in _labels(fields, faults)}
    _report_twice(labels, faults)
    return Progress(
        file,
        {each.id: each for each in _done(fields, faults)},
        {each.id: each for each in _bought(fields, faults)},
        labels,
        {each.run: each for each in _measured(fields, faults)},
    )


def is_date(text: str) -> bool:
    """Whether `text` is a day that there is, as 2027-03-14."""
    if _DATE.fullmatch(text) is None:
        return False
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        return False
    return True


def plain_mac(text: str) -> str:
    """A MAC address as 00:00:5e:00:53:0a, or "" where `text` is none, or is the address of a group."""
    return text.lower().replace("-", ":") if _MAC.fullmatch(text) else ""


def _done(fields: Fields, faults: Collector) -> Iterator[DoneStep]:
    for id_, key, node in fields.table("done"):
        if isinstance(node, Scalar):
            on = _said_done(fields, id_, node)
            if on is not None:
                yield DoneStep(id_, on, "", key.span)
        else:
            step = Fields(node, faults, f"the step '{clip(id_)}'", DONE_KEYS)
            yield DoneStep(id_, _date(step, "on"), step.text("as") or "", key.span)


def _said_done(fields: Fields, id_: str, node: Scalar) -> str | None:
    """A step's single value: nothing or `true` says that it is done, a date when."""
    if is_null(node) or (node.plain and node.text in ("true", "True", "TRUE")):
        return ""
    if is_date(node.text):
        return node.text
    fields.wrong(
        node, f"'{clip(id_)}' is done (true), or on a date such as 2027-03-14; not '{clip(node.text)}'"
    )
    return None


def _bought(fields: Fields, faults: Collector) -> Iterator[BoughtLine]:
    for id_, key, node in fields.table("bought"):
        line = Fields(node, faults, f"the line '{clip(id_)}'", BOUGHT_KEYS)
        yield BoughtLine(
            id_,
            _amount(line, "ordered", faults),
            _date(line, "ordered-on"),
            _amount(line, "arrived", faults),
            _date(line, "arrived-on"),
            key.span,
        )


def _amount(line: Fields, key: str, faults: Collector) -> Quantity:
    """A count of pieces, or metres with their unit."""
    node = line.value(key)
    if node is None:
        return NONE_YET
    if isinstance(node, Scalar) and re.search(r"[A-Za-z]", node.text):
        metres = as_quantity(node, faults, LENGTH, f"'{key}'", 0.0, 10 * LONGEST_RUN)
        return NONE_YET if metres is None else Quantity(metres, True)
    count = as_integer(node, faults, f"'{key}'", 0, MOST_PIECES)
    return NONE_YET if count is None else Quantity(float(count), False)


def _labels(fields: Fields, faults: Collector) -> Iterator[DeviceLabel]:
    for name, key, node in fields.table("labels"):
        label = Fields(node, faults, f"the label of '{clip(name)}'", LABEL_KEYS)
        yield DeviceLabel(
            name, _mac(label), label.text("serial") or "", label.text("part") or "", _place(label, "mac", key)
        )


def _mac(label: Fields) -> str:
    text = label.text("mac")
    if text is None:
        return ""
    plain = plain_mac(text)
    node = label.value("mac")
    if not plain and node is not None:
        label.wrong(
            node,
            f"'{clip(text)}' is no device's MAC address; that has six pairs of hex digits, the first pair even, "
            "such as 00:00:5e:00:53:0a",
        )
    return plain


def _measured(fields: Fields, faults: Collector) -> Iterator[MeasuredRun]:
    for name, key, node in fields.table("measured"):
        run = Fields(node, faults, f"the run '{clip(name)}'", MEASURED_KEYS)
        yield MeasuredRun(
            name,
            run.quantity("length", LENGTH, 0.01, LONGEST_RUN) or 0.0,
            run.choice("test", (PASSED, FAILED)) or "",
            _date(run, "on"),
            run.text("as") or "",
            _place(run, "length", key),
        )


def _date(fields: Fields, key: str) -> str:
    text = fields.text(key)
    if text is None or is_date(text):
        return text or ""
    node = fields.value(key)
    assert node is not None
    fields.wrong(node, f"'{key}' is a date such as 2027-03-14 (year-month-day), not '{clip(text)}'")
    return ""


def _place(fields: Fields, key: str, name: Node) -> Span:
    node = fields.value(key)
    return (node or name).span


def _report_twice(labels: dict[str, DeviceLabel], faults: Collector) -> None:
    first: dict[str, DeviceLabel] = {}
    for label in labels.values():
        if not label.mac:
            continue
        other = first.setdefault(label.mac, label)
        if other is not label:
            message = f"'{clip(label.device)}' has the MAC address of '{clip(other.device)}', {label.mac}"
            faults.add(
                LABEL_TWICE, message, label.at, clip(label.device), (Label(other.at, "first written here"),)
            )
