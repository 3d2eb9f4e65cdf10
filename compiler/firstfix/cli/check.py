"""`firstfix check PLAN`: the findings, and nothing is written."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled
from firstfix.cli.showing import FORMATS, exit_code, show_report

if TYPE_CHECKING:
    from firstfix.pipeline import Compiled

_PURPOSE = """\
Says what would go wrong with a plan, worst first: where, by how much, on which published source,
and what cures it. What could not be judged is listed too, with the facts that are missing.
Writes nothing. Exit code 0: no error, 1: at least one error, 2: the plan cannot be read."""

_EXAMPLE = """\
  firstfix check my-network.yaml
  firstfix check my-network.yaml --why hall-camera
  firstfix check my-network.yaml --why poe-budget
  firstfix check my-network.yaml --format sarif > findings.sarif"""


def run(given: Sequence[str]) -> int:
    arguments = Arguments("check", _PURPOSE, _EXAMPLE)
    arguments.add_argument("plan", metavar="PLAN", help="the plan file")
    arguments.add_format(*FORMATS)
    arguments.add_argument(
        "--why",
        metavar="NAME",
        help="instead of the findings: why something is as it is: a device, jack (core/3), run (desk--core), way, VLAN, "
        "address, room, unit (main/8), part to buy, or step of the checklist; or a rule's findings with all that they "
        "reckon with (poe-budget, poe-budget/core)",
    )
    chosen = arguments.read(given)
    result = compiled(Path(chosen.plan), chosen.plan)
    if chosen.why is not None:
        _show_why(result, chosen.why, chosen.format)
    else:
        show_report(result, chosen.format)
    return exit_code(result)


def _show_why(result: "Compiled", name: str, form: str) -> None:
    """A rule's findings in full, or a thing of the plan; of a plan that can't be read, what is wrong with it."""
    from firstfix.cli.why_findings import asked_of, show_findings_in_full

    asked = asked_of(result, name)
    if asked is not None:
        show_findings_in_full(result, asked, form)
    elif result.build is None:
        show_report(result, form)
    else:
        from firstfix.cli.why import show_why

        show_why(result.build, name, form)
