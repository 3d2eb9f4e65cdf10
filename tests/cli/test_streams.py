"""Results reach whatever standard output is: a pipe that closes, a full disk, a locale without accents, nothing at all."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import BinaryIO

import pytest
from jsonschema import Draft202012Validator

from cli.running import BROKEN_PLAN, environment, firstfix, is_one_sentence
from firstfix.resources import schemas

ACCENTS = "name: café\n\N{GREEK SMALL LETTER OMEGA}-devices: {}\n"
NO_UNICODE = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "broken.yaml").write_text(BROKEN_PLAN)
    (tmp_path / "accents.yaml").write_text(ACCENTS, encoding="utf-8")
    return tmp_path


def run_into(stdout: BinaryIO, *given: str, cwd: Path) -> tuple[int, str]:
    done = subprocess.run(
        [sys.executable, "-m", "firstfix", *given],
        cwd=cwd,
        env=environment(),
        stdout=stdout,
        stderr=subprocess.PIPE,
        timeout=60,
        check=False,
    )
    return done.returncode, done.stderr.decode()


def test_a_reader_that_has_read_enough_is_no_fault(folder: Path) -> None:
    for given, code in ((["parts"], 0), (["check", "broken.yaml"], 1), (["parts", "--help"], 0), ([], 0)):
        process = subprocess.Popen(
            [sys.executable, "-m", "firstfix", *given],
            cwd=folder,
            env=environment(),
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        assert process.stdout is not None
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == b""
        process.stderr.close()
        assert process.wait(60) == code


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="the system has no device that is always full")
def test_a_full_disk_is_said(folder: Path) -> None:
    with Path("/dev/full").open("wb") as full:
        code, err = run_into(full, "check", "broken.yaml", cwd=folder)
    assert code == 2
    assert is_one_sentence(err)
    assert "No space left on device" in err


def test_a_locale_without_accents_gets_escapes(folder: Path) -> None:
    run = firstfix("check", "accents.yaml", cwd=folder, env=NO_UNICODE)
    assert (run.code, run.err) == (1, "")
    assert "\\u03c9-devices" in run.out
    assert run.out.isascii()


def test_no_colour_into_a_pipe(folder: Path) -> None:
    assert "\x1b" not in firstfix("check", "broken.yaml", cwd=folder).out


def test_colour_on_a_terminal_unless_it_is_declined(folder: Path) -> None:
    pty = pytest.importorskip("pty")
    shown = {}
    for no_colour in ("", "1"):
        leader, follower = pty.openpty()
        subprocess.run(
            [sys.executable, "-m", "firstfix", "check", "broken.yaml"],
            cwd=folder,
            env=environment({"NO_COLOR": no_colour, "TERM": "xterm"}),
            stdout=follower,
            stderr=subprocess.DEVNULL,
            timeout=60,
            check=False,
        )
        shown[no_colour] = os.read(leader, 100_000)
        os.close(leader)
        os.close(follower)
    assert b"\x1b[" in shown[""]
    assert b"\x1b[" not in shown["1"]


def test_json_on_standard_output_is_what_the_schema_says(folder: Path) -> None:
    schema = json.loads((schemas() / "findings.schema.json").read_text(encoding="utf-8"))
    for plan in ("broken.yaml", "accents.yaml"):
        run = firstfix("check", plan, "--format", "json", cwd=folder)
        Draft202012Validator(schema).validate(json.loads(run.out))


def test_sarif_names_no_place_on_this_machine(folder: Path) -> None:
    run = firstfix("check", str(folder / "broken.yaml"), "--format", "sarif", cwd=folder)
    assert run.code == 1
    assert folder.as_posix() not in run.out
    results = json.loads(run.out)["runs"][0]["results"]
    places = [
        each["physicalLocation"]
        for result in results
        for each in result["locations"]
        if "physicalLocation" in each
    ]
    assert results
    assert {each["artifactLocation"]["uri"] for each in places} == {"broken.yaml"}


def test_a_hostile_file_name_moves_no_cursor(folder: Path) -> None:
    name = "\x1b[2J\u202eplan.yaml"
    (folder / name).write_text(BROKEN_PLAN)
    run = firstfix("check", name, cwd=folder)
    assert run.code == 1
    assert run.out.replace("\n", "").isprintable()
    assert run.out.startswith("\\x1b[2J\\u202eplan.yaml:2:1  error")


def test_output_is_the_same_to_the_byte_whatever_the_seed_of_hashes(folder: Path) -> None:
    runs = [
        firstfix("check", "broken.yaml", "--format", "sarif", cwd=folder, env={"PYTHONHASHSEED": seed})
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]
