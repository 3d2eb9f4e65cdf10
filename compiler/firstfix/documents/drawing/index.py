"""drawings/index.md: what is on which sheet, a line each, in the order of the set. Takes the set; gives Markdown."""

from collections.abc import Sequence

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.markdown import inline

_LONGEST = 140


def index_markdown(build: Build, drawings: Sequence[Drawing]) -> str:
    """Each sheet with its title and how it begins in words; sheets of one group follow each other."""
    count = f"{len(drawings)} sheet{'' if len(drawings) == 1 else 's'}"
    lines = [
        f"# Drawings of {inline(build.name)}",
        "",
        f"{count}, each as SVG and PNG; `../drawings.pdf` has them all, a page each.",
        "",
    ]
    lines += [
        f"- [{each.name}]({each.name}.svg): **{inline(each.title)}**. {inline(_start(each))}"
        for each in drawings
    ]
    return "\n".join(lines) + "\n"


def _start(drawing: Drawing) -> str:
    """As many whole words of its description as make a line."""
    words = font.clean(drawing.alt, _LONGEST + 1)
    if len(words) <= _LONGEST:
        return words
    return words[:_LONGEST].rpartition(" ")[0].rstrip(" ,;:.") + " …"
