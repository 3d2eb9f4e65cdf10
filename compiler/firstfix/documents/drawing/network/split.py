"""Which hubs share a sheet: all of them if they fit on one, else by site, then building, then cabinet or room."""

from collections.abc import Callable
from itertools import groupby
from typing import NamedTuple

from firstfix.build.ids import natural
from firstfix.documents.drawing.kit.page import fits_sheet
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.network.sheet import hub_diagram, lone_tables, part_diagram
from firstfix.documents.drawing.network.wiring import Wiring
from firstfix.documents.drawing.where import building_of, site_of

# Past this many tables one looks for a wire instead of seeing it; our own judgement from looking at drawings.
MOST_HUBS = 8
# A sheet whose tables alone are higher than this many sheets, one on top of the other, isn't worth a try.
_MOST_HEIGHT = 2600.0

Group = tuple[str, ...]
Level = Callable[[str], str]


def sheets(wiring: Wiring) -> tuple[Group, ...]:
    """Hub ids, sheet by sheet. A hub that fits on no sheet is still a group of its own; `parts` cuts it."""
    return tuple(_split(wiring, tuple(wiring.hubs), _levels(wiring)))


class Part(NamedTuple):
    """Columns of a hub's table from `first` up to, without, `last`: the `number`-th of `of` parts, from 1."""

    first: int
    last: int
    number: int
    of: int


def parts(wiring: Wiring, hub: str) -> tuple[Part, ...]:
    """As many columns to a sheet as fit, at least one; a single part for a hub that fits as it is."""
    elsewhere = _elsewhere(wiring)
    count = len(lone_tables(wiring, hub, elsewhere))
    onward = (Onward(f"{wiring.stem}-100", hub),)
    ends: list[int] = []
    while not ends or ends[-1] < count:
        first = ends[-1] if ends else 0
        fitting = (
            last
            for last in range(count, first + 1, -1)
            if fits_sheet(
                (part_diagram(wiring, hub, elsewhere, first, last).outline,), onward if last < count else ()
            )
        )
        ends.append(next(fitting, first + 1))
    starts = [0, *ends[:-1]]
    return tuple(
        Part(first, last, number, len(ends))
        for number, (first, last) in enumerate(zip(starts, ends, strict=True), 1)
    )


def _levels(wiring: Wiring) -> tuple[Level, ...]:
    build = wiring.build

    def site(hub: str) -> str:
        return site_of(build, hub)

    def building(hub: str) -> str:
        return building_of(build, hub)

    def spot(hub: str) -> str:
        device = build.devices.get(hub)
        return (device.cabinet or device.room) if device else ""

    return site, building, spot, str


def _split(wiring: Wiring, hubs: Group, levels: tuple[Level, ...]) -> list[Group]:
    if not levels or _fits(wiring, hubs):
        return [hubs] if hubs else []
    level, *deeper = levels
    groups = [
        tuple(group)
        for _, group in groupby(sorted(hubs, key=lambda hub: (natural(level(hub)), natural(hub))), level)
    ]
    may_share = len(levels) < len(_levels(wiring))  # two sites never share a sheet
    made: list[Group] = []
    can_grow = False
    for group in groups:
        if may_share and can_grow and _fits(wiring, made[-1] + group):
            made[-1] += group
        elif _fits(wiring, group):
            made.append(group)
            can_grow = True
        else:
            made += _split(wiring, group, tuple(deeper))
            can_grow = False
    return made


def _fits(wiring: Wiring, hubs: Group) -> bool:
    if len(hubs) > MOST_HUBS or 14.0 * sum(len(wiring.hubs[hub].rows) for hub in hubs) > _MOST_HEIGHT:
        return False
    elsewhere = _elsewhere(wiring)
    return fits_sheet((hub_diagram(wiring, hubs, elsewhere).outline,))


def _elsewhere(wiring: Wiring) -> dict[str, str]:
    """Names as long as any will be, for measuring: each hub on a sheet of its own."""
    return {hub: f"{wiring.stem}-{100 + number}" for number, hub in enumerate(wiring.hubs)}
