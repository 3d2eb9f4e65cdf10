"""Which hubs share a sheet: all of them if they fit on one, else by site, then building, then cabinet or room."""

from collections.abc import Callable
from itertools import groupby

from firstfix.documents.drawing.kit.page import fits_a4
from firstfix.documents.drawing.network.sheet import hub_diagram
from firstfix.documents.drawing.network.wiring import Wiring
from firstfix.documents.drawing.where import building_of, site_of

# Past this many tables one looks for a wire instead of seeing it; our own judgement from looking at drawings.
MOST_HUBS = 8
# A sheet whose tables alone are higher than this many sheets, one on top of the other, isn't worth a try.
_MOST_HEIGHT = 2600.0

Group = tuple[str, ...]
Level = Callable[[str], str]


def sheets(wiring: Wiring) -> tuple[Group, ...]:
    """Hub ids, sheet by sheet. A hub that fits on no sheet of A4 still gets one of its own."""
    return tuple(_split(wiring, tuple(wiring.hubs), _levels(wiring)))


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
    groups = [tuple(group) for _, group in groupby(sorted(hubs, key=lambda hub: (level(hub), hub)), level)]
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
    elsewhere = dict.fromkeys(wiring.hubs, 99)
    return fits_a4((hub_diagram(wiring, hubs, elsewhere).outline,))
