"""What `firstfix draw` is to draw: a sheet of the set by its name, or what is around a device, in a cabinet, in a VLAN, along a run.

Takes a build and what was asked; gives the sheets that it takes, in order, or ends in one sentence with the nearest name.
"""

import re
from collections.abc import Callable, Collection, Iterable
from typing import TYPE_CHECKING

from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.source.nearest import did_you_mean

if TYPE_CHECKING:
    from firstfix.build.model import Build
    from firstfix.documents.drawing.kit.svg import Drawing

    Sheets = tuple[Drawing, ...]

_TWO_ENDS = re.compile(r"\s*(?:--|\N{EN DASH}|\s-\s|\sto\s)\s*")
_MOST_RUNS = 4
_LISTED = 400


def sheet(build: "Build", name: str) -> "Sheets":
    """The sheet of that name; where a group takes several, its name stands for all of them."""
    from firstfix.documents.drawing.set import MAKERS, undressed

    for maker in MAKERS:
        found = _named(list(undressed(build, (maker,))), name)
        if found:
            return found
    names = [each.name for each in undressed(build)]
    raise TroubleError(
        f"there is no sheet '{cut(name, 40)}'; there is {_list(names)}{_meant(build, name, names)}"
    )


def _named(drawn: "list[Drawing]", name: str) -> "Sheets":
    exact = tuple(each for each in drawn if each.name == name)
    return exact or tuple(each for each in drawn if re.fullmatch(rf"{re.escape(name)}-[0-9]+", each.name))


def _meant(build: "Build", name: str, names: Iterable[str]) -> str:
    """A cabinet, a VLAN or a device has an option of its own."""
    from firstfix.build import ids

    if ids.cabinet(name) in build.cabinets:
        return f"; --cabinet {name} draws the cabinet"
    if ids.vlan(name) in build.vlans:
        return f"; --vlan {name} draws the VLAN"
    if ids.device(name) in build.devices:
        return f"; --around {name} draws what is around the device"
    return did_you_mean(name, names)


def around(build: "Build", name: str, hops: int) -> "Sheets":
    from firstfix.build import ids
    from firstfix.documents.drawing.network.around import around_drawings

    if ids.device(name) not in build.devices:
        raise _unknown("device", name, [each.name for each in build.devices.values()])
    found = around_drawings(build, ids.device(name), hops)
    if not found:
        raise TroubleError(
            f"no channel of the network reaches or passes '{cut(name, 40)}', so nothing is around it"
        )
    return found


def cabinet(build: "Build", name: str) -> "Sheets":
    """The front, then the rear."""
    from firstfix.build import ids
    from firstfix.documents.drawing.cabinet import one_cabinet

    if ids.cabinet(name) not in build.cabinets:
        raise _unknown("cabinet", name, [each.name for each in build.cabinets.values()])
    return one_cabinet(build, ids.cabinet(name))


def vlan(build: "Build", name: str) -> "Sheets":
    from firstfix.build import ids
    from firstfix.documents.drawing.vlans import one_vlan

    if ids.vlan(name) not in build.vlans:
        raise _unknown("VLAN", name, [each.name for each in build.vlans.values()])
    return one_vlan(build, ids.vlan(name))


def run(build: "Build", name: str) -> "Sheets":
    """By a device at its end, a jack, two ends, or the id of a run; from the end that is named first."""
    from firstfix.documents.drawing.run import run_drawings
    from firstfix.explaining.explain import near
    from firstfix.explaining.subjects import subjects

    found = sorted({channel for id_ in subjects(build, name) for channel in _channels(build, id_)})
    if not found:
        if subjects(build, name):
            raise TroubleError(f"no run from end to end goes by '{cut(name, 60)}'")
        meant = near(build, name)
        hint = (
            f"; did you mean '{cut(meant, 60)}'?"
            if meant
            else "; a run is named by its ends, as in 'desk--core'"
        )
        raise TroubleError(f"nothing in the plan is called '{cut(name, 60)}'{hint}")
    if len(found) > 1:
        shown = [_ends(each) for each in found[:_MOST_RUNS]]
        more = f" and {len(found) - _MOST_RUNS} more" if len(found) > _MOST_RUNS else ""
        raise TroubleError(
            f"'{cut(name, 60)}' is on {len(found)} runs, and one is drawn: {cut(', '.join(shown), 200)}{more}"
        )
    return run_drawings(build, found[0], _is_turned(build, found[0], name))


def _ends(channel: str) -> str:
    return "'" + channel.partition(":")[2] + "'"


def _channels(build: "Build", id_: str) -> list[str]:
    """Ids of the channels that a thing is at the end of, or passed by."""
    from firstfix.build import ids

    test: Callable[[str], bool] | None = {
        "channel": lambda channel: channel == id_,
        "link": lambda channel: build.channels[channel].link == id_,
        "piece": lambda channel: id_ in build.channels[channel].pieces,
        "jack": lambda channel: id_ in _jacks(build, channel),
        "device": lambda channel: id_ in _devices(build, channel),
    }.get(ids.kind(id_))
    return [channel for channel in build.channels if test(channel)] if test else []


def _jacks(build: "Build", channel: str) -> set[str]:
    found = build.channels[channel]
    return {*found.ends, *(end for piece in found.pieces for end in build.pieces[piece].ends)}


def _devices(build: "Build", channel: str) -> set[str]:
    found = build.channels[channel]
    return {*(build.jacks[end].device for end in found.ends), *found.through}


def _is_turned(build: "Build", channel: str, name: str) -> bool:
    """Whether the first of two ends named is the channel's second."""
    first = _TWO_ENDS.split(name.strip())[0]
    jack = build.jacks[build.channels[channel].ends[1]]
    device = build.devices[jack.device].name
    return first in (device, f"{device}/{jack.name}")


def _unknown(kind: str, name: str, names: Collection[str]) -> TroubleError:
    there = f"; there is {_list(names)}" if names and not did_you_mean(name, names) else ""
    return TroubleError(f"the plan has no {kind} '{cut(name, 40)}'{did_you_mean(name, names)}{there}")


def _list(names: Iterable[str]) -> str:
    return cut(", ".join(names), _LISTED)
