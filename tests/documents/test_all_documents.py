"""The collection of documents: all of them, under safe names, the same twice, and marked where they must not be used."""

import io
import json
import re
import zipfile
from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

from documents.report_reading import Page
from finding import sample
from firstfix.build.model import Build
from firstfix.documents.all_documents import all_documents
from firstfix.documents.drawing.set import sheets
from firstfix.finding.model import Report
from firstfix.pipeline import compile_plan, results

HONEY_FARM = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"
PNG_START = b"\x89PNG\r\n\x1a\n"  # W3C PNG, 5.2


@lru_cache(maxsize=1)
def _compiled() -> tuple[Build, Report, Mapping[str, bytes]]:
    compiled = compile_plan(HONEY_FARM, "honey-farm.yaml")
    assert compiled.build is not None
    return compiled.build, compiled.report, results(compiled)


def test_every_document_is_there_in_sorted_order() -> None:
    files = _compiled()[2]
    assert list(files) == sorted(files)
    assert {name for name in files if not name.startswith(("stubs/", "drawings/", "labels/"))} == {
        "build.json", "findings.sarif", "install-checklist.md", "report.html",
        "install-checklist.html", "install.ics", "schedule.json", "drawings.pdf",
        "shopping-list.csv", "shopping-list.md", "shopping-list.xlsx",
    }  # fmt: skip
    drawn = {*(drawing.name for drawing in sheets(_compiled()[0])), "work"}
    assert {name for name in files if name.startswith("drawings/")} == {
        "drawings/index.md", "drawings/network.dot", "drawings/ways.dot", *(f"drawings/{name}.{form}" for name in drawn for form in ("svg", "png"))
    }  # fmt: skip
    assert "stubs/core/settings.md" in files


def test_each_file_is_what_its_name_says() -> None:
    for name, content in _compiled()[2].items():
        assert content, name
        if name.endswith(".png"):
            assert content.startswith(PNG_START)
        elif name.endswith(".pdf"):
            assert content.startswith(b"%PDF-")  # ISO 32000-1, 7.5.2
        elif name.endswith(".xlsx"):
            assert zipfile.is_zipfile(io.BytesIO(content))
        elif name.endswith((".json", ".sarif")):
            json.loads(content)
        else:
            content.decode("utf-8")


def test_links_of_the_report_lead_to_files_that_are_written() -> None:
    files = _compiled()[2]
    targets = Page(files["report.html"].decode()).attributes("href")
    outward = {target for target in targets if not target.startswith("#")}
    assert outward
    assert outward <= set(files)
    assert {name for name in files if name.startswith("stubs/")} <= outward


def test_the_same_build_gives_the_same_bytes() -> None:
    assert results(compile_plan(HONEY_FARM, "honey-farm.yaml")) == _compiled()[2]


def test_a_cabinet_name_never_becomes_a_path() -> None:
    names = (
        "../../etc/x",
        "a/b",
        "Main Hall",
        "",
        "x" * 64,
        "con",
        "a\x00b",
        "..",
        "-\n",
        "Hall 2",
        "hall-2",
    )
    build, report, files = _compiled()
    cabinet = build.cabinets["cabinet:barn"]
    more = {
        f"cabinet:x{number}": cabinet._replace(id=f"cabinet:x{number}", name=name)
        for number, name in enumerate(names)
    }
    found = set(all_documents(replace(build, cabinets={**build.cabinets, **more}), report)) - set(files)
    stems = {path.removeprefix("drawings/cabinet-").rpartition(".")[0] for path in found}
    assert len(stems) >= len(names), "names alike still get files apart"
    assert "hall-2" in stems
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", stem) for stem in stems)


def test_with_an_error_what_people_work_from_is_marked() -> None:
    build, _, files = _compiled()
    drafts = all_documents(build, sample.REPORT)
    assert b"draft: the plan has errors" in drafts["drawings/network.svg"]
    assert b"draft" not in files["drawings/network.svg"]
    for name in ("shopping-list.md", "install-checklist.md", "report.html"):
        assert b"Draft" in drafts[name]
        assert b"Draft" not in files[name]
    title, rest = files["shopping-list.md"].split(b"\n", 1)
    assert drafts["shopping-list.md"].startswith(title)
    assert drafts["shopping-list.md"].endswith(rest)
