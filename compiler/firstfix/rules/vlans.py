"""VLAN numbers, and VLANs that do not hang together."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from firstfix.build import ids
from firstfix.build.logical import Vlan
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.graphs.islands import Island, Islands, islands
from firstfix.graphs.layer2 import Layer2, vlans_of, whole_layer2
from firstfix.graphs.wired import wired_parts
from firstfix.parts.facts import Unknown
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.wording import listed
from firstfix.source.node import Mapping as Table
from firstfix.source.node import Scalar
from firstfix.span import Span
from firstfix.standards.layer2 import number_ranges

_BASIS = Basis("IEEE Std 802.1Q", "VLAN-aware bridges")


@rule("vlan-number", Level.ERROR, Basis("IEEE Std 802.1Q", "Table 9-2"))
def vlan_number(build: Build) -> Iterator[Outcome]:
    """Whether each VLAN has a number that bridges take, and no two have the same.

    Because: a bridge refuses the others, and two VLANs with one number are one network
    Compares: 1 <= number <= 4094 (0 only marks priority, 4095 is reserved)
    Cannot tell: a VLAN without a number
    Remedy: give the VLAN a number of its own from 1 to 4094
    """
    range_ = number_ranges()["vlan-id"]
    first: dict[int, Vlan] = {}
    for vlan in sorted(build.vlans.values(), key=lambda vlan: (_place(build, vlan.id), vlan.id)):
        at = build.provenance.span(vlan.id, "id")
        earlier = first.setdefault(vlan.vid, vlan)
        cure = Cure(f"take a number from {range_.lowest} to {range_.highest} that no other VLAN has")
        if vlan.vid == 0 and not _has_number(build, vlan):
            yield vlan_number.waits(vlan.id, at, "its number")
        elif not range_.admits(vlan.vid):
            relation, limit = (
                ("at least", range_.lowest) if vlan.vid < range_.lowest else ("at most", range_.highest)
            )
            terms = (Term("its `id`", vlan.vid, "as the plan says"),)
            measured = Measurement("number of the VLAN", vlan.vid, relation, limit, "", terms)
            message = f"the VLAN '{vlan.name}' has the number {vlan.vid}, which no bridge takes"
            yield vlan_number.finding(
                message, vlan.id, at, measurement=measured, cures=(cure,), basis=range_.basis
            )
        elif earlier is not vlan:
            label = Label(build.provenance.span(earlier.id, "id"), f"'{earlier.name}' has it")
            message = f"the VLANs '{earlier.name}' and '{vlan.name}' have the same number {vlan.vid}"
            yield vlan_number.finding(message, vlan.id, at, (label,), cures=(cure,))
        else:
            yield Fine(vlan.id)


def _has_number(build: Build, vlan: Vlan) -> bool:
    """Whether this number is written; where none is, or one that cannot be, that has its finding."""
    node = build.provenance.node(vlan.id)
    value = node.value("id") if isinstance(node, Table) else None
    return isinstance(value, Scalar) and value.text.lstrip("+-0") == (str(vlan.vid) if vlan.vid else "")


def _place(build: Build, id_: str) -> Span:
    return build.provenance.span(id_) or Span("", 0, 0, 0, 0)


@rule("vlan-island", Level.ERROR, _BASIS)
def vlan_island(build: Build) -> Iterator[Outcome]:
    """Whether all members of each VLAN reach each other, and its router, over links that carry it.

    Because: what is cut off gets no address and reaches nothing, though every lamp is green
    Compares: the members of each VLAN (plugged in or wireless, and bridges with their own address in it), with what is joined by links
    whose two ends both carry it; and, at each bridge that knows no VLANs, how many meet there: only one may. A VLAN with members
    that reaches others or the internet needs a router.
    Skips: devices without any link, and parts that no wiring joins at all (device-cut-off); jacks towards the provider's line
    Cannot tell: parts cut off where a link has a fault of its own; a bridge of which nobody says whether it knows VLANs, with two of them
    Remedy: add the VLAN to tagged on the link where the path breaks; or put a bridge in place that knows VLANs
    """
    view = whole_layer2(build)
    yield from _at_bridges(build, view)
    part_of = _wired_parts(build)
    lacking: list[Vlan] = []
    for found in islands(build, view):
        yield from _vlan(build, found, part_of, lacking)
    if lacking:
        yield from _without_router(build, lacking)


@once_per_build
def _doubtful(build: Build) -> frozenset[str]:
    """Devices with a link that did not become a channel; that has its own finding, and nothing follows from it."""
    wired = {build.pieces[piece].link for channel in build.channels.values() for piece in channel.pieces}
    return build.unsettled | {
        hop for link in build.links.values() if link.id not in wired for hop in link.hops
    }


def _vlan(
    build: Build,
    found: Islands,
    part_of: Mapping[str, int],
    lacking: list[Vlan],
) -> Iterator[Outcome]:
    """Outcomes of one VLAN; whether it lacks a router is noted in `lacking`, since that is mostly one fault for all of them."""
    vlan = build.vlans[found.vlan]
    at = build.provenance.span(vlan.id)
    loose = [each for each in found.unplugged if each in _doubtful(build)]
    hidden = [
        island
        for island in found.others
        if not _doubtful(build).isdisjoint((*island.devices, *island.members))
    ]
    if loose or hidden:
        names = [*loose, *(each for island in hidden for each in island.members)]
        yield vlan_island.waits(
            vlan.id, at, f"where the links of {listed(ids.path(each) for each in names)} lead"
        )
    apart = [island for island in found.others if island not in hidden and _is_joined(found, island, part_of)]
    for island in apart:
        yield _cut_off(build, vlan, found, island)
    needs_router = bool(vlan.subnet and vlan.reaches and (found.main or found.others)) and not found.router
    if needs_router:
        lacking.append(vlan)
    if not (loose or needs_router or found.others):
        yield Fine(vlan.id)


def _wired_parts(build: Build) -> dict[str, int]:
    return {device: number for number, part in enumerate(wired_parts(build)) for device in part}


def _is_joined(found: Islands, island: Island, part_of: Mapping[str, int]) -> bool:
    """What isn't even wired to the rest is the business of another rule, for every one of its devices."""
    return found.main is not None and part_of[found.main.members[0]] == part_of[island.members[0]]


