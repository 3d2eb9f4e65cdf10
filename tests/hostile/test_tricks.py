"""Each trick through the command itself: a finding of the expected rule, an exit code, no trace, little output, little time."""

import json
import os
import resource
import subprocess
import sys
import time
from pathlib import Path

import pytest

from cli.running import environment
from firstfix.finding.render_text import render_text
from firstfix.pipeline import compile_plan
from hostile.tricks import HOUSE, LARGE, TEXTS, VALUES, Trick, networks

MOST_OUTPUT = 150_000
MOST_SECONDS = 20.0  # five are usual at the most; a busy machine of two cores gets four times that
MOST_MEMORY = 1536 * 1024 * 1024

SMALL = (*TEXTS, *VALUES, *networks())


def _written(folder: Path, trick: Trick) -> Path:
    path = folder / "plan.yaml"
    path.write_bytes(trick.make())
    return path


def _limited() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (2 * MOST_MEMORY, 2 * MOST_MEMORY))


@pytest.mark.parametrize("trick", SMALL, ids=lambda trick: trick.name)
def test_small_trick_is_caught(trick: Trick, tmp_path: Path) -> None:
    compiled = compile_plan(_written(tmp_path, trick), "plan.yaml")
    said = render_text(compiled.report, compiled.source.texts)
    assert compiled.report.has_errors or not trick.rule
    assert not trick.rule or trick.rule in {each.rule for each in compiled.report.findings}
    assert len(said.encode()) < MOST_OUTPUT
    assert not any(ord(each) < 32 and each != "\n" for each in said)


@pytest.mark.parametrize("trick", LARGE, ids=lambda trick: trick.name)
def test_large_trick_ends_in_time(trick: Trick, tmp_path: Path) -> None:
    _written(tmp_path, trick)
    began = time.monotonic()
    done = subprocess.run(
        [sys.executable, "-m", "firstfix", "check", "plan.yaml"],
        cwd=tmp_path, env=environment(), capture_output=True, timeout=60, check=False, preexec_fn=_limited,
    )  # fmt: skip
    assert done.returncode == trick.code, done.stderr[-500:]
    assert b"Traceback" not in done.stdout + done.stderr
    assert trick.rule.encode() in done.stdout
    assert len(done.stdout + done.stderr) < MOST_OUTPUT
    assert time.monotonic() - began < MOST_SECONDS


def test_the_house_is_sound(tmp_path: Path) -> None:
    """Else a trick could be caught for the house's own faults."""
    compiled = compile_plan(_written(tmp_path, Trick("house", HOUSE.encode, "", 0)), "plan.yaml")
    assert compiled.report.findings == ()


def test_included_files_stay_in_the_folder(tmp_path: Path) -> None:
    inside = tmp_path / "inside"
    inside.mkdir()
    (tmp_path / "secret.yaml").write_text("name: s3cret\n")
    (inside / "out.yaml").symlink_to(tmp_path / "secret.yaml")
    os.mkfifo(inside / "pipe.yaml")
    (inside / "folder.yaml").mkdir()
    (inside / "round.yaml").write_text("include: [plan.yaml, round.yaml]\n")
    (inside / "list.yaml").write_text("[a]\n")
    names = ["out.yaml", "pipe.yaml", "folder.yaml", "round.yaml", "list.yaml"]
    (inside / "plan.yaml").write_text(f"{HOUSE}include: {json.dumps(names)}\n")
    compiled = compile_plan(inside / "plan.yaml", "plan.yaml")
    messages = sorted(each.message for each in compiled.report.findings if each.rule == "include")
    assert messages == [
        "'out.yaml' leaves the plan's own folder",
        "'plan.yaml' is included already",
        "'round.yaml' is included already",
        "an included file is a table of keys and values; list.yaml holds a list",
        "folder.yaml is a folder; name the plan file in it",
        "pipe.yaml is not an ordinary file",
    ]
    assert "s3cret" not in "".join(compiled.source.texts.values())


def test_many_large_includes_are_stopped_by_their_sum(tmp_path: Path) -> None:
    for number in range(8):
        (tmp_path / f"part-{number}.yaml").write_bytes(b"x-a: '" + b"b" * 6_000_000 + b"'\n")
    names = [f"part-{number}.yaml" for number in range(8)]
    (tmp_path / "plan.yaml").write_text(f"{HOUSE}include: {json.dumps(names)}\n")
    compiled = compile_plan(tmp_path / "plan.yaml", "plan.yaml")
    assert "file-size" in {each.rule for each in compiled.report.findings}
    assert compiled.source.size < 31_000_000


KINDS_OF_NODE = ("", "~", "word", "'quoted'", "[]", "[a, [b]]", "{}", "{a: {b: c}}", "-1", "{run: x}", "[{run: {}}]", "{'': a}")  # fmt: skip
SECTIONS = (
    "name", "start", "currency", "include", "sites", "ways", "cabinets", "devices", "links", "vlans", "wifi", "names",
    "cabling", "parts", "defaults", "note",
)  # fmt: skip


@pytest.mark.parametrize("section", SECTIONS)
def test_any_kind_of_node_in_any_section(section: str, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    base = "\n".join(line for line in HOUSE.splitlines() if not line.startswith(section))
    for node in KINDS_OF_NODE:
        for text in (
            f"{section}: {node}\n",
            f"{section}: {{a: {node or '~'}}}\n",
            f"{section}: [{node or '~'}]\n",
        ):
            path.write_text(text + (base if section not in ("devices", "links") else "") + "\n")
            compile_plan(path, "plan.yaml")
