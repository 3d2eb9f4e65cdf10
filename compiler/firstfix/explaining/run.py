"""Why a run, end to end: its pieces, its jacks, how it was chosen, what it carries and what it feeds."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import Channel, Link
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.far_end import by_way_of, described
from firstfix.explaining.jack import chosen_jack
from firstfix.explaining.lines import counted, said, sections, shown_jack, vlan_names
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.power import poe_classes
from firstfix.explaining.views import views
from firstfix.parts.facts import Fact
from firstfix.units import metres, rate


def explain_link(build: Build, id_: str) -> Explanation:
    link = build.links[id_]
    parts = sections(
        ("pieces", _pieces(build, link)),
        ("from end to end", _channels(build, link)),
        ("jacks", _jacks(build, link)),
        ("carries", _carries(build, link)),
        ("power", _power(build, link)),
        ("asked for", _asked(build, link)),
    )
    return Explanation(id_, "run", link.shown, build.provenance.span(id_), parts)


def explain_channel(build: Build, id_: str) -> Explanation:
    """A channel is explained as the run that it is of."""
    return explain_link(build, build.channels[id_].link)


def _pieces(build: Build, link: Link) -> Iterator[Line]:
    for piece in views(build).pieces_of.get(link.id, ()):
        near, far = (shown_jack(end) for end in piece.ends)
        yield Line(ids.path(piece.id), f"{near} to {far}, {described(piece)}, {piece.part}")


def _channels(build: Build, link: Link) -> Iterator[Line]:
    for channel in views(build).channels_over.get(link.id, ()):
        near, far = (shown_jack(end) for end in channel.ends)
        yield Line("channel", f"{near} to {far}, {by_way_of(build, channel, channel.ends[0])}")
        yield _length(build, channel)
        why = "panels, outlets and things in line on the way; the equipment's own plugs do not count"
        yield Line("connections", counted(channel.connections, "connection"), WORKED_OUT, why)


def _length(build: Build, channel: Channel) -> Line:
    lengths = [build.pieces[each].length.figure for each in channel.pieces]
    known = [each.high for each in lengths if isinstance(each, Fact)]
    if len(known) < len(lengths):
        return Line("length", "not known", "", "one of its pieces has no known length")
    return Line("length", metres(sum(known)), WORKED_OUT, f"the sum of its {counted(len(known), 'piece')}")


def _jacks(build: Build, link: Link) -> Iterator[Line]:
    seen: set[str] = set()
    for piece in views(build).pieces_of.get(link.id, ()):
        for end in piece.ends:
            if shown_jack(end) not in seen:
                seen.add(shown_jack(end))
                yield chosen_jack(build, piece, build.jacks[end])


def _carries(build: Build, link: Link) -> Iterator[Line]:
    for channel in views(build).channels_over.get(link.id, ()):
        for end in channel.ends:
            setup = build.port_setups.get(end)
            if setup is not None:
                tagged = vlan_names(build, setup.tagged)
                value = f"untagged {vlan_names(build, (setup.untagged,)) or 'none'}" + (f", tagged {tagged}" if tagged else "")  # fmt: skip
                origin = WRITTEN if setup.basis == "the plan says so" else WORKED_OUT
                yield Line(shown_jack(end), value, origin, "" if origin == WRITTEN else setup.basis)


def _power(build: Build, link: Link) -> Iterator[Line]:
    for channel in views(build).channels_over.get(link.id, ()):
        for run in views(build).power.get(channel.id, ()):
            yield Line("PoE", f"{shown_jack(run.source)} feeds {shown_jack(run.sink)}", WORKED_OUT)
            yield from poe_classes(run)


def _asked(build: Build, link: Link) -> Iterator[Line]:
    """What the author said of the run beside its places."""
    if link.lanes > 1:
        yield said(build, link.id, "lanes", str(link.lanes))
    if link.spare_for:
        yield said(build, link.id, "spare for", link.spare_for, "spare-for")
    if link.rate is not None:
        yield said(build, link.id, "rate", rate(link.rate), "rate")
    if link.phase:
        yield said(build, link.id, "phase", link.phase)
