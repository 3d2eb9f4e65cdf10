"""What assumptions would change, as text for people and as JSON: findings, the network, headroom, the list and its cost, choices.

Takes a WhatIf; gives one string that ends in a line break. The text speaks as `check` does, of the network's changes as `diff` does; the
JSON is as `schemas/assumption.schema.json` describes it.
"""

import json
from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from firstfix.allocations.moved import MovedChoice
from firstfix.compare.verdicts import APPEARS, TURNS
from firstfix.documents.changes import ComparedPlans
from firstfix.documents.changes_json import changes_data
from firstfix.documents.changes_words import Section, change_sections, room_row, verdict_lines
from firstfix.finding.fit import visible
from firstfix.finding.model import Finding, Report, Undetermined
from firstfix.finding.render_json import report_data
from firstfix.finding.render_text import PLAIN, Palette, counts_line, render_entries
from firstfix.purchase.lines import METRES
from firstfix.purchase.money import money, plain
from firstfix.purchase.needs import Pack
from firstfix.purchase.two_lists import OnList, TwoLines, TwoLists
from firstfix.source.node import clip
from firstfix.units import metres, number

FORMAT = "firstfix assumption"
FORMAT_VERSION = 1
_MOST_NAMED = 5
_NO_BREAK, _BLANK = "\N{NO-BREAK SPACE}", " "


class WhatIf(NamedTuple):
    """`assumed`: as written. `report` and `texts` are those with the assumptions. `moved`: what was chosen and would be another."""

    assumed: tuple[str, ...]
    compared: ComparedPlans
    report: Report
    texts: Mapping[str, str]
    lists: TwoLists
    moved: tuple[MovedChoice, ...]

    @property
    def is_empty(self) -> bool:
        return self.compared.is_empty and not self.lists.lines and not self.moved


def what_if_text(asked: WhatIf, palette: Palette = PLAIN) -> str:
    blocks = ["\n".join(["assuming", *(f"  {visible(clip(text, 400))}" for text in asked.assumed)])]
    if asked.is_empty:
        blocks.append("nothing changes")
    fresh = _fresh(asked)
    shown = render_entries(*fresh, asked.texts, palette)
    blocks += (
        [f"Findings that appear or change ({len(fresh[0]) + len(fresh[1])})\n\n{shown}"] if shown else []
    )
    blocks += [_block(each) for each in _sections(asked) if each.lines]
    blocks.append(f"with that: {counts_line(asked.report)}")
    return "\n\n".join(blocks) + "\n"


def _block(section: Section) -> str:
    # A terminal has no use for the spaces that keep figures together on a page.
    lines = (f"  {visible(line.replace(_NO_BREAK, _BLANK))}" for line in section.lines)
    return "\n".join([f"{section.title} ({len(section.lines)})", *lines])


def _fresh(asked: WhatIf) -> tuple[list[Finding], list[Undetermined]]:
    """What the report says now and did not say before, in its own order."""
    new = {
        (each.new.rule, each.new.subject, each.new.level, each.new.message)
        for each in asked.compared.verdicts
        if each.how in (APPEARS, TURNS) and each.new is not None
    }
    untold = {key[:2] for key in new if key[2] == "cannot tell"}
    return (
        [
            each
            for each in asked.report.findings
            if (each.rule, each.subject, each.level.value, each.message) in new
        ],
        [each for each in asked.report.undetermined if (each.rule, each.subject) in untold],
    )


def _sections(asked: WhatIf) -> Iterator[Section]:
    gone = [each for each in asked.compared.verdicts if each.new is None]
    yield Section("Findings no longer said", tuple(verdict_lines(gone)))
    yield from change_sections(asked.compared)
    rows = [room_row(each) for each in asked.compared.room if each.is_changed]
    yield Section("Headroom that changes", tuple(_room(*each[:5]) for each in rows))
    yield Section("Choices that would move", tuple(map(_moved, asked.moved)))
    yield Section(
        "On the shopping list", tuple(_line(each, asked.lists.currency) for each in asked.lists.lines)
    )
    yield Section("Cost", tuple(_cost(asked.lists)) if asked.lists.lines else ())


