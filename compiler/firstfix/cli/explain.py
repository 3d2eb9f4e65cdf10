"""`firstfix explain RULE`: what a rule compares, and on which source; without RULE, all by family in one line each.

`firstfix explain --plan`: the keys of a plan.
"""

import json
import textwrap
from collections.abc import Collection, Iterable, Sequence
from typing import TYPE_CHECKING

from firstfix.cli.arguments import Arguments
from firstfix.cli.columns import columns
from firstfix.cli.streams import put
from firstfix.cli.trouble import FINE, TroubleError
from firstfix.finding.fit import cut
from firstfix.finding.help_text import help_paragraphs, help_text
from firstfix.finding.kinds import Kind
from firstfix.finding.model import Level

if TYPE_CHECKING:
    from firstfix.rules.all_kinds import KindFamily

_PURPOSE = """\
Says what a rule compares, why that matters, when it cannot tell, on which published source it rests,
and what helps. Rules are named at the end of the first line of each finding.
Without a rule, lists all of them, by family. With --plan, says what each key of a plan holds."""

_EXAMPLE = """\
  firstfix explain
  firstfix explain poe-budget
  firstfix explain --plan
  firstfix explain --plan --format json > plan.schema.json"""

_WIDTH = 110


def run(given: Sequence[str]) -> int:
    from firstfix.rules.all_kinds import kind_families

    arguments = Arguments("explain", _PURPOSE, _EXAMPLE)
    arguments.add_argument("rule", metavar="RULE", nargs="?", help="the rule's name, such as poe-budget")
    arguments.add_argument(
        "--plan", action="store_true", help="the keys of a plan; as JSON, the JSON Schema that editors take"
    )
    arguments.add_format("text", "json")
    chosen = arguments.read(given)
    if chosen.plan:
        put(_keys_of_a_plan(chosen.rule, chosen.format))
        return FINE
    families = kind_families()
    by_id = {kind.id: (kind, family.title) for family in families for kind in family.kinds}
    chosen_ids = sorted(by_id) if chosen.rule is None else [_one(by_id, chosen.rule)]
    if chosen.format == "json":
        put(json.dumps([_data(*by_id[each]) for each in chosen_ids], indent=2) + "\n")
    elif chosen.rule is None:
        put(_table(families))
    else:
        put(_page(by_id[chosen_ids[0]][0]))
    return FINE


def _keys_of_a_plan(rule: str | None, form: str) -> str:
    from firstfix.resources import schemas

    if rule is not None:
        raise TroubleError("a rule is explained, or the keys of a plan with --plan, not both at once")
    name = "plan-reference.md" if form == "text" else "plan.schema.json"
    return (schemas() / name).read_text("utf-8")


def _one(by_id: Collection[str], name: str) -> str:
    from firstfix.source.nearest import did_you_mean

    if name not in by_id:
        hint = did_you_mean(name, by_id) or "; firstfix explain lists them all"
        raise TroubleError(f"there is no rule '{cut(name, 60)}'{hint}")
    return name


def _table(families: "Sequence[KindFamily]") -> str:
    """The same columns in all families, so that one can read down them."""
    widest = max(len(kind.id) for family in families for kind in family.kinds)
    return "\n".join(f"{family.title}:\n{_rows(family.kinds, widest)}" for family in families)


def _rows(kinds: Iterable[Kind], widest: int) -> str:
    longest_level = max(len(level) for level in Level)
    return columns(
        [(kind.id.ljust(widest), kind.level.value.ljust(longest_level), kind.summary) for kind in kinds]
    )


def _page(kind: Kind) -> str:
    summary, *rest = (_wrapped(paragraph) for paragraph in help_paragraphs(kind))
    return "\n".join([f"{kind.id}  {kind.level.value}", summary, "", *rest]) + "\n"


def _wrapped(paragraph: str) -> str:
    lines = paragraph.splitlines()
    if len(lines) > 1:
        return textwrap.indent(paragraph, "  ")
    return textwrap.fill(paragraph, _WIDTH, initial_indent="  ", subsequent_indent="      ")


def _data(kind: Kind, family: str) -> dict[str, object]:
    return {
        "rule": kind.id,
        "level": kind.level.value,
        "family": family,
        "summary": kind.summary,
        "help": help_text(kind),
        "basis": kind.basis._asdict(),
    }
