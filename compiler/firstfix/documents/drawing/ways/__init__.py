"""The ways between rooms as a graph and as a list: what runs in each, and how full it is."""

from firstfix.documents.drawing.ways.sheets import way_drawings

__all__ = ["way_drawings"]
