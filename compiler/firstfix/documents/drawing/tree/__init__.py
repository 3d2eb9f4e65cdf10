"""The sheet of the predicted spanning tree: `tree`, in as many parts as it takes."""

from firstfix.documents.drawing.tree.sheets import tree_drawings

__all__ = ["tree_drawings"]
