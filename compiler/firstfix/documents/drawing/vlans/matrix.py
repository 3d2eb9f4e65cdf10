"""The overview of VLANs: a row for each with its figures, and in which columns it may open connections."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.palette import HAIR, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import WIDEST, Block
from firstfix.documents.drawing.vlans.words import BEYOND, and_so, numbered_name, titled
from firstfix.graphs.vlan_view import VlanView

_ROW = 17.0
_HEAD = 34.0
_NAMES, _SUBNET, _COUNT, _WAVES = 114.0, 88.0, 48.0, 100.0
_LEFT = _NAMES + _SUBNET + _COUNT + _WAVES
_CELL_LEAST, _CELL_MOST = 37.0, 64.0
COLUMNS = int((WIDEST - _LEFT) // _CELL_LEAST)


def matrix(build: Build, views: tuple[VlanView, ...], targets: tuple[str, ...]) -> Block:
    """Of these VLANs, towards these targets, at most COLUMNS of them."""
    width = min(_CELL_MOST, (WIDEST - _LEFT) / max(1, len(targets)))
    parts = [_heads(build, targets, width)]
    for index, view in enumerate(views):
        parts.append(_row(view, targets, width, _HEAD + index * _ROW))
    bottom = _HEAD + len(views) * _ROW
    right = _LEFT + width * len(targets)
    parts.append(svg.hair(0, bottom, right, bottom))
    words = " ".join(
        f"{titled(view.vlan)}, {view.vlan.subnet or 'no subnet'}, may reach"
        f" {and_so((numbered_name(build, each) for each in view.reaches if each in targets), 'nothing of this')}."
        for view in views
    )
    return Block(Picture("".join(parts), right, bottom + 2), words)


def meaning() -> Block:
    samples = [
        (mark(8, 8, True), 16.0, "the VLAN of the row may open connections to what the column names"),
        (mark(8, 8, False), 16.0, "it may not"),
        (_own(0, 2, 16, 12), 16.0, "the same VLAN"),
    ]
    return Block(strip(samples, WIDEST), "")


def targets_of(views: tuple[VlanView, ...]) -> tuple[str, ...]:
    """All VLANs by number, then what lies beyond that any of them may reach."""
    beyond = [name for name in BEYOND if any(name in view.reaches for view in views)]
    return (*(view.vlan.name for view in views), *beyond)


def _heads(build: Build, targets: tuple[str, ...], width: float) -> str:
    x = 0.0
    parts = []
    for wide, words in ((_NAMES, "From"), (_SUBNET, "Subnet"), (_COUNT, "Members"), (_WAVES, "Wireless")):
        parts.append(svg.text(x + 4, _HEAD - 5, words, SMALL_SIZE, is_bold=True, colour=QUIET, room=wide - 8))
        x += wide
    parts.append(svg.text(x + 2, 7, "may reach", SMALL_SIZE, is_bold=True, colour=QUIET))
    for target in targets:
        lines = font.wrap(numbered_name(build, target).removeprefix("the "), width - 3, SMALL_SIZE, 2)
        for index, line in enumerate(lines):
            base = _HEAD - 5 - 8.5 * (len(lines) - 1 - index)
            parts.append(svg.text(x + width / 2, base, line, SMALL_SIZE, anchor="middle"))
        x += width
    return "".join(parts)


def _row(view: VlanView, targets: tuple[str, ...], width: float, top: float) -> str:
    vlan, base = view.vlan, top + 11.5
    waves = ", ".join(ssid for _, ssid in view.wireless)
    right = _LEFT + width * len(targets)
    parts = [
        svg.hair(0, top, right, top),
        svg.text(4, base, f"{vlan.vid} {vlan.name}", TEXT_SIZE, is_bold=True, room=_NAMES - 8),
        svg.text(_NAMES + 4, base, vlan.subnet or "none", TEXT_SIZE, room=_SUBNET - 8),
        svg.text(_NAMES + _SUBNET + _COUNT - 12, base, str(len(view.members)), TEXT_SIZE, anchor="end"),
        svg.text(_LEFT - _WAVES + 4, base, waves or "–", SMALL_SIZE, colour=QUIET, room=_WAVES - 8),
    ]
    for index, target in enumerate(targets):
        x = _LEFT + index * width
        if target == vlan.name:
            parts.append(_own(x, top, width, _ROW))
        else:
            parts.append(mark(x + width / 2, top + _ROW / 2, target in view.reaches))
    return svg.group(titled(vlan), *parts)


def mark(x: float, y: float, may: bool) -> str:
    """A square with an arrow for yes, a short dash for no: two shapes, whatever their colours."""
    if not may:
        return svg.hair(x - 3, y, x + 3, y)
    n = svg.number
    arrow = f"M{n(x - 4)} {n(y)}H{n(x + 3)}M{n(x)} {n(y - 2.8)}L{n(x + 3.4)} {n(y)}L{n(x)} {n(y + 2.8)}"
    return svg.rect(x - 7, y - 5.5, 14, 11, fill=palette.VLAN) + svg.path(arrow, palette.Stroke(PAPER, 1.3))


def _own(x: float, y: float, width: float, height: float) -> str:
    return svg.rect(x + 0.5, y + 0.5, width - 1, height - 1, fill=palette.FIELD, stroke=HAIR, weight=0.4)
