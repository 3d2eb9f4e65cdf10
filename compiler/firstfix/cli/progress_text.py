"""How far a build has come, for people and for programs."""

import json
from collections.abc import Iterable, Iterator, Sequence

from firstfix.cli.columns import columns
from firstfix.documents.remaining import LineRow, RunRow, StepRow, sentences, what_remains
from firstfix.finding.fit import cut, visible
from firstfix.finding.model import Finding
from firstfix.parts.facts import Fact
from firstfix.remaining.model import Remaining

_WIDTH = 110


def standing_text(found: Remaining, about: Sequence[Finding]) -> str:
    """`about`: the findings that lie in the progress file."""
    return "\n".join(_blocks(found, about))


def _blocks(found: Remaining, about: Sequence[Finding]) -> Iterator[str]:
    left = what_remains(found)
    yield "".join(f"{sentence}\n" for sentence in sentences(found))
    yield from _block("still to order", _lines(left.to_order))
    yield from _block("ordered, not here yet", _lines(left.to_come))
    yield from _block("MAC addresses still to be read", [(name,) for name in left.unread])
    yield from _block("can be done now", _steps(left.now))
    if left.later:
        count = len(left.later)
        yield f"{count} further {'step waits' if count == 1 else 'steps wait'} for these; what-remains.md has them\n"
    yield from _block("runs as measured", _runs(left.runs))
    yield from _block("to look at", [(f"{each.level.value}: {each.primary}", each.message) for each in about])


def _block(title: str, rows: Sequence[tuple[str, ...]]) -> Iterator[str]:
    if rows:
        shown = [(*(cut(cell, 60) for cell in row[:-1]), visible(row[-1])) for row in rows]
        yield f"{title}\n{columns(shown, '  ')}"


def _lines(rows: Iterable[LineRow]) -> list[tuple[str, ...]]:
    return [(row.id, f"{row.amount} of {row.of}", row.title) for row in rows]


def _steps(rows: Iterable[StepRow]) -> list[tuple[str, ...]]:
    return [(row.id, row.title) for row in rows]


def _runs(rows: Iterable[RunRow]) -> list[tuple[str, ...]]:
    return [
        (row.run, f"planned {row.planned}", f"measured {row.measured or 'no length'}", row.verdict)
        for row in rows
    ]


def standing_json(found: Remaining, about: Sequence[Finding]) -> str:
    """Keys in a fixed order; lengths in metres, null where one is not known."""
    data = {
        "steps": found.all_steps,
        "done": sorted(found.done),
        "to_do": [
            {
                **step._asdict(),
                "waits_for": list(step.waits_for),
                "waits_for_parts": list(step.waits_for_parts),
            }
            for step in found.steps
        ],
        "lines": [
            {**line._asdict(), "to_order": line.to_order, "to_come": line.to_come} for line in found.lines
        ],
        "mac_to_read": list(found.unread),
        "runs": [
            {
                "run": run.run,
                "name": run.name,
                "planned_m": run.planned.typical if isinstance(run.planned, Fact) else None,
                "measured_m": run.measured or None,
                "test": run.verdict or None,
            }
            for run in found.runs
        ],
        "findings": [
            {"rule": each.rule, "level": each.level.value, "at": str(each.primary), "message": each.message}
            for each in about
        ],
    }
    return json.dumps(data, indent=2, ensure_ascii=False) + "\n"
