"""The sheets of a change as files: SVG and PNG of each, all of them as one PDF, and the graph as DOT source."""

from collections.abc import Mapping

from firstfix.build.model import Build
from firstfix.compare.changes import Changes
from firstfix.documents.drawing.bound import bound
from firstfix.documents.drawing.change.sheets import change_drawings
from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.drawing.set import dressed

FOLDER = "drawings"


def change_files(
    old: Build, new: Build, changes: Changes, is_draft: bool = False
) -> tuple[Mapping[str, bytes], Mapping[str, str]]:
    """Files by their paths, in the new plan's looks; and of each picture to be shown its path with what it says in words.

    Both empty where nothing changes.
    """
    drawings = dressed(new, change_drawings(old, new, changes), is_draft=is_draft)
    files: dict[str, bytes] = {}
    for drawing in drawings:
        svg = drawing.svg
        files[f"{FOLDER}/{drawing.name}.svg"] = svg.encode()
        files[f"{FOLDER}/{drawing.name}.png"] = png(svg)
        if drawing.dot:
            files[f"{FOLDER}/change.dot"] = drawing.dot.encode()
    if drawings:
        files["change.pdf"] = bound(new, drawings)
    return files, {f"{FOLDER}/{drawing.name}.svg": drawing.alt for drawing in drawings}
