"""What could lift a limit: parts of the library in the place of some, or one more of something, in order of their prices.

Takes a build, a spot and what is wrong with one more; gives changes to the plan, of which whoever asks tries some. Whether a change lifts
the limit is not said here: a plan with it is compiled, and then one knows.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.growth.model import Spot, Trouble
from firstfix.growth.more import Change
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import COPPER_FAMILIES, Part

_POE = frozenset({"unpowered", "poe-budget", "poe-class", "poe-reach", "poe-bundle", "kept-second-best"})
_JACKS = frozenset({"jacks-exhausted", "jack-family", "kept-in-the-way"})
_IN_THE_WAY = frozenset({"kept-in-the-way", "kept-second-best"})
_WAYS = frozenset({"way-fill", "plug-in-way"})
_UNITS = frozenset({"cabinet-overlap", "cabinet-height", "cabinet-depth", "cabinet-load", "top-heavy"})
_SHELF = frozenset({"shelf-load", "shelf-space"})
_STRIPS = frozenset({"strip-load", "outlets-covered", "mains-outlets"})
# What needs no part, or none that the library could choose.
_NOTHING_TO_BUY = {
    "addresses-exhausted": "a larger subnet, or fewer leases: nothing to buy",
    "leases": "a wider range of leases: nothing to buy",
    "circuit-load": "another circuit, a licensed electrician's work to local codes",
    "mains-outlets": "more mains outlets: a strip or UPS that has more, or in the wall, a licensed electrician's work to local codes",
    "way-fill": "a second way beside it, unpriced",
    "cabinet-heat": "cooling: a meshed door or a fan (`cooling:` of the cabinet)",
}
# Parts of one kind that are looked at.
_MOST_OF_ONE = 3


class Candidate(NamedTuple):
    """`price` is about what it costs, for their order; `part` is bought once more for it, or ""; `words` say what is done."""

    words: str
    change: Change
    price: float
    part: str = ""


def without_parts(first: tuple[Trouble, ...]) -> tuple[str, ...]:
    """What lifts it without a part that could be chosen."""
    return tuple(dict.fromkeys(words for each in first if (words := _NOTHING_TO_BUY.get(each.rule, ""))))


def candidates(build: Build, spot: Spot, first: tuple[Trouble, ...], fits: int) -> tuple[Candidate, ...]:
    """Those with the lowest prices first; what has no price comes last. `fits`: so many fit without."""
    rules = {each.rule for each in first}
    found: list[Candidate] = []
    chain = _named(_chain(build, spot), first)
    if rules & (_POE | _JACKS):
        found += _injectors(build, spot, fits) if rules & _POE else ()
        for device in (*chain, *(_feeders(build, spot) if rules & _POE else ())):
            found += _other_devices(build, device, _jacks_and_power)
    found += _chosen_anew(first)
    if rules & _JACKS:
        found += _second_panels(build, chain, fits)
    if rules & _STRIPS:
        for device in _feeding(build, spot, chain):
            found += _other_devices(build, device, _outlets)
    if rules & _UNITS:
        found += _other_cabinets(build, first, spot)
    if rules & _SHELF:
        found += _second_shelf(build, spot, fits)
    if rules & _WAYS:
        found += _other_ways(build, first)
    return tuple(sorted(found, key=lambda each: (each.price, each.words)))


def _chosen_anew(first: tuple[Trouble, ...]) -> Iterator[Candidate]:
    """Whoever compiles it says what that moves and what it costs."""
    for device in sorted({each.subject for each in first if each.rule in _IN_THE_WAY}):
        yield Candidate("", Change(anew=(ids.path(device),)), 0.0)


def _price(part: Part) -> float:
    return part.price.typical if isinstance(part.price, Fact) else float("inf")


def _named(chain: tuple[str, ...], first: tuple[Trouble, ...]) -> tuple[str, ...]:
    """Those that the troubles are about; all, where none is named."""
    told = " ".join(f"{each.subject} {each.message}" for each in first)
    named = tuple(each for each in chain if f"'{ids.path(each)}'" in told)
    return named or chain


def _chain(build: Build, spot: Spot) -> tuple[str, ...]:
    """Ids of the devices whose jacks one more takes: the switch, and panels on the way."""
    if spot.is_part:
        return ()
    like = ids.device(spot.like)
    if not spot.switch:
        return (like,) if build.devices[like].part.bridges is True else ()
    links = [
        link for link in build.links.values() if like in link.hops and ids.device(spot.switch) in link.hops
    ]
    passed = (hop for link in links[:1] for hop in link.hops if build.devices[hop].part.kind == "panel")
    return (ids.device(spot.switch), *passed)


def _feeders(build: Build, spot: Spot) -> Iterator[str]:
    """What feeds the switch over its cable."""
    source = build.power_sources.get(ids.device(spot.switch))
    if source is not None and source.fed_by:
        yield build.jacks[build.power_runs[source.fed_by].source].device


def _feeding(build: Build, spot: Spot, chain: tuple[str, ...]) -> tuple[str, ...]:
    """Strips and UPSs that feed the thing itself, or the switch."""
    fed = {ids.device(spot.like), *chain}
    found = {feed.source for feed in build.mains_feeds if feed.device in fed}
    return tuple(sorted(each for each in found if each in build.devices))


def _other_devices(
    build: Build, device: str, worth: Callable[[Part], tuple[float, ...]]
) -> Iterator[Candidate]:
    """Parts of the same kind that are worth no less in anything, and more in something."""
    known = build.devices[device]
    saved = _saved(known.part, known.is_owned)
    for part in _greater(build, known.part, worth):
        words = f"'{part.name}' in place of '{known.part.name}' as '{known.name}'"
        yield Candidate(words, Change(devices=((known.name, part.name),)), _price(part) - saved)


def _saved(part: Part, is_owned: bool) -> float:
    """What need not be bought then."""
    return part.price.typical if isinstance(part.price, Fact) and not is_owned else 0.0


def _greater(build: Build, now: Part, worth: Callable[[Part], tuple[float, ...]]) -> Iterable[Part]:
    """The cheapest of those, and of each dearer one only what is worth more: no dozen of equals hides the one that helps."""
    least = worth(now)
    better = [
        (_price(part), part.name, part)
        for part in build.library.values()
        if part.kind == now.kind and _mounting(part) == _mounting(now) and (given := worth(part)) != least
        and all(more >= less for more, less in zip(given, least, strict=True))
    ]  # fmt: skip
    kept: dict[tuple[float, ...], Part] = {}
    for _, _, part in sorted(better, key=lambda each: each[:2]):
        # One that gives no more in anything than a cheaper one helps no more.
        if not any(all(a >= b for a, b in zip(other, worth(part), strict=True)) for other in kept):
            kept[worth(part)] = part
    return list(kept.values())[:_MOST_OF_ONE]


def _high(figure: Figure) -> float:
    return figure.low if isinstance(figure, Fact) else 0.0


def _jacks_and_power(part: Part) -> tuple[float, ...]:
    """Copper jacks, those that give PoE, its class, watts on the mains, watts where it is fed, and whether it knows VLANs."""
    gives = part.gives_poe
    copper = sum(jack.family in COPPER_FAMILIES or bool(jack.needs_module) for jack in part.jacks)
    cages = len(part.jacks) - copper
    knows = float(part.vlan_aware is True) + float(part.spanning_tree is True)
    if gives is None:
        return copper, cages, knows, 0.0, 0.0, 0.0, 0.0
    fed = max((given for _, given in gives.when_fed), default=0.0)
    return copper, cages, knows, len(gives.jacks), _high(gives.poe_class), _high(gives.budget), fed


def _outlets(part: Part) -> tuple[float, ...]:
    return part.mains.outlets, _high(part.mains.rating), part.mains.inlets


def _injectors(build: Build, spot: Spot, fits: int) -> Iterator[Candidate]:
    """In line before the switch, for each one past those that fit."""
    asked = next(
        (
            run.asked
            for run in build.power_runs.values()
            if build.jacks[run.sink].device == ids.device(spot.like)
        ),
        None,
    )
    if not spot.switch or not isinstance(asked, Fact):
        return
    able = [
        (_price(part), part.name)
        for part in build.library.values()
        if part.kind == "injector" and part.gives_poe is not None and _high(part.gives_poe.poe_class) >= asked.high
        and part.exposure.place == "indoor"
    ]  # fmt: skip
    for price, name in sorted(able)[:1]:
        words = f"an injector '{name}' in line before '{spot.switch}' for each one more"
        yield Candidate(words, Change(injector=name, after=fits), price, name)


def _second_panels(build: Build, chain: tuple[str, ...], fits: int) -> Iterator[Candidate]:
    for device in chain:
        known = build.devices[device]
        if known.part.kind == "panel":
            words = f"a second '{known.part.name}' beside '{known.name}'"
            yield Candidate(words, Change(panel=known.name, after=fits), _price(known.part), known.part.name)


def _second_shelf(build: Build, spot: Spot, fits: int) -> Iterator[Candidate]:
    """Like the one that it would stand on, in free units of the same cabinet."""
    shelf = build.fittings.get(build.devices[ids.device(spot.like)].carried_by)
    if shelf is not None:
        words = f"a second '{shelf.part.name}' in '{ids.path(shelf.cabinet)}'"
        name = shelf.part.name
        yield Candidate(words, Change(shelf=name, after=fits), _price(shelf.part), name)


def _other_cabinets(build: Build, first: tuple[Trouble, ...], spot: Spot) -> Iterator[Candidate]:
    names = {ids.path(each.subject).partition("/")[0] for each in first if each.rule in _UNITS}
    own = build.devices.get(ids.device(spot.like))
    names |= {spot.cabinet} if spot.cabinet else {ids.path(own.cabinet)} if own is not None else set()
    for cabinet in build.cabinets.values():
        if cabinet.name in names:
            saved = _saved(cabinet.part, cabinet.is_owned)
            for part in _greater(build, cabinet.part, _space):
                words = f"'{part.name}' in place of '{cabinet.part.name}' as the cabinet '{cabinet.name}'"
                yield Candidate(words, Change(cabinets=((cabinet.name, part.name),)), _price(part) - saved)


def _mounting(part: Part) -> object:
    """On the wall or on the floor, of a cabinet; of anything else whether it stands or is screwed between rails."""
    if part.cabinet is not None:
        return part.cabinet.mounting
    return part.rack is not None and part.rack.height > 0


def _space(part: Part) -> tuple[float, ...]:
    load = part.cabinet.load if part.cabinet is not None else None
    return part.units, _high(part.usable_depth), _high(load) if load is not None else 0.0


def _other_ways(build: Build, first: tuple[Trouble, ...]) -> Iterator[Candidate]:
    """The same form of pipe with a greater bore; digging and fixing are not in any price."""
    for trouble in first:
        way = build.ways.get(trouble.subject) if trouble.rule in _WAYS else None
        if way is None or not isinstance(way.bore, Fact):
            continue
        wanted = {"buried-duct": "duct", "conduit": "conduit", "trunking": "trunking"}.get(way.kind, "")
        wider = [
            (_price(part), part.name)
            for part in build.library.values()
            if part.pathway is not None
            and part.pathway.form == wanted
            and _high(part.pathway.inside) > way.bore.low
        ]
        for price, name in sorted(wider)[:_MOST_OF_ONE]:
            words = f"'{name}' for the way '{way.name}', its laying not counted"
            yield Candidate(words, Change(ways=((way.name, name),)), price)
