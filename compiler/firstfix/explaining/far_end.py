"""What is at the other end of a piece or a channel, in few words."""

from firstfix.build.cabling import Channel, Piece
from firstfix.build.model import Build
from firstfix.explaining.lines import shown_jack
from firstfix.explaining.views import views
from firstfix.parts.facts import Fact
from firstfix.units import metres


def far_end(build: Build, jack: str, piece: Piece) -> str:
    """`gateway/1, cord of 1 m`, or with what lies between: `ap-house/1 by way of panel/3, cord of 0.5 m to panel/3`."""
    near = shown_jack(other_end(piece.ends, jack))
    for channel in views(build).channels.get(jack, ()):
        far = shown_jack(other_end(channel.ends, jack))
        if far != near:
            return f"{far}, {by_way_of(build, channel, jack)}; {described(piece)} to {near}"
    return f"{near}, {described(piece)}"


def other_end(ends: tuple[str, str], jack: str) -> str:
    return ends[1] if ends[0] == jack else ends[0]


def described(piece: Piece) -> str:
    """`installed run of 13.4 m`"""
    length = piece.length.figure
    return (
        f"{piece.kind} of {metres(length.high)}"
        if isinstance(length, Fact)
        else f"{piece.kind} of unknown length"
    )


def by_way_of(build: Build, channel: Channel, jack: str) -> str:
    """`by way of panel/3 and out-hall/1`, in the order as seen from `jack`."""
    names = [_jack_at(build, channel, each) for each in channel.through]
    if jack == channel.ends[1]:
        names.reverse()
    return f"by way of {', '.join(names)}" if names else "direct"


def _jack_at(build: Build, channel: Channel, device: str) -> str:
    """The first jack of a passive device that the channel's pieces end at."""
    for piece in channel.pieces:
        for end in build.pieces[piece].ends:
            if build.jacks[end].device == device:
                return shown_jack(end)
    return build.devices[device].name