def _room(what: str, of: str, before: str, after: str, limit: str) -> str:
    return f"{what} of {of}: {before} → {after}{f', of {limit}' if limit else ''}"


def _moved(each: MovedChoice) -> str:
    kept = ", which an earlier build had chosen" if each.is_kept else ""
    return f"{clip(each.about, 100)}: {clip(each.was, 100)} → {clip(each.now, 100)}{kept}"


def _line(each: TwoLines, currency: str) -> str:
    before, after = _packs(each.before, each.unit), _packs(each.after, each.unit)
    words = f"{clip(each.title, 100)} ({clip(each.line, 100)}): {before} → {after}"
    if isinstance(each.before.price, int) and isinstance(each.after.price, int):
        words += f", {_apart(each.after.price - each.before.price, currency)}"
        words += ", by an invented or typical price" if each.is_typical_price else ""
    settle = tuple(dict.fromkeys(each.after.unsettled))
    return "; ".join([words, *(f"to settle: {why}" for why in settle)])


def _packs(each: OnList, unit: str) -> str:
    return " + ".join(_pack(pack, unit) for pack in each.packs if pack.number) or "none"


def _pack(pack: Pack, unit: str) -> str:
    if unit == METRES:
        return f"{pack.number} × {metres(pack.size)}"
    if pack.size == 1:
        return str(pack.number)
    return f"{pack.number} {'pack' if pack.number == 1 else 'packs'} of {number(pack.size)}"


def _apart(more: int, currency: str) -> str:
    if more == 0:
        return "for the same money"
    return f"{money(abs(more), currency)} {'more' if more > 0 else 'less'}"


def _cost(lists: TwoLists) -> Iterator[str]:
    currency = lists.currency
    yield (
        f"The list comes to {money(lists.paid_after, currency)} instead of {money(lists.paid_before, currency)}: "
        f"{_apart(lists.more, currency)}"
    )
    fresh = sorted(set(lists.unpriced_after) - set(lists.unpriced_before))
    if fresh:
        more = f" and {len(fresh) - _MOST_NAMED} more" if len(fresh) > _MOST_NAMED else ""
        named = ", ".join(clip(each, 60) for each in fresh[:_MOST_NAMED])
        yield f"not in that, for no price is known or nobody offers it: {named}{more}"


def what_if_json(asked: WhatIf) -> str:
    # All but ASCII is escaped: no control character reaches a terminal, and any locale can write it.
    return json.dumps(_data(asked), indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def _data(asked: WhatIf) -> dict[str, Any]:
    currency = asked.lists.currency
    return {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "assumed": list(asked.assumed),
        "report": report_data(asked.report),
        "changes": changes_data(asked.compared),
        "choices_moved": [each._asdict() for each in asked.moved],
        "list": [_line_data(each, currency) for each in asked.lists.lines],
        "cost": {
            "before": plain(asked.lists.paid_before, currency),
            "after": plain(asked.lists.paid_after, currency),
            "currency": currency,
            "not_counted_before": list(asked.lists.unpriced_before),
            "not_counted_after": list(asked.lists.unpriced_after),
        },
    }


def _line_data(each: TwoLines, currency: str) -> dict[str, Any]:
    return {
        "line": each.line,
        "part": each.part,
        "unit": each.unit,
        "before": _on_list(each.before, currency),
        "after": _on_list(each.after, currency),
        "typical_price": each.is_typical_price,
    }


def _on_list(each: OnList, currency: str) -> dict[str, Any]:
    return {
        "needed": round(each.needed, 6),
        "packs": [{"number": pack.number, "size": pack.size} for pack in each.packs],
        "price": plain(each.price, currency) if isinstance(each.price, int) else None,
        "to_settle": list(each.unsettled),
    }
