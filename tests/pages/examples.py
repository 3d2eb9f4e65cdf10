"""An example of each kind of finding as printed, by really compiling a bad plan: for the page of kinds.

A rule's is `tests/rules/RULE/bad.yaml`, without the marks that are the tests' own; a fault of reading has its few lines here.
"""

import re
import tempfile
from collections.abc import Mapping
from itertools import pairwise
from pathlib import Path

from firstfix.finding.model import report
from firstfix.finding.render_text import render_text
from firstfix.pipeline import compile_plan

_RULES = Path(__file__).parents[1] / "rules"
_MARK = re.compile(r"[ \t]*#[ \t]*(?:expect|cannot-tell):[^\n]*")
_SITES = "sites: {home: {rooms: {study: {mains: 4}}}}\n"


def _tenfold(names: str) -> str:
    """Each list holds the one before ten times."""
    lists = (f"{name}: &{name} [{', '.join([f'*{before}'] * 10)}]\n" for before, name in pairwise(names))
    return f"{names[0]}: &{names[0]} [{', '.join('x' * 10)}]\n{''.join(lists)}"


# Plan files of a few lines, each with the fault that it is named for; the second file, where there is one, stands beside it.
_SLIPS: Mapping[str, Mapping[str, str]] = {
    "alias-expansion": {"plan.yaml": _tenfold("abcdefgh")},
    "document-count": {"plan.yaml": f"name: Attic\n{_SITES}---\nname: Second\n"},
    "empty-file": {"plan.yaml": "# nothing yet\n"},
    "encoding": {"plan.yaml": "name: Caf\udce9\n"},
    "exception-unmatched": {"plan.yaml": f"name: Attic\n{_SITES}exceptions:\n  - {{rule: poe-budget, subject: core, reason: off at night}}\n"},
    "include": {"plan.yaml": "name: Attic\ninclude: [../../etc/secrets.yaml]\n" + _SITES},
    "key-duplicate": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  core: {{part: switch-8, room: study}}\n  core: {{part: switch-16, room: study}}\n"},
    "key-form": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  ? [core, spare]\n  : {{part: switch-8, room: study}}\n"},
    "key-missing": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  core: {{room: study}}\n"},
    "key-unknown": {"plan.yaml": f"name: Attic\n{_SITES}devises:\n  core: {{part: switch-8, room: study}}\n"},
    "kept-merge": {"plan.yaml": f"name: Attic\n{_SITES}", "plan.allocations.yaml": "<<<<<<< ours\n=======\n>>>>>>> theirs\n"},
    "name-form": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  Hall Camera: {{part: camera, room: study}}\n"},
    "nesting-depth": {"plan.yaml": f"name: Attic\nx-notes: {'[' * 80}{']' * 80}\n"},
    "quantity": {"plan.yaml": f"name: Attic\n{_SITES}cabling: {{slack: 2}}\n"},
    "syntax": {"plan.yaml": "name: [unclosed\n"},
    "tag": {"plan.yaml": f"name: !!str Attic\n{_SITES}"},
    "value-kind": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  core: {{part: switch-8, room: study, owned: maybe}}\n"},
    "was": {"plan.yaml": f"name: Attic\n{_SITES}devices:\n  core: {{part: switch-8, room: study, was: edge}}\n  edge: {{part: switch-8, room: study}}\n"},
}  # fmt: skip


def examples(kinds: tuple[str, ...]) -> dict[str, str]:
    """By kind, its first finding as `firstfix check plan.yaml` prints it; kinds that have no plan here are left out."""
    found = {}
    for kind in kinds:
        files = _SLIPS.get(kind) or _of_rule(kind)
        if files:
            found[kind] = _printed(kind, files)
    return found


def _of_rule(kind: str) -> dict[str, str]:
    """The rule's bad plan and what is kept beside it, without marks, under the name of a plan."""
    folder = _RULES / kind
    beside = [path for path in folder.glob("bad*.yaml") if path.name.partition(".")[0] == "bad"]
    return {path.name.replace("bad", "plan", 1): _MARK.sub("", path.read_text("utf-8")) for path in beside}


def _printed(kind: str, files: Mapping[str, str]) -> str:
    with tempfile.TemporaryDirectory() as folder:
        for name, text in files.items():
            (Path(folder) / name).write_bytes(text.encode("utf-8", "surrogateescape"))
        compiled = compile_plan(Path(folder) / "plan.yaml", "plan.yaml")
    of_kind = [finding for finding in compiled.report.findings if finding.rule == kind]
    assert of_kind, f"the example of {kind} does not give it"
    # The last line counts the findings; of an example there is but one.
    return render_text(report(of_kind[:1]), compiled.source.texts).rpartition("\n\n")[0]
