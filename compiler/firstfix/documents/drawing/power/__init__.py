"""Sheets of power: `mains`, from the supply to each device, and `poe`, from each source to what it feeds."""

from firstfix.documents.drawing.power.mains import mains_drawings
from firstfix.documents.drawing.power.poe import poe_drawings

__all__ = ["mains_drawings", "poe_drawings"]
