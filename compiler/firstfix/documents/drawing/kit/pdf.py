"""SVG to PDF, a page each: lines stay lines, text stays text in the shipped font, and every page says in words what is on it."""

from collections.abc import Sequence

from firstfix.documents.drawing.kit.typeset import Leaf, typeset

__all__ = ["Leaf", "pdf"]


def pdf(leaves: Sequence[Leaf], title: str) -> bytes:
    """One PDF of all leaves, at least one; `title` is that of the document. The same bytes for the same leaves.

    Raises ValueError for what is no SVG.
    """
    return typeset(leaves, "pdf", title)[0]
