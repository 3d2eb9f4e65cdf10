"""What each trick file is answered with, to the letter: `tricks/expected.txt`. `python tests/hostile/expected.py` writes it anew from what
is said now; read its difference before you keep it.

A trick is a file in `tricks/`: `.yaml` where an editor can open it, `.bin` where it is no text. In the table its name stands at the
beginning of a line, and below it, indented, a line for each finding: line:column, level, rule, message. "-" stands for none.
"""

import sys
import tempfile
from collections.abc import Mapping
from pathlib import Path

from firstfix.finding.fit import visible
from firstfix.finding.model import Finding
from firstfix.pipeline import Compiled, compile_plan

TRICKS = Path(__file__).parent / "tricks"
TABLE = TRICKS / "expected.txt"


def trick_files() -> list[Path]:
    return sorted(path for path in TRICKS.iterdir() if path.suffix in (".yaml", ".bin"))


def answered(trick: Path, folder: Path) -> Compiled:
    """The trick as a plan of its own in `folder`, where no other file lies that it could include."""
    path = folder / "plan.yaml"
    path.write_bytes(trick.read_bytes())
    return compile_plan(path, "plan.yaml")


def told(compiled: Compiled) -> list[str]:
    return [_line(each) for each in compiled.report.findings] or ["-"]


def _line(finding: Finding) -> str:
    at = finding.primary
    place = "0:0" if at is None else f"{at.line}:{at.column}"
    return f"{place} {finding.level.value} {finding.rule}: {visible(finding.message)}"


def table() -> Mapping[str, list[str]]:
    """Trick to what is expected of it."""
    found: dict[str, list[str]] = {}
    name = ""
    for line in TABLE.read_text("utf-8").split("\n"):
        if line.startswith("  "):
            found[name].append(line.strip(" "))
        elif line and not line.startswith("#"):
            name = line
            found[name] = []
    return found


def main() -> int:
    lines = [
        "# What each trick is answered with. Written by tests/hostile/expected.py; read the difference before you keep it."
    ]
    with tempfile.TemporaryDirectory() as folder:
        for trick in trick_files():
            lines.append(trick.name)
            lines += [f"  {each}" for each in told(answered(trick, Path(folder)))]
    TABLE.write_text("\n".join(lines) + "\n", "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
