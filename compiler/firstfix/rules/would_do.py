"""Which other parts of the library could stand in for one, as far as their facts say.

Takes a part and a build; gives parts. What it is made for must be the same, what it can do at least as much, and it must bear the places
where the part is used; nobody has tried them.
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.parts.facts import Fact, Figure
from firstfix.parts.part import Part
from firstfix.rules.prices import price_of
from firstfix.rules.where_used import lacking_where_used

# What must be the same: the opening, the thread, the wire, the rails.
_FORM = ("kind", "fits", "wire", "rails", "thread", "fastener", "optics", "pathway", "cover", "shelf", "earth", "rail_width", "units")  # fmt: skip
# What a part does or doesn't; who does it can stand in for one that does not.
_UNABLE = {
    "bridges": "is no switch",
    "spanning_tree": "breaks no rings",
    "vlan_aware": "knows no VLANs",
    "routes": "does not route",
}
_ABILITIES = tuple(_UNABLE)
_NO_POE, _NOT_FED = "gives no PoE", "is not fed by PoE"
# With one of these it is another kind of thing.
_OTHER_THING = frozenset({_NO_POE, _NOT_FED, _UNABLE["bridges"], _UNABLE["routes"], _UNABLE["vlan_aware"]})


def would_do(build: Build, wanted: Part, most: int = 3) -> tuple[Part, ...]:
    """The cheapest first; a part without a price comes last, of equal ones the first by name. None that can't be had.

    Where `wanted` is used, each of them bears the place and finds its power.
    """
    found = (other for other in _others(build, wanted) if not any(_lacking(build, wanted, other)))
    return tuple(sorted(found, key=_by_price)[:most])


class Near(NamedTuple):
    """A part that would nearly do, and in words what it lacks."""

    part: Part
    lacks: tuple[str, ...]


def nearly_do(build: Build, wanted: Part, most: int = 2) -> tuple[Near, ...]:
    """Those of the same kind that lack least, the cheapest of them first; what does something else altogether comes last."""
    same = (other for other in _others(build, wanted) if other.kind == wanted.kind)
    near = [Near(other, tuple(dict.fromkeys(_lacking(build, wanted, other)))) for other in same]
    near.sort(
        key=lambda each: (not _OTHER_THING.isdisjoint(each.lacks), len(each.lacks), _by_price(each.part))
    )
    return tuple(near[:most])


def _by_price(part: Part) -> tuple[float, str]:
    return price_of(part), part.name


def _others(build: Build, wanted: Part) -> Iterator[Part]:
    out = {wanted.name, *build.purchase.sold_out}
    return (other for other in build.library.values() if other.name not in out)


def _lacking(build: Build, wanted: Part, other: Part) -> Iterator[str]:
    """Clauses whose subject is the other part."""
    for name in _FORM:
        if getattr(wanted, name) != getattr(other, name):
            yield f"is of another {name.replace('_', ' ')}"
    for name in _ABILITIES:
        if getattr(wanted, name) is True and getattr(other, name) is not True:
            yield _UNABLE[name]
    if _rank(other.category) < _rank(wanted.category):
        yield f"is of category {other.category or 'none'}"
    yield from _jacks_lacking(wanted, other)
    yield from _cable_lacking(wanted, other)
    if not _as_high(wanted, other):
        yield "does not go into the same units"
    yield from _power_lacking(wanted, other)
    yield from lacking_where_used(build, wanted, other)


def _jacks_lacking(wanted: Part, other: Part) -> Iterator[str]:
    """By family, side and opening; the modules that fill the openings are lines of their own. Each jack at least as fast."""
    mine, its = _rates(wanted), _rates(other)
    for key, rates in mine.items():
        there = its.get(key, [])
        if len(there) < len(rates):
            yield f"has {len(there)} {key[0]} jacks, not {len(rates)}"
        elif any(have < want for have, want in zip(there, rates, strict=False)):
            yield f"has slower {key[0]} jacks"


def _rates(part: Part) -> dict[tuple[str, str, bool], list[float]]:
    """The fastest first; a passive jack has no rate of its own."""
    found: defaultdict[tuple[str, str, bool], list[float]] = defaultdict(list)
    for jack in part.jacks:
        rate = jack.rate.low if isinstance(jack.rate, Fact) else 0.0
        found[jack.family, jack.side, bool(jack.needs_module)].append(rate)
    return {key: sorted(rates, reverse=True) for key, rates in found.items()}


def _rank(category: str) -> tuple[int, str]:
    """
    >>> _rank("5e") < _rank("6") < _rank("6a")
    True
    """
    digits = category.rstrip("abcdefghijklmnopqrstuvwxyz")
    return (int(digits) if digits.isdecimal() else 0, category)


_CABLE = {
    "medium": "is of another medium",
    "rating": "has a jacket for another place",
    "family": "has other plugs",
    "is_stranded": "is not stranded alike",
    "is_screened": "is not screened alike",
    "conductor": "has another conductor",
    "ends": "has other ends",
}


def _cable_lacking(wanted: Part, other: Part) -> Iterator[str]:
    mine, its = wanted.cable, other.cable
    if mine is None or its is None:
        if mine is not its:
            yield "is another thing"
        return
    yield from (words for name, words in _CABLE.items() if getattr(mine, name) != getattr(its, name))
    if _rank(its.category) < _rank(mine.category):
        yield f"is of category {its.category or 'none'}"
    if its.fibres < mine.fibres:
        yield f"has {its.fibres} fibres, not {mine.fibres}"
    if wanted.kind != "cable" and not set(mine.lengths) <= set(its.lengths):
        yield "is not sold in all of its lengths"


def _as_high(wanted: Part, other: Part) -> bool:
    """No taller between the same rails; what stands by itself is not asked for rails."""
    if wanted.rack is None or wanted.rack.height == 0:
        return True
    return (
        other.rack is not None
        and 0 < other.rack.height <= wanted.rack.height
        and other.rack.width == wanted.rack.width
    )


def _power_lacking(wanted: Part, other: Part) -> Iterator[str]:
    """As much to give, over PoE and from its outlets, and fed in the same way."""
    gives, its = wanted.gives_poe, other.gives_poe
    if gives is not None and its is None:
        yield _NO_POE
    elif gives is not None and its is not None:
        if len(its.jacks) < len(gives.jacks):
            yield f"gives PoE at {len(its.jacks)} jacks, not {len(gives.jacks)}"
        if not _at_least(its.poe_class, gives.poe_class):
            yield "gives a lower class of PoE"
        if not _at_least(its.budget, gives.budget):
            yield "gives fewer watts of PoE"
    # Who is fed over the cable has no lead to go on instead.
    if wanted.takes_poe is not None and other.takes_poe is None:
        yield _NOT_FED
    if other.mains.outlets < wanted.mains.outlets:
        yield f"has {other.mains.outlets} outlets, not {wanted.mains.outlets}"
    if bool(other.mains.inlet) != bool(wanted.mains.inlet):
        yield "is fed by the mains" if other.mains.inlet else "has no mains inlet"


def _at_least(figure: Figure, wanted: Figure) -> bool:
    """A figure that nobody gave promises nothing, and nothing can be asked of it."""
    if not isinstance(wanted, Fact):
        return True
    return isinstance(figure, Fact) and figure.low >= wanted.low
