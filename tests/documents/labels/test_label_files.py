"""labels/: the table read back, the sheets counted and read, codes decoded by an independent reader, hostile names, the same bytes."""

import csv
import io
from collections import Counter
from dataclasses import replace
from functools import cache
from itertools import pairwise
from math import pi
from pathlib import Path
from xml.etree import ElementTree

import pytest

from documents.hostile_texts import HOSTILE
from firstfix.build.administration import Administration
from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.labels import label_files
from firstfix.documents.labels.code import LARGEST_MODULE, QUIET_ZONE, SMALLEST_MODULE, code
from firstfix.documents.labels.forms import Form, form_of
from firstfix.documents.labels.grids import GRIDS, PAPERS
from firstfix.documents.labels.pages import leaves
from firstfix.documents.labels.table import HEADER
from firstfix.graphs.labels import On, physical_labels
from firstfix.parts.part import TERMINATION_KINDS
from firstfix.pipeline import compile_plan
from firstfix.plan.read_labels import SHEETS
from repo.editing import PLANS, ROOT

HONEY_FARM = ROOT / "plans" / "honey-farm.yaml"


@cache
def _build(path: Path) -> Build:
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


def _forms(build: Build) -> tuple[Form, ...]:
    return tuple(form_of(build, label) for label in physical_labels(build))


@cache
def _files() -> dict[str, bytes]:
    return dict(label_files(_build(HONEY_FARM)))


def _rows() -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(_files()["labels/labels.csv"].decode(), newline="")))


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_there_are_as_many_labels_as_the_list_counts(path: Path) -> None:
    build = _build(path)
    counted: Counter[str] = Counter()
    for item in build.items:
        if build.library[item.part].kind == "label":
            counted[item.part] += item.count
    assert counted
    assert Counter(label.part for label in physical_labels(build)) == counted


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_every_new_cable_cabinet_panel_and_outlet_is_labelled(path: Path) -> None:
    build = _build(path)
    labels = physical_labels(build)
    ends = Counter(label.subject for label in labels if label.on in (On.CABLE, On.CABLE_OUTDOORS))
    assert ends == {piece.id: 2 for piece in build.pieces.values() if not piece.is_owned}
    plates = {label.subject for label in labels if label.on is On.THING}
    assert {each.id for each in build.cabinets.values() if not each.is_owned} <= plates
    assert {
        each.id for each in build.devices.values() if each.part.kind == "panel" and not each.is_owned
    } <= plates
    ended = {
        (build.jacks[end].device, end)
        for piece in build.pieces.values()
        for end in piece.ends
        if piece.kind == RUN and build.devices[build.jacks[end].device].part.kind in TERMINATION_KINDS
    }
    assert {(label.subject, label.jack) for label in labels if label.on is On.JACK} == ended


def test_the_table_reads_back() -> None:
    rows, forms = _rows(), _forms(_build(HONEY_FARM))
    assert tuple(rows[0]) == HEADER
    assert [row["identifier"] for row in rows] == [form.label.identifier for form in forms]
    assert {row["count"] for row in rows} == {"1"}
    cables = [row for row in rows if row["goes-on"].startswith(("installed run", "cord"))]
    assert all(row["identifier"] == f"{row['line-1']} TO {row['other-end']}" for row in cables)
    said = {row["identifier"] for row in cables}
    assert {" TO ".join(reversed(each.split(" TO "))) for each in said} == said


def test_both_ends_of_a_cable_carry_the_same_code() -> None:
    codes: dict[str, set[str]] = {}
    for label in physical_labels(_build(HONEY_FARM)):
        if label.on is On.CABLE:
            codes.setdefault(label.subject, set()).add(label.code)
    assert codes
    assert all(len(each) == 1 for each in codes.values())


def test_a_flag_goes_round_its_cable() -> None:
    """Two faces of the label, and the circumference between them."""
    for row in _rows():
        if row["goes-on"] in ("installed run", "cord") and row["cable-diameter-mm"]:
            wrap = pi * float(row["cable-diameter-mm"])
            assert float(row["width-mm"]) >= 2 * 25 + wrap - 0.2


def test_the_sheets_read_back() -> None:
    import pypdf

    build = _build(HONEY_FARM)
    read = pypdf.PdfReader(io.BytesIO(_files()["labels/labels.pdf"]))
    pages = leaves(_forms(build), "a4", build.name, is_draft=False)
    assert len(read.pages) == len(pages)
    wide, high = (each * 72 / 25.4 for each in PAPERS["a4"])
    for page in read.pages:
        assert float(page.mediabox.width) == pytest.approx(wide, abs=0.1)
        assert float(page.mediabox.height) == pytest.approx(high, abs=0.1)
    text = "".join(page.extract_text() for page in read.pages)
    for word in ("CORE", "PANEL/3", "HIVE-SCALE/1", "print without scaling"):
        assert word in text


def test_the_same_bytes_twice() -> None:
    assert dict(label_files(_build(HONEY_FARM))) == _files()


