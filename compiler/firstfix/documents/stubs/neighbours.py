"""What is at the other end of a jack's cable, by way of which panels and outlets, and which jacks make one
aggregate with it.
"""

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.documents.stubs.lookup import Lookup

_OUTSIDE = "outside"  # a jack's side: towards the provider's line


def own_words(id_: str) -> str:
    """The author's words for an id, or for what is in the author's words already."""
    return ids.path(id_) or id_


def connected_to(look: Lookup, jack: str) -> str:
    """`ap-hall, jack 1, by way of panel/7`; for a jack that reaches nothing, where its cable ends."""
    far = look.far_jack(jack)
    if not far:
        ends = sorted({each for piece in look.pieces.get(jack, ()) for each in piece.ends} - {jack})
        return f"only as far as {', '.join(_place(each) for each in ends)}: nothing is wired beyond it"
    place = f"{look.owner(far).name}, jack {look.build.jacks[far].name}"
    passive = by_way_of(look, jack)
    return f"{place}, by way of {', '.join(passive)}" if passive else place


def by_way_of(look: Lookup, jack: str) -> tuple[str, ...]:
    """The passive jacks between a jack and the far one, each device's as it is first met: `panel/7`."""
    channel = look.channel(jack)
    if channel is None:
        return ()
    met: list[str] = []
    here = jack
    for piece in channel.pieces if channel.ends[0] == jack else reversed(channel.pieces):
        here = _other_end(look, look.build.pieces[piece].ends, look.build.jacks[here].device)
        met.append(_place(here))
    return tuple(met[:-1])


def _other_end(look: Lookup, ends: tuple[str, str], device: str) -> str:
    """A piece's end that is not at `device`; its own ends are in its link's order, not the channel's."""
    return ends[1] if look.build.jacks[ends[0]].device == device else ends[0]


def _place(jack: str) -> str:
    return ids.path(jack).removesuffix("@rear")


def members(look: Lookup, jack: str) -> tuple[str, ...]:
    """The device's jacks that make one aggregate with `jack`, itself among them, in their order; with none,
    itself alone.
    """
    channel = look.channel(jack)
    link = None if channel is None else look.build.links.get(channel.link)
    if channel is None or link is None or link.lanes < 2:
        return (jack,)
    ends = {end for lane in look.lanes[channel.link] for end in lane.ends}
    return tuple(each for each in look.build.jacks_of[look.build.jacks[jack].device] if each in ends)


def is_outside(look: Lookup, jack: str) -> bool:
    return look.build.jacks[jack].side == _OUTSIDE


def is_bridge(device: Device) -> bool:
    """Whether frames may pass through it; not known counts as yes."""
    return device.part.bridges is not False


def may_loop(look: Lookup, device: Device) -> bool:
    """Whether a loop can run through it: it bridges, and has two jacks to the inside."""
    jacks = look.build.jacks_of.get(device.id, ())
    return is_bridge(device) and sum(not is_outside(look, jack) for jack in jacks) > 1


def leads_to_bridge(look: Lookup, jack: str) -> bool:
    far = look.far_jack(jack)
    return bool(far) and may_loop(look, look.owner(far))
