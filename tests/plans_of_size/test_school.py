"""The school of four buildings: sound, kept as it was chosen, and all its documents there, complete, and the same on another machine.

Its documents are made twice, here and in a process with another hash seed, clock zone and language.
"""

import csv
import hashlib
import io
import json
import os
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Mapping
from functools import cache

import pytest

from allocations.keeping import kept_after
from documents.report_reading import Page
from firstfix.build.model import Build
from firstfix.pipeline import results
from plans_of_size.plans import SCHOOL, school
from repo.editing import read

_PROGRAM = """
import hashlib, json, sys
from pathlib import Path
from firstfix.pipeline import compile_plan, results
files = results(compile_plan(Path(sys.argv[1]), "school.yaml"))
print(json.dumps({name: hashlib.sha256(content).hexdigest() for name, content in files.items()}))
"""
_ANOTHER_MACHINE = {"PYTHONHASHSEED": "4711", "TZ": "Etc/GMT-14", "LC_ALL": "C.UTF-8"}
_PASSIVE = ("panel", "outlet")


@cache
def _files() -> Mapping[str, bytes]:
    return results(school())


def _build() -> Build:
    build = school().build
    assert build is not None
    return build


def test_nothing_is_found_and_nothing_is_left_untold() -> None:
    assert not school().report.findings
    assert not school().report.undetermined
    assert "exceptions" not in read(SCHOOL)


def test_it_has_what_its_comment_says() -> None:
    kinds = Counter(device.part.kind for device in _build().devices.values())
    passive = sum(kinds[kind] for kind in _PASSIVE)
    said = re.search(
        r"(\d+) devices, of which (\d+) are panels and outlets; (\d+) draw power", SCHOOL.read_text("utf-8")
    )
    assert said is not None
    assert tuple(map(int, said.groups())) == (kinds.total(), passive, kinds.total() - passive)
    assert len(_build().buildings) == len(read(SCHOOL)["sites"]["school"]["buildings"]) == 4


def test_what_was_chosen_is_kept() -> None:
    """After a change of the plan: firstfix build plans/school.yaml -o out."""
    assert kept_after(school()) == SCHOOL.with_name("school.allocations.yaml").read_text("utf-8")


def test_only_fibre_joins_the_buildings() -> None:
    build = _build()
    joins = {way.id for way in build.ways.values() if way.joins_buildings}
    media = {
        form.medium
        for piece in build.pieces.values()
        if joins.intersection(piece.route) and (form := build.library[piece.part].cable) is not None
    }
    assert len(joins) == 3
    assert media == {"fibre"}


def test_every_device_is_in_every_document_that_is_for_all() -> None:
    names = {device.name for device in _build().devices.values()}
    for document in ("report.html", "install-checklist.md", "install-checklist.html", "build.json"):
        words = set(re.split(r"[^a-z0-9-]+", _files()[document].decode()))
        assert names - words == set(), document


def test_each_active_device_has_its_settings() -> None:
    folders = {name.split("/")[1] for name in _files() if name.startswith("stubs/")}
    passive = {"panel", "outlet", "power-strip", "ups"}
    assert folders == {each.name for each in _build().devices.values() if each.part.kind not in passive}


def test_links_of_the_report_lead_to_files_that_are_written() -> None:
    targets = Page(_files()["report.html"].decode()).attributes("href")
    outward = {target for target in targets if not target.startswith("#")}
    assert outward
    assert outward <= set(_files())


def test_what_is_to_buy_is_within_the_budgets_and_ordered_at_the_least_cost() -> None:
    rows = list(csv.DictReader(io.StringIO(_files()["shopping-list.csv"].decode())))
    assert len(rows) > 50
    assert all(row["packs"] for row in rows)
    assert "this is proven" in _files()["orders.md"].decode()
    phases = json.loads(_files()["schedule.json"])["phases"]
    assert phases
    assert not any(phase["late"] for phase in phases)


@pytest.mark.parametrize("machine", [_ANOTHER_MACHINE], ids=["another"])
def test_machine_does_not_show(machine: dict[str, str]) -> None:
    said = subprocess.run(
        [sys.executable, "-c", _PROGRAM, str(SCHOOL)],
        env={**os.environ, **machine}, capture_output=True, check=True, timeout=300,
    ).stdout  # fmt: skip
    assert json.loads(said) == {
        name: hashlib.sha256(content).hexdigest() for name, content in _files().items()
    }
