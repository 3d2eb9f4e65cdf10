"""The sheet of the mains: the tree from each supply to each device, with watts, limits and what is left. Takes a build; gives drawings."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.palette import HAIR, INK, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.numbered import GAP, TALLEST, WIDEST, Block, contents_of, numbered
from firstfix.documents.drawing.power.figures import bar, share, watts_of
from firstfix.documents.drawing.power.mains_rows import TreeRow, tree_rows
from firstfix.graphs.mains_tree import mains_tree, unfed

_ROW, _HEADS = 14.0, 13.0
_STEP, _ELBOW = 13.0, 9.0
_NAMES, _WHAT, _WATTS, _LIMIT, _LEFT = 178.0, 226.0, 56.0, 48.0, 50.0
_BAR = WIDEST - _NAMES - _WHAT - 3 * _WATTS - _LIMIT - _LEFT
_ALSO = "also holds"
CAUTION = (
    "Fixed wiring, circuits, outlets and earthing are work for a licensed electrician, under the local code.",
    "These figures are for planning; what else hangs on a circuit is not in the plan: leave room for it.",
)


def mains_drawings(build: Build) -> tuple[Drawing, ...]:
    """`mains`, or `mains-1` and so on; none for a build in which nothing is plugged in."""
    rows = tree_rows(build)
    if not rows:
        return ()
    foot = _foot(build)
    lots = _split(rows, TALLEST - foot.picture.height - GAP)
    sheets = [
        [_block(lot, f"{lot[0].path} (continued)" if number else "")] for number, lot in enumerate(lots)
    ]
    for sheet in sheets:
        sheet.append(foot)
    fed = len({node.id for node in mains_tree(build) if node.kind == "device"})
    under = f"{fed} devices on the mains; watts with what they hand on by PoE"
    return numbered("mains", f"Mains of {build.name}", contents_of(sheets, under))


def _split(rows: tuple[TreeRow, ...], tallest: float) -> list[tuple[TreeRow, ...]]:
    most = max(8, int((tallest - _HEADS - _ROW) // _ROW))
    lots: list[tuple[TreeRow, ...]] = []
    start = 0
    while start < len(rows):
        end = min(len(rows), start + most)
        # A branch doesn't stand last on a sheet, away from what hangs on it.
        while end < len(rows) and end - start > most // 2 and rows[end - 1].is_branch:
            end -= 1
        lots.append(rows[start:end])
        start = end
    return lots


def _block(rows: tuple[TreeRow, ...], path: str) -> Block:
    top = _HEADS
    parts = [_heads()]
    if path:
        parts.append(svg.text(4, top + 10, path, SMALL_SIZE, colour=QUIET, room=WIDEST - 8))
        top += _ROW
    for row in rows:
        parts.append(svg.group(row.hint, *_draw(row, top)))
        top += _ROW
    parts.append(svg.hair(0, top, WIDEST, top))
    return Block(Picture("".join(parts), WIDEST, top + 1), " ".join(f"{row.hint}." for row in rows))


def _heads() -> str:
    x = _NAMES + _WHAT
    parts = [_head(4, "From the supply to each device"), _head(_NAMES, "What it is, where it is plugged in")]
    for words in ("least", "usual", "most"):
        x += _WATTS
        parts.append(_head(x - 4, words, "end"))
    parts.append(_head(x + _LIMIT - 4, "carries", "end"))
    parts.append(_head(x + _LIMIT + _LEFT - 4, "left", "end"))
    return "".join(parts)


def _head(x: float, words: str, anchor: str = "") -> str:
    return svg.text(x, 9, words, SMALL_SIZE, is_bold=True, colour=QUIET, anchor=anchor)


def _draw(row: TreeRow, top: float) -> list[str]:
    base = top + 10
    tint = palette.BAND if row.depth == 0 else palette.FIELD if row.is_held else ""
    parts = [svg.rect(0, top, WIDEST, _ROW, fill=tint)] if tint else []
    parts.append(svg.hair(0, top, WIDEST, top))
    parts.append(_elbows(row, top))
    left = 4 + row.depth * _STEP
    if row.is_held:
        parts.append(svg.rect(0, top, 2.4, _ROW, fill=palette.KEPT))
    if row.load is None:
        name_wide = font.width(_ALSO if row.is_more else row.name, SMALL_SIZE) + 6
        parts += [
            svg.text(left, base, row.name, SMALL_SIZE, colour=palette.KEPT),
            svg.text(left + name_wide, base, row.remark, SMALL_SIZE, room=WIDEST - left - name_wide - 8),
        ]
        return parts
    parts += [
        svg.text(left, base, row.name, TEXT_SIZE, is_bold=True, room=_NAMES - left - 6),
        svg.text(_NAMES, base, row.what, SMALL_SIZE, colour=QUIET, room=_WHAT - 4),
    ]
    return parts + _figures(row, top, base)


def _figures(row: TreeRow, top: float, base: float) -> list[str]:
    x = _NAMES + _WHAT
    parts = []
    for words, is_bold in zip(row.watts, (False, row.is_branch, row.is_branch), strict=True):
        x += _WATTS
        parts.append(svg.text(x - 4, base, words, TEXT_SIZE, is_bold=is_bold, anchor="end", room=_WATTS - 4))
    if row.load is None or row.limit is None or row.left is None:
        return parts
    is_over = row.left < 0 and row.left != float("-inf")
    colour = palette.ALARM if is_over else INK
    return [
        *parts,
        svg.text(x + _LIMIT - 4, base, watts_of(row.limit.most), TEXT_SIZE, anchor="end", room=_LIMIT - 6),
        svg.text(
            x + _LIMIT + _LEFT - 4, base, row.left_words, TEXT_SIZE, is_bold=True, colour=colour, anchor="end",
            room=_LEFT - 4,
        ),
        bar(
            x + _LIMIT + _LEFT + 2, top + 4, _BAR - 8, 6.5, share(row.load.usual, row.limit.most),
            share(row.load.most, row.limit.most),
        ),
    ]  # fmt: skip


def _elbows(row: TreeRow, top: float) -> str:
    """Lines from what it hangs on: down beside what is still to come, and a short one to its own name."""
    stroke = palette.Stroke(HAIR, 0.9)
    parts = []
    for level in range(1, row.depth + 1):
        x = 4 + (level - 1) * _STEP + 3
        if level == row.depth:
            bottom = top + _ROW / 2 if row.is_last[level] else top + _ROW
            if not (row.is_more and row.is_last[level]):
                parts.append(svg.line(x, top, x, bottom, stroke))
            if not row.is_more:
                parts.append(svg.line(x, top + _ROW / 2, x + _ELBOW, top + _ROW / 2, stroke))
        elif not row.is_last[level]:
            parts.append(svg.line(x, top, x, top + _ROW, stroke))
    return "".join(parts)


def _foot(build: Build) -> Block:
    """What the marks mean, what is fed by nothing, and the caution."""
    rows = tree_rows(build)
    samples = [
        (bar(0, 4, 30, 6.5, 0.4, 0.75), 30.0, "of what it carries: filled as usual, lines to the most")
    ]
    if any(row.is_held for row in rows):
        held = svg.rect(0, 2, 16, 12, fill=palette.FIELD) + svg.rect(0, 2, 2.4, 12, fill=palette.KEPT)
        samples.append((held, 16.0, "stays up on the UPS above when the mains goes"))
    key = strip(samples, WIDEST)
    lines = [*_not_known(build), *CAUTION]
    dark = unfed(build)
    if dark:
        lines.insert(0, f"Fed by nothing that the plan tells of: {', '.join(each.name for each in dark)}.")
    parts = [key.markup]
    wrapped = [part for line in lines for part in font.wrap(line, WIDEST - 8, SMALL_SIZE, 2)]
    for index, line in enumerate(wrapped):
        parts.append(svg.text(4, key.height + 9 + index * 9.5, line, SMALL_SIZE, room=WIDEST - 8))
    return Block(Picture("".join(parts), WIDEST, key.height + 4 + len(wrapped) * 9.5), " ".join(lines))


def _not_known(build: Build) -> list[str]:
    missing = list(dict.fromkeys(each for node in mains_tree(build) for each in node.missing))
    return [f"Where ? W stands, this is not known: {'; '.join(missing)}."] if missing else []
