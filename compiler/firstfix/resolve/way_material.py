"""What the ways need that new cables take: the part that a way is made of, clips, glands, and what seals the holes.

A way that is `owned` is there, and only its holes are sealed again. One that names no material needs what holds and seals the
cables, no duct or trunking; the shopping list says so.
"""

import math
from collections import Counter
from collections.abc import Iterator, Mapping

from firstfix.build.cabling import Piece
from firstfix.build.hardware import TO_BUY, Item
from firstfix.build.places import Room, Way
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Library, Part
from firstfix.resolve.in_phases import PiecePhases, at
from firstfix.resolve.with_needs import with_needs

_WARNING_TAPE = "warning-tape"
_FIRE_STOP = "fire-stop-sealant"
_DUCT_SEAL = "duct-seal"
_CLIPPED = "clipped-outdoors"
_DIRECT_BURIAL = "direct-burial"


def way_items(
    ways: Mapping[str, Way],
    rooms: Mapping[str, Room],
    pieces: Mapping[str, Piece],
    library: Library,
    phased: PiecePhases,
) -> Iterator[Item]:
    """Of every way that a new cable takes; each item is needed by the way.

    What holds or seals a cable comes in the phase of that cable, the seal of a hole with the first that goes through.
    """
    found = _WayItems(rooms, library)
    for way_id, cables in sorted(_cables(pieces, phased.of).items()):
        in_order = {phase: cables[phase] for phase in phased.order.in_order(cables)}
        yield from found.of(ways[way_id], in_order)


def _cables(pieces: Mapping[str, Piece], phase_of: Mapping[str, str]) -> dict[str, dict[str, Counter[str]]]:
    """Way to phase to how many new cables of each part it takes. Many pieces share a route, so these are counted first."""
    routes = Counter(
        [
            (each.route, each.part, phase_of.get(each.id, ""))
            for each in pieces.values()
            if each.route and not each.is_owned
        ]
    )
    found: dict[str, dict[str, Counter[str]]] = {}
    for (route, part, phase), count in routes.items():
        for way in route:
            found.setdefault(way, {}).setdefault(phase, Counter())[part] += count
    return found


