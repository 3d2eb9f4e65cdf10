"""A comparison as Markdown for a review comment: a summary first, what is long folded up, everything escaped.

`<details>` is HTML that the readers of review comments know; where a reader does not, the text stands there all the same.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from firstfix.compare.verdicts import APPEARS, VANISHES
from firstfix.documents.changes import ComparedPlans
from firstfix.documents.changes_money import cost_lines, money_sections
from firstfix.documents.changes_words import (
    Section,
    change_sections,
    room_row,
    summary,
    verdict_lines,
)
from firstfix.documents.markdown import inline
from firstfix.source.node import clip

# Longer lists are folded up; our own choice: about what fits on a screen beside the rest.
_MOST_OPEN = 12
# Of a picture's words; who can't see it has every change in the lists as well.
_LONGEST_WORDS = 600


def changes_markdown(
    compared: ComparedPlans,
    beside: Sequence[str] = (),
    pictures: Mapping[str, str] | None = None,
    way: Sequence[str] = (),
) -> str:
    """`beside`: names of further files in the same folder, to be linked to. `pictures`: paths of pictures to show, with their words.

    `way`: the way there in a few lines, what goes down first.
    """
    lines = [f"## {inline(compared.old)} → {inline(compared.new)}", "", *_notes(compared.notes)]
    if compared.is_empty:
        return "\n".join([*lines, "Nothing changes.", ""])
    lines += [f"**{inline(summary(compared))}.** {inline(_verdicts(compared))}", ""]
    lines += [f"{inline(' '.join(cost_lines(compared.purchases)))}", ""] if compared.purchases.to_buy else []
    lines += _shown(pictures or {})
    lines += _open("The way there", way)
    for section in change_sections(compared):
        lines += _listed(section)
    lines += _listed(Section("Findings", tuple(verdict_lines(compared.verdicts))))
    lines += _headroom(compared)
    for section in money_sections(compared.purchases):
        lines += _listed(section) if section.title != "Cost" else []
    lines += [f"- [{inline(name)}]({name})" for name in beside]
    return "\n".join(lines).rstrip("\n") + "\n"


def _notes(notes: Iterable[str]) -> Iterator[str]:
    for note in notes:
        yield f"> {inline(note)}"
        yield ""


def _verdicts(compared: ComparedPlans) -> str:
    come = sum(each.how == APPEARS for each in compared.verdicts)
    gone = sum(each.how == VANISHES for each in compared.verdicts)
    if not compared.verdicts:
        return "No finding comes or goes."
    return f"Findings: {come} new, {gone} no longer said, {len(compared.verdicts) - come - gone} with another figure."


def _listed(section: Section) -> Iterator[str]:
    if not section.lines:
        return
    title, is_long = f"{section.title} ({len(section.lines)})", len(section.lines) > _MOST_OPEN
    if is_long:
        yield from ("<details>", f"<summary>{_text(title)}</summary>", "")
    else:
        yield from (f"### {inline(title)}", "")
    yield from (f"- {inline(line)}" for line in section.lines)
    yield ""
    if is_long:
        yield from ("</details>", "")


def _shown(pictures: Mapping[str, str]) -> Iterator[str]:
    """The first picture as it is, the others folded up. The words stay short: the sections below say all of it."""
    said = [f"![{inline(clip(words, _LONGEST_WORDS))}]({path})" for path, words in pictures.items()]
    for place, each in enumerate(said):
        if place == 1:
            yield from ("<details>", f"<summary>{len(said) - 1} more of what changes, drawn</summary>", "")
        yield from (each, "")
    if len(said) > 1:
        yield from ("</details>", "")


def _open(title: str, lines: Sequence[str]) -> Iterator[str]:
    """A list that is never folded up."""
    if lines:
        yield from (f"### {inline(title)}", "", *(f"- {inline(line)}" for line in lines), "")


def _text(title: str) -> str:
    """Between tags: titles are ours, and hold no name of the plan's."""
    return title.replace("&", "&amp;").replace("<", "&lt;")


def _headroom(compared: ComparedPlans) -> Iterator[str]:
    if not compared.room:
        return
    yield from (
        "### Headroom",
        "",
        "| what is left | of | before | after | of at most | |",
        "|---|---|--:|--:|--:|---|",
    )
    for each in compared.room:
        yield f"| {' | '.join(map(inline, room_row(each)))} |"
    yield ""
