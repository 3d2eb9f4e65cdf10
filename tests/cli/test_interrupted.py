"""Stopped half way, by Ctrl-C or by an orderly stop from outside: one sentence, and no output half written."""

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from cli.running import environment, firstfix

# Writes the first document, says so, and then waits to be stopped.
PROGRAM = """
import signal, sys
import firstfix.pipeline
from pathlib import Path
firstfix.pipeline.results = lambda compiled: {"a.md": b"a", "b.md": b"b"}
write = Path.write_bytes
def write_bytes(self, content):
    write(self, content)
    print("half way", flush=True)
    signal.pause()
Path.write_bytes = write_bytes
from firstfix.cli.entry import main
sys.exit(main(["build", "plan.yaml", "-o", "out"]))
"""


@pytest.mark.parametrize("stop", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("there_already", [False, True])
def test_a_build_that_is_stopped_leaves_the_old_documents(
    tmp_path: Path, stop: signal.Signals, there_already: bool
) -> None:
    firstfix("new", "-o", "plan.yaml", cwd=tmp_path)
    if there_already:
        (tmp_path / "out").mkdir()
    process = subprocess.Popen(
        [sys.executable, "-c", PROGRAM],
        cwd=tmp_path,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    while "half way" not in process.stdout.readline():
        assert process.poll() is None
    process.send_signal(stop)
    _, err = process.communicate(timeout=60)
    assert process.returncode == 2
    assert err == "firstfix: stopped; no output is left half written\n"
    expected = ["out", "plan.yaml"] if there_already else ["plan.yaml"]
    assert sorted(path.name for path in tmp_path.iterdir()) == expected
    assert not there_already or not any((tmp_path / "out").iterdir())
