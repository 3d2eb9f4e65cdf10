"""A comparison as text for people, in sections, one line a change."""

from firstfix.documents.changes import ComparedPlans
from firstfix.documents.changes_money import money_sections
from firstfix.documents.changes_words import (
    RoomRow,
    Section,
    change_sections,
    room_row,
    summary,
    verdict_lines,
)
from firstfix.finding.fit import cells, visible

NOTHING = "nothing changes\n"
# Money has them between thousands; they are spaces and no more.
_NO_BREAK = "\N{NO-BREAK SPACE}"


def changes_text(compared: ComparedPlans) -> str:
    """Sections that have something in them. How far the comparison goes is said beside it, not in it."""
    if compared.is_empty:
        return NOTHING
    sections = [
        *change_sections(compared),
        Section("Findings", tuple(verdict_lines(compared.verdicts))),
        Section(
            "Headroom: what is left, before → after",
            tuple(_aligned([room_row(each) for each in compared.room])),
        ),
        *money_sections(compared.purchases),
    ]
    blocks = [
        "\n".join(
            [
                f"{each.title} ({len(each.lines)})",
                *(f"  {visible(line.replace(_NO_BREAK, ' '))}" for line in each.lines),
            ]
        )
        for each in sections
        if each.lines
    ]
    return "\n\n".join([summary(compared), *blocks]) + "\n"


def _aligned(rows: list[RoomRow]) -> list[str]:
    """What and whose in one column, figures in the next."""
    heads = [f"{row.what} of {row.of}" for row in rows]
    width = max(map(cells, heads), default=0)
    return [
        f"{head}{' ' * (width - cells(head))}  {row.before} → {row.after}"
        f"{f', of {row.limit}' if row.limit else ''}{f' ({row.remark})' if row.remark else ''}"
        for head, row in zip(heads, rows, strict=True)
    ]
