"""Which bridges carry a VLAN, on which of their jacks: a row of squares for each, and the same in words."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font, palette, svg
from firstfix.documents.drawing.kit.key import strip
from firstfix.documents.drawing.kit.palette import HAIR, INK, PAPER, QUIET, SMALL_SIZE, TEXT_SIZE
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.numbered import WIDEST, Block
from firstfix.documents.drawing.vlans.words import jack_names
from firstfix.graphs.vlan_view import Carrier, VlanView

UNTAGGED, TAGGED, OUTSIDE = "untagged", "tagged", "not in it"
_NAMES = 118.0
_HIGH, _LEAST, _GAP = 13.0, 13.0, 1.5


def carriers(build: Build, view: VlanView) -> tuple[Block, ...]:
    """A block for each bridge, the first with a head, the last followed by the meaning of the squares."""
    if not view.carriers:
        words = "No switch or gateway carries it."
        return (Block(Picture(svg.text(4, 10, words, TEXT_SIZE, colour=QUIET), WIDEST, 14), words),)
    return (_head(), *(_carrier(build, each) for each in view.carriers), _meaning())


def _head() -> Block:
    words = "Carried by these bridges, on these jacks"
    return Block(Picture(svg.text(4, 9, words, SMALL_SIZE, is_bold=True, colour=QUIET), WIDEST, 13), "")


def _carrier(build: Build, carrier: Carrier) -> Block:
    bridge = build.devices[carrier.bridge]
    room = build.rooms.get(bridge.room)
    said = _said(build, carrier)
    squares, high = _squares(build, carrier)
    parts = [
        svg.hair(0, 0, WIDEST, 0),
        svg.text(4, 11.5, bridge.name, TEXT_SIZE, is_bold=True, room=_NAMES - 8),
        svg.text(4, 21, room.name if room else "room not known", SMALL_SIZE, colour=QUIET, room=_NAMES - 8),
        svg.element("g", squares, transform=f"translate({svg.number(_NAMES)} 3)"),
        svg.text(_NAMES, high + 13, said, SMALL_SIZE, colour=QUIET, room=WIDEST - _NAMES - 4),
    ]
    words = f"{bridge.name} carries it {said}."
    return Block(Picture(svg.group(words, *parts), WIDEST, max(25.0, high + 17)), words)


def _said(build: Build, carrier: Carrier) -> str:
    said = []
    if carrier.untagged:
        said.append(f"untagged on {jack_names(build, carrier.untagged)}")
    if carrier.tagged:
        said.append(f"tagged on {jack_names(build, carrier.tagged)}")
    return "; ".join(said)


def _squares(build: Build, carrier: Carrier) -> tuple[str, float]:
    """All jacks of the bridge in their order, in as many lines as they take; and how high that is."""
    untagged, tagged = frozenset(carrier.untagged), frozenset(carrier.tagged)
    parts: list[str] = []
    x, y = 0.0, 0.0
    for jack in build.jacks_of[carrier.bridge]:
        state = UNTAGGED if jack in untagged else TAGGED if jack in tagged else OUTSIDE
        name = build.jacks[jack].name
        width = max(_LEAST, font.width(font.clean(name), SMALL_SIZE, True) + 4)
        width = min(width, 60.0)
        if x and x + width > WIDEST - _NAMES - 4:
            x, y = 0.0, y + _HIGH + _GAP
        parts.append(square(x, y, width, name, state))
        x += width + _GAP
    return "".join(parts), y + _HIGH


def square(x: float, y: float, width: float, name: str, state: str) -> str:
    """Untagged: filled. Tagged: white in a heavy frame, with a bar below its number. Not in it: a thin empty frame."""
    colour = {UNTAGGED: PAPER, TAGGED: INK}.get(state, QUIET)
    if state == UNTAGGED:
        body = svg.rect(x, y, width, _HIGH, fill=palette.VLAN, stroke=INK, weight=0.6)
    elif state == TAGGED:
        body = svg.rect(
            x + 0.6, y + 0.6, width - 1.2, _HIGH - 1.2, fill=PAPER, stroke=palette.VLAN, weight=1.4
        )
        body += svg.rect(x, y + _HIGH - 2, width, 2, fill=palette.VLAN)
    else:
        body = svg.rect(x, y, width, _HIGH, fill=PAPER, stroke=HAIR, weight=0.4)
    return body + svg.text(
        x + width / 2, y + 8.6, name, SMALL_SIZE, is_bold=state != OUTSIDE, colour=colour, anchor="middle",
        room=width - 1,
    )  # fmt: skip


def _meaning() -> Block:
    samples = [
        (square(0, 2, 14, "1", UNTAGGED), 14.0, "jack, untagged in it: for a device that knows no tags"),
        (square(0, 2, 14, "2", TAGGED), 14.0, "jack, tagged: frames carry the VLAN's number (IEEE 802.1Q)"),
        (square(0, 2, 14, "3", OUTSIDE), 14.0, "jack that is not in it"),
    ]
    return Block(strip(samples, WIDEST), "")
