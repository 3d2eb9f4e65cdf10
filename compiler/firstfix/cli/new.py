"""`firstfix new`: a small commented plan to start from."""

from collections.abc import Sequence
from pathlib import Path

from firstfix.cli.arguments import Arguments
from firstfix.cli.making import make_file
from firstfix.cli.reading import shown
from firstfix.cli.streams import put, say
from firstfix.cli.trouble import FINE

_PURPOSE = """\
Prints a small plan with comments that explain each part of it. It has no error, so you can build it at
once and then make it your own, a line at a time. A file that exists is never overwritten."""

_EXAMPLE = """\
  firstfix new -o my-network.yaml
  firstfix check my-network.yaml"""


def run(given: Sequence[str]) -> int:
    arguments = Arguments("new", _PURPOSE, _EXAMPLE)
    arguments.add_argument(
        "-o", "--output", metavar="FILE", help="the file to make (default: print the plan)"
    )
    chosen = arguments.read(given)
    text = (Path(__file__).parent / "starter_plan.yaml").read_text(encoding="utf-8")
    if chosen.output is None:
        put(text)
    else:
        make_file(Path(chosen.output), shown(chosen.output), text)
        say(f"{shown(chosen.output)} is made; now try: firstfix check {shown(chosen.output)}")
    return FINE
