"""One run from end to end: a strip of everything that a channel passes, each piece of cable between, and what is lost along it."""

from firstfix.documents.drawing.run.sheets import run_drawings

__all__ = ["run_drawings"]
