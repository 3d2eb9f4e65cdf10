"""The rate at which a link should come up: what the reader compares the port's lamp or status page with."""

from firstfix.build.cabling import Channel, Piece
from firstfix.documents.stubs.lookup import Lookup
from firstfix.parts.facts import Figure, Unknown, exactly, high
from firstfix.standards.twisted_pair import category, pair_reach, pair_reaches


def expected_rate(look: Lookup, channel: Channel) -> Figure:
    """Mb/s: the slower of the two jacks, and no more than the weakest cable carries over its length.

    Takes both ends to negotiate (IEEE 802.3 Clause 28) and reach from standards.twisted_pair.
    Unknown where a jack's rate or a copper cable's category is.
    """
    jacks = [look.build.jacks[each] for each in channel.ends]
    for jack in jacks:
        if isinstance(jack.rate, Unknown):
            return Unknown(f"the rate of {look.owner(jack.id).name}'s jack {jack.name} is not known")
    slower = min(rate for jack in jacks if (rate := high(jack.rate)) is not None)
    return (
        _carried(look, channel, slower) if channel.medium == "copper" else exactly(slower, "the slower jack")
    )


def _carried(look: Lookup, channel: Channel, rate: float) -> Figure:
    pieces = tuple(look.build.pieces[each] for each in channel.pieces if each in look.build.pieces)
    weakest = _weakest_category(look, pieces)
    if isinstance(weakest, Unknown):
        return weakest
    length = sum(high(piece.length.figure) or 0.0 for piece in pieces)
    for step in sorted({row.rate_mbps for row in pair_reaches() if row.rate_mbps <= rate}, reverse=True):
        reach = pair_reach(step, weakest)
        if reach is not None and length <= reach.possible_m:
            return exactly(step, "the slower jack and the weakest cable")
    return Unknown(f"no rate is published for {length:g} m of category {weakest}")


def _weakest_category(look: Lookup, pieces: tuple[Piece, ...]) -> str | Unknown:
    ranks: list[tuple[int, str]] = []
    for piece in pieces:
        part = look.build.library.get(piece.part)
        found = None if part is None or part.cable is None else category(part.cable.category)
        if found is None:
            return Unknown(f"the category of the cable '{piece.part}' is not known")
        ranks.append((found.rank, found.name))
    return min(ranks)[1] if ranks else Unknown("no cable is known between the two jacks")
