"""`rooms:` of a site or building: the storey, what is at hand in a room, and its shape where somebody measured it."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import RoomSpec, Written
from firstfix.plan.read_labels import own_label
from firstfix.plan.series import SeriesReader
from firstfix.source.fields import Fields
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe
from firstfix.units import LENGTH, TEMPERATURE, Dimension, QuantityFault, parse_quantity

_ROOM_KEYS = (
    "floor", "outdoors", "drop", "mains", "circuit", "size", "position", "walls", "ambient", "label", "was", "note",
)  # fmt: skip
SIDES = ("north", "east", "south", "west", "ceiling", "ground")
# What builders call it. Those of ITU-R P.2040-3, table 3 (from memory), come first; the others are near one of them or several.
WALL_MATERIALS = (
    "concrete", "brick", "plasterboard", "wood", "glass", "chipboard", "plywood", "marble", "metal",
    "reinforced-concrete", "aerated-block", "hollow-block", "stone", "clay", "coated-glass", "insulated-metal", "open",
)  # fmt: skip
# A hall, and a storey of it: what is larger is a slip of the unit.
_LONGEST_SIDE = 500.0
_FARTHEST = 20_000.0
_COLDEST, _HOTTEST = -60.0, 90.0


def read_rooms(holder: Fields, series: SeriesReader, faults: Collector) -> Iterator[RoomSpec]:
    for name, key, node in series.named(holder, "rooms"):
        room = Fields(node, faults, f"the room '{clip(key.text)}'", _ROOM_KEYS)
        yield RoomSpec(
            name,
            room.integer("floor", -9, 200) or 0,
            room.flag("outdoors") or False,
            room.quantity("drop", LENGTH, 0, 200),
            room.integer("mains", 0, 500),
            _size(room),
            _position(room),
            _walls(room, faults),
            _ambient(room),
            Written(key, node),
            room.text("circuit") or "",
            own_label(room),
        )


def _size(room: Fields) -> tuple[float, float, float | None] | None:
    """`4.2 m x 3.1 m x 2.4 m`: east to west, south to north, height; the last may be left out. One unit at the end serves all."""
    node = room.value("size")
    if node is None:
        return None
    texts = node.text.replace("×", " x ").split(" x ") if isinstance(node, Scalar) else []
    figures = _figures(texts, LENGTH)
    if (
        figures is None
        or not 2 <= len(figures) <= 3
        or not all(0 < each <= _LONGEST_SIDE for each in figures)
    ):
        room.wrong(
            node,
            f"'size' is such as '4.2 m x 3.1 m x 2.4 m' (east to west, south to north, height), not {describe(node)}",
        )
        return None
    return figures[0], figures[1], figures[2] if len(figures) == 3 else None


def _position(room: Fields) -> tuple[float, float] | None:
    """`[12 m, 4.5 m]`: east and north of the site's own corner, of the room's south-west corner."""
    node = room.value("position")
    if node is None:
        return None
    items = node.items if isinstance(node, Sequence) else []
    figures = _figures([each.text for each in items if isinstance(each, Scalar)], LENGTH)
    if figures is None or len(items) != 2 or len(figures) != 2 or max(map(abs, figures)) > _FARTHEST:
        room.wrong(
            node,
            f"'position' is such as [12 m, 4.5 m]: how far east and north of the site's corner, not {describe(node)}",
        )
        return None
    return figures[0], figures[1]


def _walls(room: Fields, faults: Collector) -> tuple[tuple[str, str], ...]:
    """`brick` for all four walls, or by side: `{north: brick, east: glass, ceiling: wood}`."""
    node = room.value("walls")
    if isinstance(node, Mapping):
        walls = room.below("walls", "'walls'", SIDES)
        assert walls is not None
        sides = ((side, walls.choice(side, WALL_MATERIALS)) for side in SIDES)
        return tuple((side, material) for side, material in sides if material)
    material = None if node is None else _material(room, node, faults)
    return tuple((side, material) for side in SIDES[:4]) if material else ()


def _material(room: Fields, node: Node, faults: Collector) -> str | None:
    if isinstance(node, Scalar) and node.text in WALL_MATERIALS:
        return node.text
    hint = did_you_mean(node.text, WALL_MATERIALS) if isinstance(node, Scalar) and faults.may_hint() else ""
    listed = ", ".join(f"'{each}'" for each in WALL_MATERIALS)
    room.wrong(
        node,
        f"'walls' is one of {listed}, or a table of sides ({', '.join(SIDES)}), not {describe(node)}{hint}",
    )
    return None


def _ambient(room: Fields) -> tuple[float, float] | None:
    """`22 °C`, or from the coldest to the warmest day, `5 °C to 38 °C`."""
    node = room.value("ambient")
    if node is None:
        return None
    figures = _figures(node.text.split(" to "), TEMPERATURE) if isinstance(node, Scalar) else None
    if (
        figures is None
        or len(figures) > 2
        or figures[0] > figures[-1]
        or not all(_COLDEST <= each <= _HOTTEST for each in figures)
    ):
        room.wrong(node, f"'ambient' is such as '22 °C' or '5 °C to 38 °C', not {describe(node)}")
        return None
    return figures[0], figures[-1]


def _figures(texts: list[str], dimension: Dimension) -> list[float] | None:
    """The quantities in base units; a text without a unit has the one that the last text has. None where one is no quantity."""
    if not texts:
        return None
    unit = texts[-1].strip().lstrip("+-0123456789. ")
    found: list[float] = []
    for text in texts:
        value = parse_quantity(text, dimension)
        if isinstance(value, QuantityFault):
            value = parse_quantity(f"{text.strip()} {unit}", dimension)
        if isinstance(value, QuantityFault):
            return None
        found.append(value)
    return found
