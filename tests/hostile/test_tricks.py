"""Each trick: exactly the findings expected, or for those too large for a file the command's answer; no trace, little output, little time."""

import json
import os
import resource
import subprocess
import sys
from pathlib import Path

import pytest

from cli.running import environment
from firstfix.finding.render_json import render_json
from firstfix.finding.render_sarif import render_sarif
from firstfix.finding.render_text import render_text
from firstfix.pipeline import Compiled, compile_plan
from firstfix.rules.all_kinds import all_kinds
from fuzz.judge import MOST_OUTPUT, judge
from hostile.expected import answered, table, told, trick_files
from hostile.tricks import HOUSE, LARGE, TOILSOME, Trick, unknown_names

# Of the processor's time, interpreter and all. Seven are usual at the most; a slow machine gets four times that.
MOST_SECONDS = 30.0
MOST_MEMORY = 1536 * 1024 * 1024
# For each finding, in the forms that hold all of them.
MOST_FOR_A_FINDING = 8_000

TRICKS = trick_files()
EXPECTED = table()


def _limited() -> None:
    resource.setrlimit(resource.RLIMIT_AS, (2 * MOST_MEMORY, 2 * MOST_MEMORY))


def test_every_trick_has_its_answer_and_every_answer_its_trick() -> None:
    assert [path.name for path in TRICKS] == sorted(EXPECTED)


@pytest.mark.parametrize("trick", TRICKS, ids=lambda trick: trick.name)
def test_a_trick_is_answered_to_the_letter(trick: Path, tmp_path: Path) -> None:
    compiled = answered(trick, tmp_path)
    assert told(compiled) == EXPECTED[trick.name]
    data = json.loads(render_json(compiled.report))
    assert len(data["findings"]) == len(compiled.report.findings)
    assert json.loads(_as_sarif(compiled))["version"] == "2.1.0"


def _as_sarif(compiled: Compiled) -> str:
    return render_sarif(compiled.report, compiled.source.texts, all_kinds(), "0")


@pytest.mark.parametrize("trick", TRICKS[::9], ids=lambda trick: trick.name)
def test_documents_of_a_trick_hold_none(trick: Path, tmp_path: Path) -> None:
    assert judge(trick.read_bytes(), tmp_path, with_documents=True) == ""


@pytest.mark.long
@pytest.mark.parametrize("trick", TRICKS, ids=lambda trick: trick.name)
def test_documents_of_every_trick_hold_none(
    trick: Path, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    _only_when_long(request)
    assert judge(trick.read_bytes(), tmp_path, with_documents=True) == ""


def _only_when_long(request: pytest.FixtureRequest) -> None:
    if "long" not in request.config.getoption("-m"):
        pytest.skip("takes minutes; run with `-m long`")


@pytest.mark.parametrize("trick", LARGE, ids=lambda trick: trick.name)
def test_a_large_trick_ends_in_time(trick: Trick, tmp_path: Path) -> None:
    assert len(_ends_in_time(trick, tmp_path, "text")) < MOST_OUTPUT


@pytest.mark.parametrize("trick", TOILSOME[:1], ids=lambda trick: trick.name)
def test_a_toilsome_trick_ends_in_time(trick: Trick, tmp_path: Path) -> None:
    _ends_in_time(trick, tmp_path, "json")


@pytest.mark.long
@pytest.mark.parametrize("trick", TOILSOME, ids=lambda trick: trick.name)
def test_every_toilsome_trick_ends_in_time(
    trick: Trick, tmp_path: Path, request: pytest.FixtureRequest
) -> None:
    _only_when_long(request)
    _ends_in_time(trick, tmp_path, "json")


def _ends_in_time(trick: Trick, folder: Path, form: str) -> bytes:
    """What the command said. In JSON all findings stand, in text the first few hundred."""
    (folder / "plan.yaml").write_bytes(trick.make())
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run(
        [sys.executable, "-m", "firstfix", "check", "plan.yaml", "--format", form],
        cwd=folder, env=environment(), capture_output=True, timeout=300, check=False, preexec_fn=_limited,
    )  # fmt: skip
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    assert done.returncode == trick.code, done.stderr[-500:]
    assert b"Traceback" not in done.stdout + done.stderr
    assert trick.rule.encode() in done.stdout
    assert after.ru_utime - before.ru_utime < MOST_SECONDS
    return done.stdout + done.stderr


def test_output_has_a_limit_in_every_format(tmp_path: Path) -> None:
    """Text is cut; the other forms hold every finding, each of a limited size."""
    (tmp_path / "plan.yaml").write_text(unknown_names(1_000))
    compiled = compile_plan(tmp_path / "plan.yaml", "plan.yaml")
    count = len(compiled.report.findings)
    assert count >= 1_000
    assert len(render_text(compiled.report, compiled.source.texts).encode()) < MOST_OUTPUT
    for written in (render_json(compiled.report), _as_sarif(compiled)):
        assert len(written) < MOST_FOR_A_FINDING * (count + len(compiled.report.undetermined))


def test_the_house_is_sound(tmp_path: Path) -> None:
    """Else a trick could be caught for the house's own faults."""
    (tmp_path / "plan.yaml").write_text(HOUSE)
    compiled = compile_plan(tmp_path / "plan.yaml", "plan.yaml")
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
        "'out.yaml' leaves the plan's own folder; copy the file into that",
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
