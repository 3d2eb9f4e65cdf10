"""The rule on a link's `rate:`: what the author asks of a link against what its ends and its cabling carry.

Takes a build; yields one outcome for each link that says a rate. Whether a channel's length suits the rate that its ends agree on by
themselves is channel-length's.
"""

from collections.abc import Iterator

from firstfix.build.cabling import Channel, Link
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.range import at_least
from firstfix.rules.channel_facts import ChannelFacts, channel_facts
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.units import rate


@rule("link-rate", Level.ERROR, COMMON_PRACTICE)
def link_rate(build: Build) -> Iterator[Outcome]:
    """The jacks at both ends of a link carry the rate that the plan asks of it.

    Because: a 10 Gb/s link between two jacks of 1 Gb/s is cabled, paid for, and runs at 1 Gb/s.
    Compares: the rate of each channel of a link, which is the lowest of its ends' and of what stands in line, all lanes together
        [Mb/s] >= the link's `rate`. The lanes of an aggregate add up, though one flow keeps to one lane.
    Skips: links that say no `rate`; whether the cable carries the rate of its ends is channel-length's.
    Cannot tell: a jack whose rate nobody says; a link at fault, or of which a lane has no jacks.
    Remedy: jacks of that rate at both ends, more lanes, or a lower `rate`.
    """
    asked = {link.id: link for link in build.links.values() if link.rate is not None}
    if not asked:
        return
    channels: dict[str, list[Channel]] = {link: [] for link in asked}
    for channel in build.channels.values():
        if channel.link in channels:
            channels[channel.link].append(channel)
    for link_id, found in channels.items():
        yield _judge(build, channel_facts(build), asked[link_id], found)


def _judge(build: Build, facts: ChannelFacts, link: Link, channels: list[Channel]) -> Outcome:
    assert link.rate is not None
    at = build.provenance.span(link.id, "rate")
    if len(channels) < link.lanes:
        return link_rate.waits(link.id, at, "where the run leads")
    rates = [(channel, facts.rate(channel)) for channel in channels]
    unknown = [each.why for _, each in rates if isinstance(each, Unknown)]
    if unknown:
        return link_rate.cannot_tell(link.id, at, *dict.fromkeys(unknown))
    known = [(channel, each) for channel, each in rates if not isinstance(each, Unknown)]
    total = sum(each for _, each in known)
    if at_least(total, link.rate):
        return Fine(link.id)
    terms = tuple(Term(facts.shown(channel), each, "its slower end") for channel, each in known)
    return link_rate.finding(
        f"{facts.shown(channels[0])} is to run at {rate(link.rate)}, and runs at {rate(total)}",
        link.id,
        at,
        tuple(_slower_ends(build, channels[0], link.rate / link.lanes)),
        Measurement("rate", total, "at least", link.rate, "Mb/s", terms),
        (
            Cure("put devices with faster jacks at the slower end, or lower the link's 'rate'"),
            Cure(f"say 'lanes: {int(-(-link.rate // (total / link.lanes)))}' where both ends can make one link of them"),
        ),
    )  # fmt: skip


def _slower_ends(build: Build, channel: Channel, wanted: float) -> Iterator[Label]:
    for end in channel.ends:
        jack = build.jacks[end]
        if isinstance(jack.rate, Fact) and not at_least(jack.rate.low, wanted):
            device = build.devices[jack.device]
            at = build.provenance.span(device.id, "part")
            yield Label(at, f"'{device.name}/{jack.name}' runs at {rate(jack.rate.low)}")


RULES = (link_rate,)
