"""`firstfix diff OLD NEW`: what changes between two plans, or between two revisions of one."""

import json
from collections.abc import Sequence
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.reading import compiled, shown
from firstfix.cli.revision import plan_file
from firstfix.cli.showing import refuse_unreadable
from firstfix.cli.streams import put, say
from firstfix.cli.trouble import FINE, FOUND

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.pipeline import Compiled

_PURPOSE = """\
Says what changes from one plan to another: what is added, removed and changed, what there is to buy
in packs and lengths as sold once all of the old shopping list is there, and what of it is left over.
Layout and comments make no difference.
OLD and NEW are files, or files of a git revision, written REVISION:PATH as git writes them.
Exit code 0: the same, 1: different, 2: one of them cannot be read."""

_EXAMPLE = """\
  firstfix diff last-year.yaml my-network.yaml
  firstfix diff HEAD:my-network.yaml my-network.yaml"""


def run(given: Sequence[str]) -> int:
    arguments = Arguments("diff", _PURPOSE, _EXAMPLE)
    arguments.add_argument("old", metavar="OLD", help="the plan as it was")
    arguments.add_argument("new", metavar="NEW", help="the plan as it is to be")
    arguments.add_format("text", "json")
    chosen = arguments.read(given)
    old, new = _compiled(chosen.old), _compiled(chosen.new)

    from firstfix.compare.changes import compare
    from firstfix.documents.changes_text import changes_data, changes_text
    from firstfix.purchase.difference import purchases

    before, after = _build(old, chosen.old), _build(new, chosen.new)
    changes, bought = compare(before, after), purchases(before, after)
    if chosen.format == "json":
        put(json.dumps(changes_data(changes, bought), indent=2) + "\n")
    else:
        put(changes_text(changes, bought) or "nothing changes\n")
    return FINE if changes.is_empty and not (bought.to_buy or bought.left_over) else FOUND


def _compiled(given: str) -> "Compiled":
    with plan_file(given) as path:
        return compiled(path, given)


def _build(result: "Compiled", given: str) -> "Build":
    if result.build is None:
        refuse_unreadable(result, shown(given))
    if result.report.has_errors:
        say(f"{shown(given)} has errors; it is compared as far as it goes")
    return _without_labels(result.build, result)


def _without_labels(build: "Build", result: "Compiled") -> "Build":
    """What was read at unboxing is no difference between two plans."""
    from dataclasses import replace

    from firstfix.resolve.found import as_written

    if result.plan is None or not result.progress.labels:
        return build
    return replace(build, devices=as_written(build.devices, result.plan))