def _cut_off(build: Build, vlan: Vlan, found: Islands, island: Island) -> Outcome:
    names = listed(ids.path(each) for each in island.members)
    assert found.main is not None
    towards = found.router if found.router in found.main.members else found.main.members[0]
    verb = "is" if len(island.members) == 1 else "are"
    message = f"in the VLAN '{vlan.name}', {names} {verb} cut off from '{ids.path(towards)}'"
    first = build.provenance.span(island.members[0])
    if island.broken is None:
        message += ": no bridge between them passes it on"
        return vlan_island.finding(
            message, vlan.id, first, cures=(Cure("link the bridges of the two parts"),)
        )
    a, b = (ids.path(each) for each in (island.broken.edge.a, island.broken.edge.b))
    message += f": the link between '{a}' and '{b}' does not carry it"
    link = island.broken.link
    at = build.provenance.span(link, "tagged")
    cure = Cure(f"add '{vlan.name}' to 'tagged' of that link, or leave 'tagged' out: it is worked out then")
    return vlan_island.finding(
        message, vlan.id, at, (Label(first, "the first that is cut off"),), cures=(cure,)
    )


def _without_router(build: Build, lacking: list[Vlan]) -> Iterator[Outcome]:
    """One finding where no device routes at all; else one for each VLAN that is not linked to what routes."""
    unsure = sorted(each.name for each in build.devices.values() if isinstance(each.part.routes, Unknown))
    if unsure:
        for vlan in lacking:
            at = build.provenance.span(vlan.id, "reaches")
            yield vlan_island.cannot_tell(vlan.id, at, f"whether {listed(unsure)} can route")
        return
    cures = (Cure("link a gateway to the bridges"),)
    if len(lacking) > 1 and not any(each.part.routes is True for each in build.devices.values()):
        first, *others = lacking
        names = listed(vlan.name for vlan in lacking)
        labels = tuple(
            Label(build.provenance.span(each.id, "reaches"), f"so does '{each.name}'") for each in others
        )
        yield vlan_island.finding(
            f"the VLANs {names} reach beyond themselves, but nothing in the plan routes",
            first.id,
            build.provenance.span(first.id, "reaches"),
            labels,
            cures=cures,
        )
        return
    for vlan in lacking:
        message = f"the VLAN '{vlan.name}' reaches {listed(vlan.reaches)}, but no router is linked to it"
        yield vlan_island.finding(message, vlan.id, build.provenance.span(vlan.id, "reaches"), cures=cures)


