"""Cures for a copper channel by another medium: fibre, or direct attach for what is near, and what they cost.

Takes a build, a channel and its pieces; gives cures with part names and prices, or None where the library has nothing for it.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN, Channel
from firstfix.build.model import Build
from firstfix.finding.model import Cure
from firstfix.graphs.wired import wired_jacks
from firstfix.parts.facts import Fact
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import CAGE_FAMILIES, Part
from firstfix.physics.range import at_most
from firstfix.rules.channel_facts import powered_channels
from firstfix.rules.channel_lengths import Pieces, laid
from firstfix.rules.prices import Wanted, cheapest, cost, listed, price_of
from firstfix.standards.optical import optical_reaches
from firstfix.standards.twisted_pair import twinax_reaches

_EXPOSURES = ("indoor", "outdoor", "buried")


class _End(NamedTuple):
    """One end of the channel: the device, and the family of its free cages that suits, or "" if it has none."""

    device: str
    cage: str


def _ends(build: Build, channel: Channel, wanted: float) -> tuple[_End, _End]:
    near, far = (_end(build, build.jacks[jack].device, wanted) for jack in channel.ends)
    return near, far


def _end(build: Build, device: str, wanted: float) -> _End:
    used = wired_jacks(build)
    jacks = (build.jacks[jack] for jack in build.jacks_of.get(device, ()) if jack not in used)
    free = {
        jack.family
        for jack in jacks
        if jack.family in CAGE_FAMILIES and isinstance(jack.rate, Fact) and jack.rate.low >= wanted
    }
    return _End(build.devices[device].name, min(free, default=""))


def direct_attach(build: Build, channel: Channel, pieces: Pieces, wanted: float) -> Cure | None:
    """A twinax cord between free cages of one family, if the library has one long enough for what is laid now."""
    near, far = _ends(build, channel, wanted)
    if not near.cage or near.cage != far.cage:
        return None
    length = sum(laid(piece) for piece, _ in pieces)
    part = cheapest(build, _twinax, near.cage, length, wanted)
    if part is None:
        return None
    what = f"'{near.device}' and '{far.device}'"
    price = cost(build, [Wanted(part.name, 1)])
    return Cure(f"join the free cages of {what} by direct attach, '{part.name}': {price}")


def _twinax(build: Build, cage: str, length: float, wanted: float) -> Iterator[Part]:
    reach = {row.phy: row.length_m for row in twinax_reaches() if row.rate_mbps >= wanted}
    for part in build.library.values():
        form = part.cable
        if form is None or (form.medium, form.family) != ("twinax", cage):
            continue
        if any(length <= sold <= reach.get(form.category, 0) for sold in form.lengths):
            yield part


def fibre(build: Build, channel: Channel, pieces: Pieces, wanted: float) -> Cure | None:
    """Fibre from end to end, with a module at each; an end without a free cage gets a switch that has one."""
    offer = fibre_offer(build, channel, pieces, wanted)
    return None if offer is None else Cure(f"use fibre: {offer}")


def fibre_offer(build: Build, channel: Channel, pieces: Pieces, wanted: float) -> str | None:
    """What the cheapest fibre that reaches takes, and its price; None where the library has not all of it."""
    ends = _ends(build, channel, wanted)
    length = sum(laid(piece) for piece, _ in pieces)
    grades = sorted({row.grade.lower() for row in optical_reaches().values()})
    need = _exposure(pieces)
    cables = (cheapest(build, _fibres, grade, need) for grade in grades)
    # Modules of unlike cages differ in rate: a switch that is added gets the cage that the other end has.
    families = next(((end.cage,) for end in ends if end.cage), CAGE_FAMILIES)
    pairs = ((cable, family) for cable in cables if cable is not None for family in families)
    lit = (_lit(build, cable, ends, length, wanted, family) for cable, family in pairs)
    offers = [offer for offer in lit if offer is not None]
    if not offers:
        return None
    bought = min(offers, key=lambda offer: (_sum(build, offer), listed(offer)))
    without = " and ".join(f"'{end.device}'" for end in ends if not end.cage)
    lacking = f" ({without} without a free cage)" if without else ""
    power = "; PoE does not go over it" if channel.id in powered_channels(build) else ""
    return f"{listed(bought)}{lacking}, {cost(build, bought)}, plugs or pigtails apart{power}"


def _sum(build: Build, bought: tuple[Wanted, ...]) -> float:
    return sum(each.amount * price_of(build.library[each.part]) for each in bought)


def _exposure(pieces: Pieces) -> int:
    """What a fibre must bear: what the installed runs bear now, else what the cords do."""
    runs = [form.rating for piece, form in pieces if piece.kind == RUN]
    ratings = runs or [form.rating for _, form in pieces]
    return max((_EXPOSURES.index(each) for each in ratings if each in _EXPOSURES), default=0)


def _fibres(build: Build, grade: str, need: int) -> Iterator[Part]:
    for part in parts_of_kind(build.library, "cable"):
        form = part.cable
        if form is None or (form.medium, form.category) != ("fibre", grade):
            continue
        if form.rating in _EXPOSURES[need:]:
            yield part


def _lit(
    build: Build, cable: Part, ends: tuple[_End, _End], length: float, wanted: float, family: str
) -> tuple[Wanted, ...] | None:
    """The cable, and at each end a module and, where there is no cage, a switch; None where the library has none or it is too far."""
    assert cable.cable is not None
    grade = cable.cable.category
    bought = [Wanted(cable.name, length, by_metre=True)]
    rates: set[float] = set()
    for end in ends:
        cage = end.cage
        if not cage:
            switch = cheapest(build, _caged, wanted, family)
            if switch is None:
                return None
            cage = family
            bought.append(Wanted(switch.name, 1))
        module = cheapest(build, _modules, cage, grade, wanted)
        if module is None:
            return None
        bought.append(Wanted(module.name, 1))
        rates.update(spec.rate.high for spec in module.jacks if isinstance(spec.rate, Fact))
    return tuple(bought) if len(rates) == 1 and _reaches(rates.pop(), grade, length) else None


def _reaches(rate_mbps: float, grade: str, length: float) -> bool:
    """Whether every signalling of the rate over this grade goes as far; see optical_channels for the loss."""
    rows = [row for row in optical_reaches().values() if (row.rate_mbps, row.grade) == (rate_mbps, grade.upper())]  # fmt: skip
    return bool(rows) and all(at_most(length, row.sure_m) for row in rows)


def _modules(build: Build, cage: str, grade: str, wanted: float) -> Iterator[Part]:
    for part in parts_of_kind(build.library, "transceiver"):
        fast = any(isinstance(spec.rate, Fact) and spec.rate.low >= wanted for spec in part.jacks)
        if (part.fits, part.category) == (cage, grade) and fast:
            yield part


def _caged(build: Build, wanted: float, family: str) -> Iterator[Part]:
    """Switches with a copper jack and a cage of this family, both at the rate."""
    for part in parts_of_kind(build.library, "switch"):
        fast = {spec.family for spec in part.jacks if isinstance(spec.rate, Fact) and spec.rate.low >= wanted}
        if {"rj45", family} <= fast:
            yield part
