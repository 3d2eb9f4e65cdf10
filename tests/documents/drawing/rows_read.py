"""Words of a sheet put together again as one sees them: those that stand on one line, from left to right."""

from documents.drawing.reading import texts


def lines(svg: str) -> list[list[str]]:
    """Texts by the line they stand on, lines from the top down; a line is what stands within a point of height."""
    found: list[tuple[float, list[tuple[float, str]]]] = []
    for box in sorted(texts(svg), key=lambda box: (box.bottom - 0.24 * box.size, box.left)):
        base = box.bottom - 0.24 * box.size
        if found and abs(found[-1][0] - base) < 1:
            found[-1][1].append((box.left, box.words))
        else:
            found.append((base, [(box.left, box.words)]))
    return [[words for _, words in sorted(line)] for _, line in found]


def line_with(svgs: list[str], *words: str) -> list[str]:
    """The first line of these sheets in which all of the words stand."""
    return next(line for svg in svgs for line in lines(svg) if set(words) <= set(line))
