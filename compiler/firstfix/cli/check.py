"""`firstfix check PLAN`: the findings, and nothing is written."""

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled, standing
from firstfix.cli.showing import FORMATS, exit_code, show_report
from firstfix.cli.trouble import TroubleError

if TYPE_CHECKING:
    from argparse import Namespace

    from firstfix.pipeline import Compiled

_PURPOSE = """\
Says what would go wrong with a plan, worst first: where, by how much, on which published source,
and what cures it. What could not be judged is listed too, with the facts that are missing.
With --assume it says what a change would mean, with --as-of how the network stands after a phase,
and with --grow how many more cameras, access points, wired places, stores and units there is room for.
Writes nothing. Exit code 0: no error, 1: at least one error, 2: the plan cannot be read."""

_EXAMPLE = """\
  firstfix check my-network.yaml
  firstfix check my-network.yaml --why hall-camera
  firstfix check my-network.yaml --why poe-budget
  firstfix check my-network.yaml --format sarif > findings.sarif
  firstfix check my-network.yaml --as-of spring
  firstfix check my-network.yaml --grow cameras
  firstfix check my-network.yaml --assume 'devices.cam-9={part: camera, room: shed, plugs-into: core}'
  firstfix check my-network.yaml --assume 'ways.duct.length+=20 m' --assume 'sold-out switch-16-poe'
  firstfix check my-network.yaml --assume 'links-={run: [store, core]}'"""


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
    arguments.add_argument(
        "--assume",
        metavar="CHANGE",
        action="append",
        default=[],
        help="what this change would mean: findings, cost, moved choices; the plan is left alone. CHANGE is KEY.KEY=VALUE as in "
        "the plan (a table is laid over what is there; entries of a list go by number from 1, links.3.run=…), += or -= for so "
        "much more or less (of a list: links-={run: [store, core]} takes that entry out), 'no KEY.KEY' for taken away, "
        "'sold-out PART'; may be given several times",
    )
    arguments.add_argument(
        "--as-of", metavar="PHASE", help="the network as it stands once this phase is done, by itself"
    )
    arguments.add_argument(
        "--grow",
        metavar="WHAT",
        nargs="?",
        const="",
        help="instead of the findings: how many more fit, what ends it, and what would lift that; WHAT is cameras, access-points, "
        "wired-places, storage, cabinet-height, or a room, switch, cabinet or device (default: everything, which takes minutes for a school)",
    )
    chosen = arguments.read(given)
    if chosen.grow is not None:
        return _growing(chosen)
    if chosen.assume:
        return _assuming(chosen)
    result = standing(compiled(Path(chosen.plan), chosen.plan), chosen.as_of)
    if chosen.why is not None:
        _show_why(result, chosen.why, chosen.format)
    else:
        show_report(result, chosen.format)
    return exit_code(result)


def _growing(chosen: "Namespace") -> int:
    if chosen.assume or chosen.as_of is not None or chosen.why is not None:
        raise TroubleError("--grow looks at the plan as it is; leave --why, --assume and --as-of away")
    result = compiled(Path(chosen.plan), chosen.plan)
    if result.build is None:
        show_report(result, chosen.format)
    else:
        from firstfix.cli.growing import show_growth

        show_growth(result, chosen.grow, chosen.format)
    return exit_code(result)


def _assuming(chosen: "Namespace") -> int:
    """With `--why`, why something would be as it would be; else what differs. The exit code is that of the plan as assumed."""
    from firstfix.cli.assume import OPTION, compiled_with, read_assumptions, show_what_if

    if chosen.format == "sarif":
        raise TroubleError(
            f"{OPTION} gives text or json; its findings stand in no file that sarif could name"
        )
    path, assumptions = Path(chosen.plan), read_assumptions(chosen.assume)
    before = compiled(path, chosen.plan)
    if before.build is None:
        show_report(before, chosen.format)
        return exit_code(before)
    after = standing(compiled_with(path, chosen.plan, assumptions), chosen.as_of)
    if chosen.why is not None:
        _show_why(after, chosen.why, chosen.format)
    else:
        show_what_if(standing(before, chosen.as_of), after, chosen.assume, chosen.format)
    return exit_code(after)


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