@pytest.mark.parametrize(
    "text", ["CORE", "1A.AD02-35:04/1A.AE05-40:11", "OUT-WORKROOM/1 TO PANEL/1", "Ä ß 猫", "X" * 200]
)
def test_an_independent_reader_reads_the_code(text: str) -> None:
    """On paper as it is printed: the least module, white around it, at the dots of a plain printer."""
    import zxingcpp

    made = code(text)
    pixels = _painted(made.path, made.modules + 2 * QUIET_ZONE, 4)
    read = zxingcpp.read_barcodes(pixels)
    assert [each.text for each in read] == [text]


def _painted(path: str, modules: int, scale: int) -> "memoryview":
    """Rows of grey, from the path data: M x y h n v1 h-n z."""
    side = modules * scale
    dots = bytearray(b"\xff" * side * side)
    for piece in filter(None, path.split("M")):
        place, _, rest = piece.partition("h")
        x, y = (int(each) + QUIET_ZONE for each in place.split())
        length = int(rest.partition("v")[0])
        for row in range(y * scale, (y + 1) * scale):
            dots[row * side + x * scale : row * side + (x + length) * scale] = bytes(length * scale)
    return memoryview(dots).cast("B", (side, side))


def test_every_code_on_a_sheet_is_read_from_its_picture() -> None:
    import zxingcpp

    build = _build(HONEY_FARM)
    wanted = Counter(form.qr.text for form in _forms(build) if form.qr)
    found: Counter[str] = Counter()
    for leaf in leaves(_forms(build), "a4", build.name, is_draft=False):
        found.update(each.text for each in zxingcpp.read_barcodes(_grey(png(leaf.svg, 4.0))))
    assert wanted
    assert found == wanted


def _grey(data: bytes) -> object:
    import numpy
    from PIL import Image

    return numpy.asarray(Image.open(io.BytesIO(data)).convert("L"))


def test_no_module_is_too_small_to_be_read() -> None:
    for text in ("A", "A" * 40, "A" * 77, "A" * 100):
        module = code(text).module_for(13.0)
        assert module == 0 or SMALLEST_MODULE <= module <= LARGEST_MODULE
    assert code("A" * 300).module_for(13.0) == 0


@pytest.mark.parametrize("sheets", SHEETS)
def test_every_label_is_on_some_sheet_and_inside_the_paper(sheets: str) -> None:
    build = _build(HONEY_FARM)
    forms = _forms(build)
    pages = leaves(forms, sheets, build.name, is_draft=False)
    alts = "; ".join(leaf.alt.partition(": ")[2] for leaf in pages)
    assert Counter(alts.split("; ")) == Counter(form.label.identifier for form in forms)


def test_the_language_knows_every_sheet() -> None:
    assert set(SHEETS) == {*PAPERS, *GRIDS}


@pytest.mark.parametrize("name", GRIDS)
def test_the_cells_of_a_sheet_lie_on_it_and_apart(name: str) -> None:
    grid = GRIDS[name]
    cells = list(grid.cells())
    wide, high = PAPERS[grid.paper]
    assert len(cells) == grid.columns * grid.rows
    assert min(cell.x for cell in cells) >= 0
    assert min(cell.y for cell in cells) >= 0
    # Half a tenth of a millimetre for what is rounded.
    assert max(cell.x + cell.width for cell in cells) <= wide + 0.05
    assert max(cell.y + cell.height for cell in cells) <= high + 0.05
    lefts = sorted({cell.x for cell in cells})
    assert all(after - before >= grid.label[0] for before, after in pairwise(lefts))


def test_a_draft_says_so_on_every_sheet() -> None:
    import pypdf

    build = _build(HONEY_FARM)
    made = dict(label_files(build, is_draft=True))
    for page in pypdf.PdfReader(io.BytesIO(made["labels/labels.pdf"])).pages:
        assert "draft" in page.extract_text()


@pytest.mark.parametrize("name", [*HOSTILE, "x" * 200, "\u05d0\u05d1\u05d2", "\U0001f41d", "e\u0301" * 30])
def test_hostile_names_come_out_harmless(name: str) -> None:
    build = _build(HONEY_FARM)
    devices = {
        id_: device._replace(name=name if device.name == "panel" else device.name)
        for id_, device in build.devices.items()
    }
    hostile = replace(build, name=name, devices=devices, administration=Administration())
    forms = _forms(hostile)
    assert max(form.width for form in forms) <= 190, "between the margins of the paper"
    for leaf in leaves(forms, "a4", name, is_draft=False):
        tags = {each.tag.rpartition("}")[2] for each in ElementTree.fromstring(leaf.svg).iter()}  # noqa: S314
        assert tags <= {"svg", "title", "desc", "g", "rect", "text", "path", "defs", "pattern", "circle"}
    rows = list(csv.reader(io.StringIO(dict(label_files(hostile))["labels/labels.csv"].decode(), newline="")))
    assert all(len(row) == len(HEADER) for row in rows)
    assert not any(
        cell.lstrip(" ")[:1] in ("=", "+", "-", "@", "\t", "\r")
        for row in rows[1:]
        for cell in row
        if cell.strip(" ")
    )
