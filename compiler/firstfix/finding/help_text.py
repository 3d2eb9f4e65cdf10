"""The help of a kind of finding as plain lines, for `explain` and for formats that carry it along. Leaf."""

import textwrap

from firstfix.finding.kinds import Kind


def help_text(kind: Kind) -> str:
    """Summary, an empty line, the headings, and the basis. Written as a docstring, its indent is taken off."""
    summary, _, rest = kind.help.strip().partition("\n")
    headings = textwrap.dedent(rest).strip("\n")
    return "\n".join([summary.strip(), *(["", headings] if headings else []), f"Basis: {kind.basis}"])
