"""Drawings of a build as SVG: the network, and each cabinet's front. Takes a build; gives text, and PNG bytes of it."""

from firstfix.documents.drawing.cabinet.elevation import cabinet_elevation
from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.drawings import network_drawing, network_drawings

__all__ = ["Drawing", "cabinet_elevation", "network_drawing", "network_drawings", "png"]
