"""The page of all kinds of findings, made from their own help, as Markdown.

Takes the families of kinds, the facts without which each rule cannot tell, and for a kind an example of it as printed; gives the page.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from typing import Protocol

from firstfix.finding.help_text import help_headings
from firstfix.finding.kinds import Kind

_TOP = """\
# Every kind of finding

<!-- Made by `make pages` from the rules themselves; what is changed here by hand is lost. -->

`firstfix check PLAN` names the kind at the end of a finding's first line; `firstfix explain KIND` prints what stands here, and
`firstfix check PLAN --why KIND` shows each of its findings with every term and every cure. An *error* must not be built so, a *warning*
is allowed but risky, a *note* is worth knowing. Where a fact is missing, a rule says *cannot tell*, which is never a pass.
Examples are of invented plans.
"""
# What Markdown would take for markup; `code` is left as it is.
_CODE = re.compile(r"(`[^`]+`)")
_MARKUP = re.compile(r"([\\*_\[\]<>|~&])")
_ORDER = ("Because", "Compares", "Skips", "Cannot tell", "Remedy")


class Family(Protocol):
    @property
    def title(self) -> str: ...

    @property
    def kinds(self) -> tuple[Kind, ...]: ...


def rules_page(
    families: Sequence[Family], facts: Mapping[str, Sequence[str]], examples: Mapping[str, str]
) -> str:
    """`facts`: by rule, names of facts of parts. `examples`: by kind, a finding as printed. The page ends in a line break."""
    blocks = [_TOP, _contents(families)]
    for family in families:
        blocks.append(f"## {_heading(family.title)}\n")
        blocks += [_kind(kind, facts.get(kind.id, ()), examples.get(kind.id, "")) for kind in family.kinds]
    return "\n".join(blocks)


def _contents(families: Sequence[Family]) -> str:
    """One table: each kind with its level and what it checks."""
    lines = ["| kind | level | what it is about |", "|---|---|---|"]
    for family in families:
        lines.append(f"| **{_prose(family.title)}** | | |")
        lines += [
            f"| [{kind.id}](#{kind.id}) | {kind.level.value} | {_prose(kind.summary)} |"
            for kind in family.kinds
        ]
    return "".join(f"{line}\n" for line in lines)


def _kind(kind: Kind, facts: Sequence[str], example: str) -> str:
    said = help_headings(kind)
    lines = [f"### {kind.id}\n", f"{kind.level.value}: {_prose(kind.summary)}\n"]
    lines += [f"- **{heading}**: {_prose(said[heading])}\n" for heading in _ORDER if heading in said]
    if facts:
        lines.append(f"- **Facts of a part it needs**: {', '.join(f'`{fact}`' for fact in sorted(facts))}\n")
    lines.append(f"- **Basis**: {_prose(str(kind.basis))}\n")
    lines += [f"\n```text\n{text}\n```\n" for text in _blocks(said, example)]
    return lines[0] + "\n" + lines[1] + "\n" + "".join(lines[2:])


def _blocks(said: Mapping[str, str], example: str) -> Iterator[str]:
    """What the help writes as an example of a plan, and a finding as printed."""
    yield from filter(None, (said.get("Example", "").rstrip(), example.rstrip()))


def _heading(title: str) -> str:
    return _prose(title[:1].upper() + title[1:])


def _prose(text: str) -> str:
    """A text of ours as Markdown that shows it: no markup but its `code`."""
    pieces = _CODE.split(text)
    return "".join(
        piece if number % 2 else _MARKUP.sub(r"\\\1", piece) for number, piece in enumerate(pieces)
    )
