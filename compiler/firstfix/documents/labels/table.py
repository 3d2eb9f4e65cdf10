"""labels.csv: one row for each label, for label printers and for whoever writes by hand."""

from collections.abc import Iterable
from decimal import Decimal

from firstfix.build import ids
from firstfix.documents.csv_table import Cell, csv_table
from firstfix.documents.labels.forms import Form
from firstfix.graphs.labels import On
from firstfix.parts.facts import Fact

HEADER = (
    "identifier", "line-1", "line-2", "goes-on", "at", "room", "cabinet", "units", "other-end", "qr-text",
    "width-mm", "height-mm", "cable-diameter-mm", "count", "part", "phase",
)  # fmt: skip


def labels_csv(forms: Iterable[Form]) -> str:
    """RFC 4180. Both ends of one cable stand one below the other."""
    return csv_table(HEADER, map(_row, forms))


def _row(form: Form) -> tuple[Cell, ...]:
    label = form.label
    at = ids.path(label.jack or label.subject).removesuffix("@rear")
    diameter: Cell = _millimetres(label.diameter.high * 1000) if isinstance(label.diameter, Fact) else ""
    return (
        label.identifier, label.near, label.far or label.name, _goes_on(form), at, label.room, label.cabinet, label.units, label.far,
        "" if form.qr is None else form.qr.text, _millimetres(form.width), _millimetres(form.height), diameter, 1, label.part, label.phase,
    )  # fmt: skip


def _goes_on(form: Form) -> str:
    label = form.label
    if label.on is On.THING:
        return "plate"
    if label.on is On.JACK:
        return "jack"
    return f"{'installed run' if label.is_run else 'cord'}{', outdoors' if label.on is On.CABLE_OUTDOORS else ''}"


def _millimetres(value: float) -> Decimal:
    return Decimal(f"{value:.1f}")
