"""What a sheet of ways says of each way, read out of a build and of graphs/way_fill: words, and the two shares for its bar."""

import re
from collections import Counter
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.documents.drawing.network.wiring import shown_jack
from firstfix.graphs.way_fill import Filled, filled, has_bore, in_ways
from firstfix.parts.facts import Fact
from firstfix.units import metres, millimetres, number

OUTER_WALL = "through an outer wall"
NOTHING = "nothing in it"
EXPOSURES = {"indoor": "indoors", "outdoor": "outdoors", "buried": "buried"}


class Passage(NamedTuple):
    """One way. `ends` are ids of rooms. `counts`: cables by part, the most first. `runs`: each cable by its two ends.

    `made`: what it is made of, or that it is there, and its bends; "" where the plan says nothing of that.

    `full`: how full it is, in words. `shares`: fill and limit as fractions of the bore, None where there is no telling.
    """

    id: str
    name: str
    ends: tuple[str, str]
    kind: str
    exposure: str
    length: str
    bore: str
    passes: str
    made: str
    counts: tuple[str, ...]
    runs: tuple[str, ...]
    full: str
    shares: tuple[float, float] | None
    is_over: bool

    @property
    def what(self) -> str:
        """ "buried duct, 38 m, bore 50 mm"."""
        return ", ".join(filter(None, (self.kind, self.length, self.bore and f"bore {self.bore}")))

    @property
    def lies(self) -> str:
        """In words; a way indoors whose one end is outdoors comes out through the wall."""
        if self.exposure == "indoor" and self.passes == OUTER_WALL:
            return "indoors, then out"
        return EXPOSURES.get(self.exposure, self.exposure)

    @property
    def cables(self) -> str:
        many = len(self.runs)
        return f"{many} cable{'' if many == 1 else 's'}" if many else NOTHING


def passages(build: Build) -> tuple[Passage, ...]:
    """In order of ids."""
    inside = in_ways(build)
    return tuple(_passage(build, way, inside[way.id]) for way in build.ways.values())


def _passage(build: Build, way: Way, pieces: list[Piece]) -> Passage:
    found = filled(build, way, pieces) if has_bore(way) else None
    full, shares = _full(found)
    return Passage(
        way.id,
        way.name,
        way.ends,
        way.kind.replace("-", " "),
        way.exposure,
        metres(way.length.high) if isinstance(way.length, Fact) else "? m",
        millimetres(way.bore.low) if isinstance(way.bore, Fact) else "? mm" if found else "",
        _passes(build, way),
        _made(build, way),
        _counts(build, pieces),
        tuple(
            sorted(
                (" to ".join(shown_jack(build, end) for end in piece.ends) for piece in pieces),
                key=_by_number,
            )
        ),
        full,
        shares,
        found is not None and found.fits is False,
    )


def _by_number(run: str) -> list[tuple[int, str]]:
    """`place-2` before `place-10`."""
    parts = re.split("([0-9]{1,9})", run)
    return [(int(part), "") if number % 2 else (0, part) for number, part in enumerate(parts)]


def _full(found: Filled | None) -> tuple[str, tuple[float, float] | None]:
    """In words, and as shares where both are known."""
    if found is None:
        return "no pipe: not reckoned", None
    if not found.pieces:
        return "empty", None
    if found.bore is None or found.fill is None or found.limit is None:
        return "not known: no bore said", None
    if not found.known:
        return "not known: no cable says how thick it is", None
    at_least = "at least " if found.unknown else ""
    missing = "; thickness of some not known" if found.unknown else ""
    words = f"{at_least}{number(found.fill * 100, 1)} % full, limit {number(found.limit * 100)} %{missing}"
    return words, (found.fill, found.limit)


def _passes(build: Build, way: Way) -> str:
    """What it goes through that has to be closed again, as far as floors and buildings tell."""
    one, other = (build.rooms.get(end) for end in way.ends)
    if way.joins_buildings:
        return "from building to building"
    if one is None or other is None:
        return ""
    if one.is_outdoors != other.is_outdoors:
        return OUTER_WALL
    return "from floor to floor" if one.floor != other.floor else ""


def _made(build: Build, way: Way) -> str:
    """ "made of: Trunking, 40 x 25 mm, 2 m; 2 bends"."""
    said = []
    if way.is_owned:
        said.append("there already")
    elif way.material:
        part = build.library.get(way.material)
        said.append(f"made of: {part.title if part else way.material}")
    if isinstance(way.bends, Fact):
        bends = number(way.bends.typical)
        said.append(f"{bends} bend{'' if bends == '1' else 's'}")
    return "; ".join(said)


def _counts(build: Build, pieces: list[Piece]) -> tuple[str, ...]:
    counted = Counter(piece.part for piece in pieces)
    return tuple(
        f"{count} × {build.library[part].title if part in build.library else ids.path(part)}"
        for part, count in sorted(counted.items(), key=lambda each: (-each[1], each[0]))
    )


def room_name(build: Build, room: str) -> str:
    known = build.rooms.get(room)
    return known.name if known else ids.path(room)
