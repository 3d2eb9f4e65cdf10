"""The head of a VLAN's sheet: its figures at the left, and at the right who may reach it and whom it may reach, as arrows."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.palette import (
    INK,
    NAME_SIZE,
    OUTLINE,
    PAPER,
    QUIET,
    SMALL_SIZE,
    TEXT_SIZE,
    Stroke,
)
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import GAP, WIDEST, Block
from firstfix.documents.drawing.vlans.words import and_so, numbered_name, titled
from firstfix.graphs.vlan_view import VlanView

_FACTS = 270.0
_LABEL = 62.0
_LINE = 13.0
_BOX, _STEP, _SPACE = 17.0, 21.0, 46.0
_REACH = Stroke(palette.VLAN, 1.4)


def facts(build: Build, view: VlanView) -> Block:
    """One block as wide as a sheet."""
    left, right = _figures(view), _reaches(build, view)
    height = max(left.height, right.height)
    moved = svg.element(
        "g",
        right.markup,
        transform=f"translate({svg.number(_FACTS)} {svg.number(max(0.0, (height - right.height) / 2))})",
    )
    return Block(Picture(left.markup + moved, WIDEST, height + GAP), _in_words(build, view))


def _figures(view: VlanView) -> Picture:
    vlan = view.vlan
    lent = f"{vlan.leases[0]} to {vlan.leases[1]}" if all(vlan.leases) else "none"
    pairs = [
        ("number", str(vlan.vid) if vlan.vid else "not said"),
        ("subnet", vlan.subnet or "none"),
        ("gateway", vlan.gateway or "none"),
        ("lent (DHCP)", lent),
        ("members", str(len(view.members))),
    ]
    pairs += [("wireless", f"{ssid} ({name})") for name, ssid in view.wireless] or [("wireless", "none")]
    parts = []
    for index, (label, value) in enumerate(pairs):
        base = 10 + index * _LINE
        parts.append(svg.text(4, base, label, SMALL_SIZE, colour=QUIET))
        parts.append(
            svg.text(4 + _LABEL, base, value, TEXT_SIZE, is_bold=index < 3, room=_FACTS - _LABEL - 20)
        )
    return Picture("".join(parts), _FACTS, len(pairs) * _LINE)


def _reaches(build: Build, view: VlanView) -> Picture:
    """Boxes of those that may open connections to it, its own, and those of what it may open connections to."""
    room = WIDEST - _FACTS
    wide = (room - 2 * _SPACE) / 3
    by, to = view.reached_by, view.reaches
    height = max(len(by), len(to), 1) * _STEP + 14
    middle = 14 + (height - 14) / 2
    centre = wide + _SPACE
    parts = [
        _head(0, "may be reached from"),
        _head(2 * (wide + _SPACE), "may reach"),
        _box(centre, middle - _BOX / 2 - 2, wide, titled(view.vlan), True),
    ]
    for column, names, x in ((0, by, 0.0), (1, to, 2 * (wide + _SPACE))):
        first = middle - len(names) * _STEP / 2
        if not names:
            parts.append(
                svg.text(
                    x + wide / 2, middle + 1, "nothing outside it", TEXT_SIZE, colour=QUIET, anchor="middle"
                )
            )
        for index, name in enumerate(names):
            y = first + index * _STEP
            parts.append(_box(x, y, wide, numbered_name(build, name), False))
            ends = (wide, y + _BOX / 2, centre, middle - 2)
            back = (centre + wide, middle - 2, x, y + _BOX / 2)
            parts.append(_arrow(*(back if column else ends)))
    return Picture("".join(parts), room, height)


def _head(x: float, words: str) -> str:
    return svg.text(x, 8, words, SMALL_SIZE, is_bold=True, colour=QUIET)


def _box(x: float, y: float, width: float, words: str, is_own: bool) -> str:
    size = NAME_SIZE if is_own else TEXT_SIZE
    fill, colour = (palette.VLAN, PAPER) if is_own else (palette.FIELD, INK)
    high = _BOX + 4 if is_own else _BOX
    shown = font.clip(words, width - 8, size, True)
    return svg.group(
        words,
        svg.rect(x, y, width, high, fill=fill, stroke=INK, weight=OUTLINE if is_own else 0.6),
        svg.text(
            x + width / 2,
            y + high / 2 + size * 0.35,
            shown,
            size,
            is_bold=True,
            colour=colour,
            anchor="middle",
        ),
    )


def _arrow(x1: float, y1: float, x2: float, y2: float) -> str:
    """From the one that opens the connection; bent once, with the point at (x2, y2)."""
    n = svg.number
    half = (x1 + x2) / 2
    head = svg.element(
        "path", d=f"M{n(x2 - 6)} {n(y2 - 3)}L{n(x2)} {n(y2)}L{n(x2 - 6)} {n(y2 + 3)}Z", fill=_REACH.colour
    )
    return svg.path(f"M{n(x1)} {n(y1)}H{n(half)}V{n(y2)}H{n(x2 - 5)}", _REACH) + head


def _in_words(build: Build, view: VlanView) -> str:
    vlan = view.vlan
    lent = f"lends {vlan.leases[0]} to {vlan.leases[1]}" if all(vlan.leases) else "lends no addresses"
    to = and_so((numbered_name(build, each) for each in view.reaches), "nothing outside it")
    by = and_so((numbered_name(build, each) for each in view.reached_by), "nothing outside it")
    waves = "".join(f" Wireless network {ssid} ({name}) is on it." for name, ssid in view.wireless)
    return (
        f"{titled(vlan)}: subnet {vlan.subnet or 'none'}, gateway {vlan.gateway or 'none'}, {lent}."
        f" It may reach {to}; it may be reached from {by}.{waves}"
    )
