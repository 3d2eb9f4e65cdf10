"""What a name that somebody asks about can mean: a device, one of its jacks, a run by its two ends, an address, a line to buy."""

import re
from collections.abc import Callable, Iterator, Mapping
from ipaddress import ip_address, ip_network

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.explaining.views import views
from firstfix.purchase.needs import needs_of

# How people and our documents write "from here to there": ids, shopping list, checklist, and by hand.
_TWO_ENDS = re.compile(r"\s*(?:--|\N{EN DASH}|\s-\s|\sto\s)\s*")
_UNIT = re.compile(r"(?P<cabinet>[a-z0-9-]+)(?:/| units? )(?P<unit>[0-9]{1,2})(?:(?:-| to )[0-9]{1,2})?")
_STEP = re.compile(r"[a-z-]+:[a-z]\S+")
_ADDRESS = re.compile(r"[0-9a-fA-F:.]{3,45}")


def subjects(build: Build, name: str) -> tuple[str, ...]:
    """Ids of all that `name` means, devices first; none where it means nothing. `device:core` asks for one kind only."""
    asked = " ".join(name.split())
    if asked.partition(":")[0] in _KINDS:
        return _of_kind(build, asked)
    if _STEP.fullmatch(asked):
        return tuple(_steps(build, asked))
    found = [id_ for find in _FINDERS for id_ in find(build, asked)]
    return tuple(dict.fromkeys(found))


def names(build: Build) -> frozenset[str]:
    """What may be asked for by name, to offer the nearest of it."""
    shared = (
        build.devices,
        build.cabinets,
        build.rooms,
        build.ways,
        build.vlans,
        build.buildings,
        build.sites,
        build.links,
    )
    paths = {ids.path(id_) for table in shared for id_ in table}
    rooms = {room.name for room in build.rooms.values()}
    parts = {item.part for item in build.items}
    jacks = {ids.path(jack).removesuffix("@rear") for jack in build.jacks}
    return frozenset(paths | rooms | parts | jacks)


def _of_kind(build: Build, asked: str) -> tuple[str, ...]:
    kind, _, rest = asked.partition(":")
    if kind in ("part", "need"):
        return tuple(_parts(build, rest))
    if kind == "unit":
        return tuple(_units(build, rest))
    if kind == "address":
        return tuple(_addresses(build, rest))
    if kind == "fitting":
        return tuple(_units(build, rest))
    if kind == "item":
        return tuple(item.for_id for item in build.items if item.id == asked)[:1]
    if kind == "power-run":
        return tuple(build.power_runs[asked].channel for _ in range(asked in build.power_runs))
    table = _TABLES[kind](build)
    return (asked,) if asked in table else ()


_TABLES: dict[str, Callable[[Build], Mapping[str, object]]] = {
    "device": lambda build: build.devices,
    "jack": lambda build: build.jacks,
    "link": lambda build: build.links,
    "piece": lambda build: build.pieces,
    "channel": lambda build: build.channels,
    "way": lambda build: build.ways,
    "room": lambda build: build.rooms,
    "cabinet": lambda build: build.cabinets,
    "vlan": lambda build: build.vlans,
    "building": lambda build: build.buildings,
    "site": lambda build: build.sites,
}
_KINDS = frozenset({*_TABLES, "part", "need", "unit", "address", "fitting", "item", "power-run"})


def _named(build: Build, asked: str) -> Iterator[str]:
    """By the author's own word, of whatever kind."""
    for kind in ("device", "cabinet", "vlan", "way", "room", "link", "piece", "channel", "building", "site"):
        if f"{kind}:{asked}" in _TABLES[kind](build):
            yield f"{kind}:{asked}"
    yield from (room.id for room in build.rooms.values() if room.name == asked)
    yield from (building.id for building in build.buildings.values() if building.name == asked)


def _jacks(build: Build, asked: str) -> Iterator[str]:
    """A panel's jack has two faces, and both are meant unless one is named."""
    for id_ in (f"jack:{asked}", f"jack:{asked}@rear"):
        if id_ in build.jacks:
            yield id_


def _units(build: Build, asked: str) -> Iterator[str]:
    match = _UNIT.fullmatch(asked)
    if match is not None:
        cabinet = build.cabinets.get(ids.cabinet(match["cabinet"]))
        if cabinet is not None and 1 <= int(match["unit"]) <= cabinet.units:
            yield f"unit:{match['cabinet']}/{int(match['unit'])}"


def _between(build: Build, asked: str) -> Iterator[str]:
    """Runs from end to end, else the pieces that join the two, else the runs that pass both."""
    ends = _TWO_ENDS.split(asked)
    if len(ends) != 2 or not all(ends) or f"piece:{asked}" in build.pieces or f"link:{asked}" in build.links:
        return
    one, other = ends
    found = [link for link in build.links if _joins(build, _link_ends(build, link), one, other)]
    found = found or [each.id for each in build.pieces.values() if _joins(build, each.ends, one, other)]
    hops = {f"device:{one}", f"device:{other}"}
    yield from found or [link.id for link in build.links.values() if hops <= set(link.hops)]


def _link_ends(build: Build, link: str) -> tuple[str, ...]:
    pieces = views(build).pieces_of.get(link, ())
    hops = build.links[link].hops
    if not pieces or not hops:
        return ()
    return tuple(
        end for piece in pieces for end in piece.ends if build.jacks[end].device in (hops[0], hops[-1])
    )


def _joins(build: Build, ends: tuple[str, ...], one: str, other: str) -> bool:
    first = {end for end in ends if _is(build, end, one)}
    last = {end for end in ends if _is(build, end, other)}
    return bool(first and last) and (first != last or len(first) > 1)


def _is(build: Build, jack: str, named: str) -> bool:
    return named in (ids.path(jack), ids.path(jack).removesuffix("@rear"), build.devices[build.jacks[jack].device].name)  # fmt: skip


def _addresses(build: Build, asked: str) -> Iterator[str]:
    """An address as a plan or a document writes it, with or without the length of its prefix."""
    text = asked.partition("/")[0]
    if not _ADDRESS.fullmatch(text):
        return
    try:
        address = ip_address(text)
    except ValueError:
        return
    subnets = [ip_network(vlan.subnet) for vlan in build.vlans.values() if vlan.subnet]
    if any(address in subnet for subnet in subnets) or any(claim.address == str(address) for claim in build.addresses):  # fmt: skip
        yield f"address:{address}"


def _steps(build: Build, asked: str) -> Iterator[str]:
    """A step of the checklist, by its id there, or shorter without the kind of what it is about: `fit:core`."""
    # Only who asks for a step has all the work reckoned out.
    from firstfix.work.step_names import StepNames
    from firstfix.work.tasks import tasks

    yield from (f"step:{id_}" for id_ in StepNames(tasks(build)).named(asked))


def _parts(build: Build, asked: str) -> Iterator[str]:
    """A part, or one of its lines as the shopping list, `firstfix progress` or an id writes it: `cord-cat6/1 m/blue`, `cord-cat6/1m`."""
    name, _, length = asked.partition("/")
    if name not in build.library and not any(item.part == name for item in build.items):
        return
    if not length:
        yield f"part:{name}"
        return
    plain = asked.replace(" ", "")
    lines = [(each.id, ids.path(each.id).replace(" ", "")) for each in needs_of(build, name)]
    exact = [id_ for id_, line in lines if line == plain]
    # `cord-cat6/1m` where cords of 1 m are bought in several colours.
    yield from exact or [id_ for id_, line in lines if line.startswith(f"{plain}/")]


_FINDERS = (_named, _jacks, _units, _between, _addresses, _parts)