class _WayItems:
    def __init__(self, rooms: Mapping[str, Room], library: Library) -> None:
        self._rooms = rooms
        self._library = library
        self._known: dict[tuple[str, str], str] = {}

    def of(self, way: Way, cables: Mapping[str, Counter[str]]) -> Iterator[Item]:
        """`cables` by phase, in the order of the phases."""
        counted: dict[tuple[str, str], tuple[int, str]] = {}
        for phase, (name, count, why) in self._wanted(way, cables):
            before = counted.get((name, phase), (0, ""))[0]
            counted[name, phase] = (before + count, why)
        for (name, phase), (count, why) in counted.items():
            if count and name in self._library:
                item_id = f"item:way/{way.name}+{name}{at(phase, way.phase)}"
                item = Item(item_id, name, count, 0.0, way.ends[0], way.id, why, TO_BUY, phase)
                yield from with_needs(item, self._library)

    def _wanted(
        self, way: Way, cables: Mapping[str, Counter[str]]
    ) -> Iterator[tuple[str, tuple[str, int, str]]]:
        """Phase, and name, count and why."""
        if not way.is_owned:
            yield from ((way.phase, each) for each in self._itself(way))
            for phase, some in cables.items():
                yield from ((phase, each) for each in (*self._clips(way, some), *self._glands(way, some)))
        yield from ((next(iter(cables)), each) for each in self._seals(way))

    def _itself(self, way: Way) -> Iterator[tuple[str, int, str]]:
        """Its lengths and bends. What lies in the ground has tape above it: common practice, no source."""
        part = self._library[way.material] if way.material else None
        form = None if part is None else part.pathway
        if part is not None and form is not None and form.form != "clip":
            yield part.name, _lengths(way.length, form.length), "the way is made of it"
            bend = self._bend(part)
            if bend and isinstance(way.bends, Fact):
                yield bend, int(way.bends.typical), "turns the way"
        if way.exposure == "buried" and (way.kind == _DIRECT_BURIAL or way.material):
            tape = self._library.get(_WARNING_TAPE)
            if tape is not None and tape.pathway is not None:
                yield _WARNING_TAPE, _lengths(way.length, tape.pathway.length), "lies above it in the ground"

    def _bend(self, part: Part) -> str:
        """The cheapest bend that is as wide outside as the conduit, for the same place."""
        form = part.pathway
        fitting = (
            each
            for each in self._materials("bend")
            if form is not None
            and each.pathway is not None
            and each.pathway.outside == form.outside
            and each.exposure.place == part.exposure.place
        )
        return min(fitting, key=_price).name if form is not None and form.form == "conduit" else ""

    def _clips(self, way: Way, cables: Counter[str]) -> Iterator[tuple[str, int, str]]:
        chosen = self._library[way.material] if way.material else None
        is_chosen = chosen is not None and chosen.pathway is not None and chosen.pathway.form == "clip"
        if not is_chosen and way.kind != _CLIPPED:
            return
        for cable, count in sorted(cables.items()):
            name = way.material if is_chosen else self._holding("clip", cable)
            each = _spaced(way.length, self._library[name].spacing) if name else 0
            yield name, count * each, "holds its cables"

    def _seals(self, way: Way) -> Iterator[tuple[str, int, str]]:
        """A hole between rooms is stopped against fire, the end of a duct in a building against water and gas."""
        if way.exposure == "buried":
            yield _DUCT_SEAL, self._indoor_ends(way), "seals it where it comes into a building"
        elif not self._leads_outdoors(way):
            yield _FIRE_STOP, 1, "seals its hole through the wall or floor"

    def _glands(self, way: Way, cables: Counter[str]) -> Iterator[tuple[str, int, str]]:
        """Each cable that comes in from the open air has its own."""
        if way.exposure != "buried" and self._leads_outdoors(way):
            for cable, count in sorted(cables.items()):
                entries = count * self._indoor_ends(way)
                yield self._holding("gland", cable), entries, "guards its cables where they go outdoors"

    def _leads_outdoors(self, way: Way) -> bool:
        return way.exposure == "outdoor" or any(self._rooms[each].is_outdoors for each in way.ends)

    def _indoor_ends(self, way: Way) -> int:
        return sum(not self._rooms[each].is_outdoors for each in way.ends)

    def _holding(self, form: str, cable: str) -> str:
        """The cheapest clip or gland for outdoors that holds such a cable, or "" where the library has none."""
        key = (form, cable)
        if key not in self._known:
            cable_form = self._library[cable].cable
            width = cable_form.diameter if cable_form is not None else None
            fitting = [
                each for each in self._materials(form) if isinstance(width, Fact) and _holds(each, width)
            ]
            self._known[key] = min(fitting, key=_price).name if fitting else ""
        return self._known[key]

    def _materials(self, form: str) -> Iterator[Part]:
        for part in parts_of_kind(self._library, "pathway-material"):
            if part.pathway is not None and part.pathway.form == form:
                yield part


def _holds(part: Part, width: Fact) -> bool:
    clamps = part.pathway.clamps if part.pathway is not None else None
    return (
        part.exposure.place == "outdoor"
        and isinstance(clamps, Fact)
        and clamps.low <= width.low
        and width.high <= clamps.high
    )


def _lengths(way: Figure, each: Figure) -> int:
    """How many lengths as sold make the way; none where either is not known."""
    if not isinstance(way, Fact) or not isinstance(each, Fact):
        return 0
    return math.ceil(round(way.high / each.typical, 6))


def _spaced(way: Figure, spacing: Figure) -> int:
    """One at each end, and between them no two further apart than `spacing`."""
    if not isinstance(way, Fact) or not isinstance(spacing, Fact):
        return 0
    return math.ceil(round(way.high / spacing.typical, 6)) + 1


def _price(part: Part) -> tuple[float, str]:
    """For one; what has no price comes last."""
    return (part.price.typical / part.pack if isinstance(part.price, Fact) else math.inf, part.name)
