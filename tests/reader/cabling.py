"""What is true of jacks, runs and ways, told by the build: each function takes it and names out of the plan, and gives an answer in words."""

from collections.abc import Collection
from typing import TypeVar

from firstfix.build import ids
from firstfix.build.cabling import RUN, Channel, Piece
from firstfix.build.model import Build
from firstfix.graphs.way_fill import filled, in_pipes, in_ways
from firstfix.parts.facts import Fact

T = TypeVar("T")


def jack_feeding(build: Build, device: str) -> str:
    """The active jack at the far end of the one channel of a device."""
    return _far(_only_channel(build, device), device)


def jack_feeding_farthest(build: Build, kind: str) -> str:
    """The same, of the one device of a kind whose cabling is longest."""
    of_kind = [each.name for each in build.devices.values() if each.part.kind == kind]
    longest = sorted((_whole(build, _only_channel(build, name)), name) for name in of_kind)
    tied = [name for length, name in longest if round(length, 1) == round(longest[-1][0], 1)]
    return jack_feeding(build, only(tied))


def device_at(build: Build, jack: str) -> str:
    """The active device at the other end of what is plugged in there."""
    return _far(_channel_at(build, jack), jack.split("/", maxsplit=1)[0]).split("/", maxsplit=1)[0]


def both_ends(build: Build, near: str, far: str) -> str:
    """Of the one channel between two devices, the jack of `near` first."""
    return ", ".join(_end_at(_channel_between(build, near, far), each) for each in (near, far))


def in_line(build: Build, near: str, far: str) -> str:
    """The passive devices between two active ones, from the first to the other."""
    channel = _channel_between(build, near, far)
    starts_near = build.jacks[channel.ends[0]].device == ids.device(near)
    names = [build.devices[each].name for each in channel.through]
    return ", ".join(names if starts_near else names[::-1])


def behind(build: Build, jack: str) -> str:
    """Where the installed run behind a jack of a panel or an outlet ends."""
    return _other_end(_run_at(build, jack), jack)


def cord_at(build: Build, jack: str) -> str:
    """Where the cord ends that is plugged into a jack, and how long it is."""
    cord = _cord_at(build, jack)
    return f"{_other_end(cord, jack)}, {_metres(_length(cord))}"


def cord_colour(build: Build, jack: str) -> str:
    return _cord_at(build, jack).colour


def whole_length(build: Build, near: str, far: str) -> str:
    """From active jack to active jack: all pieces together."""
    return _metres(_whole(build, _channel_between(build, near, far)))


def ways_behind(build: Build, jack: str) -> str:
    """The ways of the installed run behind a jack, in the order of their names: it may be read from either end."""
    return ", ".join(sorted(build.ways[way].name for way in _run_at(build, jack).route))


def ways_to(build: Build, device: str) -> str:
    """The ways of the one installed run on a device's channel."""
    pieces = [build.pieces[each] for each in _only_channel(build, device).pieces]
    run = only([each for each in pieces if each.kind == RUN])
    return ", ".join(sorted(build.ways[way].name for way in run.route))


def fill(build: Build, way: str) -> str:
    id_ = ids.way(way)
    found = filled(build, build.ways[id_], in_pipes(build)[id_])
    assert found.fill is not None
    assert found.limit is not None
    return f"{100 * found.fill:.1f} %, limit {100 * found.limit:.0f} %"


def cables_in(build: Build, way: str) -> str:
    return str(len(in_ways(build)[ids.way(way)]))


def kind_in(build: Build, way: str) -> str:
    """The one kind of cable in a way."""
    return only({build.library[piece.part].title for piece in in_ways(build)[ids.way(way)]})


def free_jacks(build: Build, device: str) -> str:
    """Names of the jacks that nothing is plugged into; those that follow each other as first–last."""
    wired = _wired(build)
    jacks = [build.jacks[each] for each in build.jacks_of[ids.device(device)]]
    stretches: list[list[str]] = []
    was_free = False
    for jack in (each for each in jacks if each.face == "front"):
        is_free = _plain(jack.id) not in wired
        if is_free and was_free and stretches[-1][0].isdigit() == jack.name.isdigit():
            stretches[-1].append(jack.name)
        elif is_free:
            stretches.append([jack.name])
        was_free = is_free
    return ", ".join(each[0] if len(each) == 1 else f"{each[0]}–{each[-1]}" for each in stretches)


def only(found: Collection[T]) -> T:
    """The one thing found; a question with several answers is none."""
    assert len(found) == 1, f"not exactly one: {sorted(map(str, found))}"
    return next(iter(found))


def _wired(build: Build) -> set[str]:
    return {_plain(joint.jack) for joint in build.joints}


def _plain(jack: str) -> str:
    """As it is written on a sheet: the rear of a jack has the name of its front."""
    return jack.removeprefix("jack:").removesuffix("@rear")


def _only_channel(build: Build, device: str) -> Channel:
    return only([each for each in build.channels.values() if ids.device(device) in _devices(build, each)])


def _channel_between(build: Build, near: str, far: str) -> Channel:
    both = {ids.device(near), ids.device(far)}
    return only([each for each in build.channels.values() if _devices(build, each) == both])


def _channel_at(build: Build, jack: str) -> Channel:
    return only([each for each in build.channels.values() if f"jack:{jack}" in each.ends])


def _devices(build: Build, channel: Channel) -> set[str]:
    return {build.jacks[end].device for end in channel.ends}


def _far(channel: Channel, device: str) -> str:
    return only([end for end in map(_plain, channel.ends) if not end.startswith(f"{device}/")])


def _end_at(channel: Channel, device: str) -> str:
    return only([end for end in map(_plain, channel.ends) if end.startswith(f"{device}/")])


def _run_at(build: Build, jack: str) -> Piece:
    return only([each for each in build.pieces.values() if f"jack:{jack}@rear" in each.ends])


def _cord_at(build: Build, jack: str) -> Piece:
    return only([each for each in build.pieces.values() if f"jack:{jack}" in each.ends])


def _other_end(piece: Piece, jack: str) -> str:
    return only([end for end in map(_plain, piece.ends) if end != jack])


def _whole(build: Build, channel: Channel) -> float:
    return sum(_length(build.pieces[each]) for each in channel.pieces)


def _length(piece: Piece) -> float:
    figure = piece.length.figure
    assert isinstance(figure, Fact)
    return figure.high


def _metres(length: float) -> str:
    return f"{round(length, 1):g} m"