def _may_know_no_vlans(build: Build, bridge: str) -> bool:
    part = build.devices[bridge].part
    return part.vlan_aware is not True or isinstance(part.bridges, Unknown)


def _at_bridges(build: Build, view: Layer2) -> Iterator[Outcome]:
    """What only a bridge that knows VLANs can do, asked of each bridge that doesn't, or may not."""
    if not build.vlans:
        return
    wanted: defaultdict[str, set[str]] = defaultdict(set)
    tagged: defaultdict[str, set[str]] = defaultdict(set)
    counted: defaultdict[str, int] = defaultdict(int)
    asked = {bridge for bridge in view.bridges if _may_know_no_vlans(build, bridge)}
    for join in (*view.joins, *view.plugs) if asked else ():
        for channel in join.channels if asked & {join.edge.a, join.edge.b} else ():
            setups = [
                build.port_setups[end] for end in build.channels[channel].ends if end in build.port_setups
            ]
            for device in asked & {join.edge.a, join.edge.b}:
                counted[device] += 1
                for setup in setups:
                    wanted[device] |= vlans_of(setup)
                    tagged[device].update(setup.tagged)
    for bridge in sorted(asked):
        part = build.devices[bridge].part
        at = build.provenance.span(bridge)
        wanted[bridge].update(each for each in build.memberships.get(bridge, ()) if each and counted[bridge])
        if isinstance(part.bridges, Unknown) and counted[bridge] > 1:
            yield vlan_island.cannot_tell(
                bridge, at, f"whether '{ids.path(bridge)}' bridges between its jacks"
            )
        elif isinstance(part.vlan_aware, Unknown) and len(wanted[bridge]) > 1:
            yield vlan_island.cannot_tell(bridge, at, f"whether '{ids.path(bridge)}' knows VLANs")
        elif part.vlan_aware is False and counted[bridge]:
            yield _unmanaged(build, bridge, wanted[bridge], tagged[bridge])


def _unmanaged(build: Build, bridge: str, wanted: set[str], tagged: set[str]) -> Outcome:
    name, at = ids.path(bridge), build.provenance.span(bridge)
    cure = Cure("put a bridge there that knows VLANs")
    if len(wanted) > 1:
        met = listed(build.vlans[each].name for each in sorted(wanted))
        message = f"the VLANs {met} meet at '{name}', which knows no VLANs and makes one network of them"
        return vlan_island.finding(message, bridge, at, cures=(cure,))
    if tagged:
        sent = listed(build.vlans[each].name for each in sorted(tagged))
        message = f"'{name}' knows no VLANs, but {sent} comes to it tagged, and what is plugged into it can't read that"
        return vlan_island.finding(
            message, bridge, at, cures=(Cure(f"say 'vlan: {ids.path(min(tagged))}' on '{name}'"), cure)
        )
    return Fine(bridge)


RULES: tuple[Rule, ...] = (vlan_number, vlan_island)
