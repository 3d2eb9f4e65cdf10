"""What a build also needs and the shopping list does not hold, so that nobody takes it for complete where it is not.

Takes a build; gives what is left out, with the names that it concerns. An empty answer means that nothing is left out.
"""

from collections.abc import Callable, Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.hardware import TO_BUY, Device
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.parts.facts import Unknown

# Ways that are nothing but what holds the cables, and mere passages.
_WITHOUT_DUCT = ("clipped-outdoors", "direct-burial", "wall", "floor")
# What hangs on a wall or ceiling comes with what fixes it, mostly.
_HUNG_KINDS = ("access-point", "camera", "sensor", "phone")


class NotCounted(NamedTuple):
    """`what` in words, and the `names` of what it is about, in natural order."""

    what: str
    names: tuple[str, ...]


def not_counted(build: Build) -> tuple[NotCounted, ...]:
    gathered = _Gathered(build)
    found = (NotCounted(what, gathered.names(of)) for what, of in _QUESTIONS)
    return tuple(each for each in found if each.names)


class _Gathered:
    def __init__(self, build: Build) -> None:
        self.build = build
        self.new_runs = [each for each in build.pieces.values() if each.kind == RUN and not each.is_owned]
        taken = {way for piece in self.new_runs for way in piece.route}
        self.new_ways = [way for id_, way in build.ways.items() if id_ in taken and not way.is_owned]
        self.forms: dict[str, set[str]] = {}
        for item in build.items:
            part = build.library.get(item.part)
            if part is not None and part.pathway is not None:
                self.forms.setdefault(item.for_id, set()).add(str(part.pathway.form))
        self.ended = {
            item.for_id
            for item in build.items
            if (part := build.library.get(item.part)) is not None and part.kind == "fibre-end"
        }

    def names(self, of: "Callable[[_Gathered], Iterator[str]]") -> tuple[str, ...]:
        return tuple(sorted(set(of(self)), key=natural))


def _made_of_nothing(all_: _Gathered) -> Iterator[str]:
    return (way.name for way in all_.new_ways if not way.material and way.kind not in _WITHOUT_DUCT)


def _without_bends(all_: _Gathered) -> Iterator[str]:
    for way in all_.new_ways:
        part = all_.build.library.get(way.material)
        form = part.pathway if part is not None else None
        if form is not None and form.form == "conduit" and isinstance(way.bends, Unknown):
            yield way.name


def _without_length(all_: _Gathered) -> Iterator[str]:
    for way in all_.new_ways:
        if isinstance(way.length, Unknown) and (way.material or way.kind == "clipped-outdoors"):
            yield way.name


def _without_clips(all_: _Gathered) -> Iterator[str]:
    for way in all_.new_ways:
        is_counted = "clip" in all_.forms.get(way.id, ()) or isinstance(way.length, Unknown)
        if way.kind == "clipped-outdoors" and not is_counted:
            yield way.name


def _without_glands(all_: _Gathered) -> Iterator[str]:
    return (
        way.name
        for way in all_.new_ways
        if _comes_in_from_the_air(all_.build, way) and "gland" not in all_.forms.get(way.id, ())
    )


def _comes_in_from_the_air(build: Build, way: Way) -> bool:
    outdoors = [build.rooms[end].is_outdoors for end in way.ends]
    return way.exposure != "buried" and (way.exposure == "outdoor" or any(outdoors)) and not all(outdoors)


def _dug(all_: _Gathered) -> Iterator[str]:
    return (way.name for way in all_.new_ways if way.exposure == "buried")


def _fibre_without_plugs(all_: _Gathered) -> Iterator[str]:
    for piece in all_.new_runs:
        part = all_.build.library.get(piece.part)
        is_fibre = part is not None and part.cable is not None and part.cable.medium == "fibre"
        if is_fibre and piece.id not in all_.ended:
            yield " – ".join(end.partition(":")[2].removesuffix("@rear") for end in piece.ends)


def _hung(all_: _Gathered) -> Iterator[str]:
    bought = {item.for_id for item in all_.build.items if item.standing == TO_BUY}
    for device in all_.build.devices.values():
        if _is_hung(device) and device.id in bought:
            yield device.name


def _is_hung(device: Device) -> bool:
    """An end device that is fed by PoE is a clock, a reader or the like."""
    is_at_wall = device.part.kind in _HUNG_KINDS or (
        device.part.kind == "end-device" and device.part.takes_poe is not None
    )
    return is_at_wall and not device.cabinet


def _cabinets(all_: _Gathered) -> Iterator[str]:
    kinds = {id_: set[str]() for id_, each in all_.build.cabinets.items() if not each.is_owned}
    for item in all_.build.items:
        part = all_.build.library.get(item.part)
        if item.for_id in kinds and part is not None:
            kinds[item.for_id].add(part.kind)
    return (all_.build.cabinets[id_].name for id_, held in kinds.items() if "earth-kit" not in held)


_QUESTIONS: tuple[tuple[str, Callable[[_Gathered], Iterator[str]]], ...] = (
    ("what these ways are made of, since they name no 'material'; say 'owned: true' where it is there", _made_of_nothing),
    ("digging, and filling in again", _dug),
    ("the bends of these ways, since they do not say how many 'bends' they make", _without_bends),
    ("the material of these ways, since their length is not known", _without_length),
    ("clips for these ways: the part library has none for their cables", _without_clips),
    ("glands for these ways: the part library has none for their cables", _without_glands),
    ("the plugs of these fibre runs: the part library has none for them", _fibre_without_plugs),
    ("what fixes these to a wall or ceiling; mostly it comes with them", _hung),
    ("earth leads for the metal of these cabinets, where local codes ask for them; a licensed electrician's work", _cabinets),
)  # fmt: skip
