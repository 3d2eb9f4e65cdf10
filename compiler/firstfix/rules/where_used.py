"""What the places ask where a part is used: weather, warmth, room behind the rails, and power over the cable that feeds it.

Takes a build, a part that is used in it and another one; gives in words what the other one does not bear there, nothing where it does.
"""

from collections import defaultdict
from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import Part
from firstfix.standards.poe import classes
from firstfix.units import number

_OUTDOORS = ("outdoor", "buried")


def lacking_where_used(build: Build, wanted: Part, other: Part) -> Iterator[str]:
    """Clauses such as "is not made for outdoors"."""
    users = [each for each in build.devices.values() if each.part.name == wanted.name]
    if any(_is_in_weather(build, each) for each in users):
        yield from _weather(wanted, other)
    if any(each.cabinet for each in users) and _is_less(other.exposure.warmest, wanted.exposure.warmest):
        yield "bears less warmth"
    if any(not each.cabinet for each in users) and _is_for_rails(other) and not _is_for_rails(wanted):
        yield "is made for a cabinet's rails"
    if any(_is_too_deep(build, each, other) for each in users):
        yield "is too deep for its cabinet"
    if wanted.takes_poe is not None and other.takes_poe is not None and users:
        yield from _power(build, wanted, other)


def _is_in_weather(build: Build, device: Device) -> bool:
    """A cabinet around it is made for its place, or has its own finding."""
    return not device.cabinet and device.room in build.rooms and build.rooms[device.room].is_outdoors


def _weather(wanted: Part, other: Part) -> Iterator[str]:
    mine, its = wanted.exposure, other.exposure
    if mine.place in _OUTDOORS and its.place not in _OUTDOORS:
        yield "is not made for outdoors"
        return
    if mine.uv is True and its.uv is not True:
        yield "does not say that it bears sunlight"
    if isinstance(mine.ingress, str) and not _is_as_tight(its.ingress, mine.ingress):
        yield f"is not said to be as tight as {mine.ingress}"
    if _is_less(its.warmest, mine.warmest) or _is_less(mine.coldest, its.coldest):
        yield "bears less warmth or cold"


def _is_as_tight(its: object, mine: str) -> bool:
    """Digit by digit, as IEC 60529 has them: solids, then water. An X promises nothing."""
    digits = [(have, want) for have, want in zip(str(its)[2:4], mine[2:4], strict=False) if want.isdigit()]
    return isinstance(its, str) and all(have.isdigit() and have >= want for have, want in digits)


def _is_less(figure: Figure, wanted: Figure) -> bool:
    """Nothing is asked where nothing is known of what is there now."""
    return isinstance(wanted, Fact) and (not isinstance(figure, Fact) or figure.low < wanted.high)


def _is_for_rails(part: Part) -> bool:
    return part.rack is not None and part.rack.height > 0


def _is_too_deep(build: Build, device: Device, other: Part) -> bool:
    cabinet = build.cabinets.get(device.cabinet)
    if cabinet is None or device.part.rack is None or other.rack is None:
        return False
    room, depth, now = (
        cabinet.part.usable_depth,
        other.rack.depth_with_plugs,
        device.part.rack.depth_with_plugs,
    )
    if now is not None and depth is not None and depth <= now:
        return False
    return isinstance(room, Fact) and (depth is None or depth > room.low)


def _power(build: Build, wanted: Part, other: Part) -> Iterator[str]:
    """What feeds it must give its class, and have left what it takes more. By classes, the most that any source counts."""
    assert wanted.takes_poe is not None
    assert other.takes_poe is not None
    mine, its = wanted.takes_poe.poe_class, other.takes_poe.poe_class
    if not isinstance(its, Fact) or not isinstance(mine, Fact):
        if isinstance(mine, Fact):
            yield "does not say its PoE class"
        return
    if its.high <= mine.high:
        return
    more: defaultdict[str, float] = defaultdict(float)
    step = _watts(its) - _watts(mine)
    for run in build.power_runs.values():
        if build.devices[build.jacks[run.sink].device].part.name == wanted.name:
            more[build.jacks[run.source].device] += step
            if not isinstance(run.port_class, Fact) or run.port_class.low < its.high:
                yield f"asks for PoE class {number(its.high)}"
                return
    for source, watts in sorted(more.items()):
        left = build.power_sources[source].left if source in build.power_sources else None
        if not isinstance(left, Fact) or left.low < watts:
            yield f"takes {number(watts)} W more of PoE than now from '{build.devices[source].name}'"


def _watts(asked: Fact) -> float:
    return classes()[int(asked.high)].pse_power_w
