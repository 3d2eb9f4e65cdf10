"""`firstfix explain RULE`: what a rule compares, and on which source; without RULE, all in one line each."""

import json
import textwrap
from collections.abc import Iterable, Mapping, Sequence

from firstfix.cli.arguments import Arguments
from firstfix.cli.columns import columns
from firstfix.cli.streams import put
from firstfix.cli.trouble import FINE, TroubleError
from firstfix.finding.fit import cut
from firstfix.finding.help_text import help_paragraphs, help_text
from firstfix.finding.kinds import Kind

_PURPOSE = """\
Says what a rule compares, why that matters, when it cannot tell, on which published source it rests,
and what helps. Rules are named at the end of the first line of each finding.
Without a rule, lists all of them."""

_EXAMPLE = """\
  firstfix explain
  firstfix explain poe-budget"""

_WIDTH = 110


def run(given: Sequence[str]) -> int:
    from firstfix.rules.all_kinds import all_kinds

    arguments = Arguments("explain", _PURPOSE, _EXAMPLE)
    arguments.add_argument("rule", metavar="RULE", nargs="?", help="the rule's name, such as poe-budget")
    arguments.add_format("text", "json")
    chosen = arguments.read(given)
    by_id = {kind.id: kind for kind in sorted(all_kinds(), key=lambda kind: kind.id)}
    if chosen.rule is None:
        text, data = _table(by_id.values()), [_data(kind) for kind in by_id.values()]
    else:
        kind = _one(by_id, chosen.rule)
        text, data = _page(kind), [_data(kind)]
    put(text if chosen.format == "text" else json.dumps(data, indent=2) + "\n")
    return FINE


def _one(by_id: Mapping[str, Kind], name: str) -> Kind:
    from firstfix.source.nearest import did_you_mean

    if name not in by_id:
        hint = did_you_mean(name, by_id) or "; firstfix explain lists them all"
        raise TroubleError(f"there is no rule '{cut(name, 60)}'{hint}")
    return by_id[name]


def _table(kinds: Iterable[Kind]) -> str:
    return columns([(kind.id, kind.level.value, kind.summary) for kind in kinds])


def _page(kind: Kind) -> str:
    summary, *rest = (_wrapped(paragraph) for paragraph in help_paragraphs(kind))
    return "\n".join([f"{kind.id}  {kind.level.value}", summary, "", *rest]) + "\n"


def _wrapped(paragraph: str) -> str:
    lines = paragraph.splitlines()
    if len(lines) > 1:
        return textwrap.indent(paragraph, "  ")
    return textwrap.fill(paragraph, _WIDTH, initial_indent="  ", subsequent_indent="      ")


def _data(kind: Kind) -> dict[str, object]:
    return {
        "rule": kind.id,
        "level": kind.level.value,
        "summary": kind.summary,
        "help": help_text(kind),
        "basis": kind.basis._asdict(),
    }
