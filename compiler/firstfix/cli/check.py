"""`firstfix check PLAN`: the findings, and nothing is written."""

from collections.abc import Sequence
from pathlib import Path

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled
from firstfix.cli.showing import FORMATS, exit_code, show_report

_PURPOSE = """\
Says what would go wrong with a plan, worst first: where, by how much, on which published source,
and what cures it. What could not be judged is listed too, with the facts that are missing.
Writes nothing. Exit code 0: no error, 1: at least one error, 2: the plan cannot be read."""

_EXAMPLE = """\
  firstfix check my-network.yaml
  firstfix check my-network.yaml --why hall-camera
  firstfix check my-network.yaml --format sarif > findings.sarif"""


def run(given: Sequence[str]) -> int:
    arguments = Arguments("check", _PURPOSE, _EXAMPLE)
    arguments.add_argument("plan", metavar="PLAN", help="the plan file")
    arguments.add_format(*FORMATS)
    arguments.add_argument(
        "--why",
        metavar="NAME",
        help="instead of the findings: why something is as it is: a device, jack (core/3), run (desk--core), way, VLAN, "
        "address, room, unit (main/8), part to buy, or step of the checklist",
    )
    chosen = arguments.read(given)
    result = compiled(Path(chosen.plan), chosen.plan)
    if chosen.why is not None and result.build is not None:
        from firstfix.cli.why import show_why

        show_why(result.build, chosen.why, chosen.format)
    else:
        show_report(result, chosen.format)
    return exit_code(result)
