"""Sheets of a change: what is new, gone and moved from one build to another; the network, the cabinets, and a list of the rest."""

from firstfix.documents.drawing.change.sheets import change_drawings

__all__ = ["change_drawings"]
