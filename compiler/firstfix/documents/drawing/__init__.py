"""Drawings of a build as SVG: the network, and each cabinet's front. Takes a build; gives text, and PNG bytes of it."""

from firstfix.documents.drawing.elevation import cabinet_elevation
from firstfix.documents.drawing.kit import Drawing
from firstfix.documents.drawing.network import network_drawing, network_drawings
from firstfix.documents.drawing.raster import png

__all__ = ["Drawing", "cabinet_elevation", "network_drawing", "network_drawings", "png"]
