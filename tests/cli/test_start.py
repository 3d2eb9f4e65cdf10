"""What the command does before it does anything: the version without delay, and help that a stranger understands."""

import json
from pathlib import Path

import pytest

from cli.running import firstfix, python
from firstfix import __version__
from firstfix.cli.overview import COMMANDS

LOADED = """
import sys
before = set(sys.modules)
from firstfix.cli.entry import main
code = main(["--version"])
print(sorted(set(sys.modules) - before), file=sys.stderr)
sys.exit(code)
"""


def test_the_version_loads_nothing_but_the_entry(tmp_path: Path) -> None:
    run = python("-c", LOADED, cwd=tmp_path)
    assert run.out == f"firstfix {__version__}\n"
    assert run.err == "['firstfix', 'firstfix.cli', 'firstfix.cli.entry']\n"


SLOW = (
    "networkx",
    "jinja2",
    "pygraphviz",
    "graphviz",
    "fontTools",
    "typst",
    "jsonschema",
    "email",
    "http",
)


@pytest.mark.parametrize(
    "given", [[], ["check", "--help"], ["build", "--help"], ["check", "plan.yaml"], ["parts"], ["explain"]]
)
def test_nothing_slow_is_loaded_for_a_check_or_for_help(tmp_path: Path, given: list[str]) -> None:
    assert firstfix("new", "-o", "plan.yaml", cwd=tmp_path).code == 0
    program = (
        "import sys\n"
        "from firstfix.cli.entry import main\n"
        "try:\n    main(sys.argv[1:])\nexcept SystemExit:\n    pass\n"
        f"print([name for name in {SLOW!r} if name in sys.modules], file=sys.stderr)\n"
    )
    assert python("-c", program, *given, cwd=tmp_path).err == "[]\n"


def test_firstfix_alone_says_what_it_is_and_how_to_begin(tmp_path: Path) -> None:
    run = firstfix(cwd=tmp_path)
    assert (run.code, run.err) == (0, "")
    for name, summary in COMMANDS.items():
        assert f"  {name:<{max(map(len, COMMANDS))}}  {summary}\n" in run.out
    assert [line[:4] for line in run.out.splitlines() if "firstfix new -o" in line] == ["  1."]
    assert firstfix("--help", cwd=tmp_path) == firstfix("help", cwd=tmp_path) == run


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_an_example(tmp_path: Path, command: str) -> None:
    run = firstfix(command, "--help", cwd=tmp_path)
    assert (run.code, run.err) == (0, "")
    assert f"usage: firstfix {command}" in run.out
    assert f"\nfor example:\n  firstfix {command}" in run.out
    assert all(len(line) <= 110 for line in run.out.splitlines())
    assert firstfix("help", command, cwd=tmp_path) == run


def test_the_three_first_steps_work_as_printed(tmp_path: Path) -> None:
    steps = [
        line.split("firstfix ", 1)[1]
        for line in firstfix(cwd=tmp_path).out.splitlines()
        if line[:4].strip()[:1].isdigit()
    ]
    assert len(steps) == 3
    for step in steps:
        given = step.split("   ")[0].split()
        assert firstfix(*given, cwd=tmp_path).code == 0
    assert (tmp_path / "my-network.yaml").is_file()
    assert (tmp_path / "out" / ".firstfix").is_file()


def test_the_starter_plan_has_no_finding_and_nothing_undetermined(tmp_path: Path) -> None:
    firstfix("new", "-o", "plan.yaml", cwd=tmp_path)
    counts = json.loads(firstfix("check", "plan.yaml", "--format", "json", cwd=tmp_path).out)["counts"]
    assert counts["error"] == counts["warning"] == counts["cannot_tell"] == 0


def test_new_prints_the_same_plan_that_it_writes(tmp_path: Path) -> None:
    firstfix("new", "-o", "plan.yaml", cwd=tmp_path)
    assert firstfix("new", cwd=tmp_path).out == (tmp_path / "plan.yaml").read_text()
