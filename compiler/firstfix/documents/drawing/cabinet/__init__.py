"""Cabinets to scale, from the front and from behind, with the list of what stands in them and what is in each jack."""

from firstfix.documents.drawing.cabinet.sheets import cabinet_drawings, one_cabinet

__all__ = ["cabinet_drawings", "one_cabinet"]
