"""The rule on what a link says it is spare for: the ring that it closes passes there.

Takes a build; yields one outcome for each link between bridges that says `spare-for`.
"""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import Link
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.graphs.layer2 import Join, whole_layer2
from firstfix.graphs.loops import Loop, loops
from firstfix.rules.rule import Fine, Outcome, rule
from firstfix.rules.wording import listed


@rule("spare-link", Level.WARNING, COMMON_PRACTICE)
def spare_link(build: Build) -> Iterator[Outcome]:
    """A link that is spare for something closes a ring through it.

    Because: a spare that begins or ends elsewhere takes nothing over when the link fails that it is there for; nobody notices before.
    Compares: the device or jack that `spare-for` names with those of the loops that the link closes, each of which some VLAN, or
        everything, goes all the way round.
    Skips: links that don't join two bridges: a device's own second lead.
    Cannot tell: where another run that might close the ring has a fault.
    Remedy: name a jack or device on the path that the link backs up, or lead the link there.
    """
    spares = {link.id: link for link in build.links.values() if link.spare_for}
    if not spares:
        return
    view = whole_layer2(build)
    found = loops(view, lambda join: bool(build.links[join.link].spare_for))
    closing: dict[str, list[Loop]] = {link: [] for link in spares}
    for loop in found:
        for join in loop.joins:
            if join.link in closing:
                closing[join.link].append(loop)
    for join in view.joins:
        if (link := spares.pop(join.link, None)) is not None:
            yield _judge(build, link, join, closing[join.link])


def _judge(build: Build, link: Link, join: Join, closed: list[Loop]) -> Outcome:
    at = build.provenance.span(link.id, "spare-for")
    if any(_passes(build, link.spare_for, loop) for loop in closed):
        return Fine(link.id)
    if build.unsettled:
        return spare_link.waits(link.id, at, "another run, which has a fault")
    cure = Cure("name what the link really backs up, or lead it there")
    a, b = (ids.path(end) for end in (join.edge.a, join.edge.b))
    if not closed:
        message = f"the link between '{a}' and '{b}' is spare for '{link.spare_for}', but closes no ring: it backs nothing up"
        return spare_link.finding(message, link.id, at, cures=(cure,))
    others = dict.fromkeys(each.link for loop in closed for each in loop.joins if each.link != link.id)
    labels = tuple(Label(build.provenance.span(each), "it backs up this link") for each in others)
    ring = listed(ids.path(each) for each in dict.fromkeys(each for loop in closed for each in loop.devices))
    message = f"the link between '{a}' and '{b}' is spare for '{link.spare_for}', which is not on the ring that it closes: {ring}"
    return spare_link.finding(message, link.id, at, labels, cures=(cure,))


def _passes(build: Build, named: str, loop: Loop) -> bool:
    """Whether the loop goes through the device, or the jack, that a plan names."""
    device, _, jack = named.partition("/")
    if not jack:
        return ids.device(device) in loop.devices
    ends = (
        build.jacks[end] for join in loop.joins for each in join.channels for end in build.channels[each].ends
    )
    return any(ids.path(end.device) == device and end.name == jack for end in ends)


RULES = (spare_link,)
