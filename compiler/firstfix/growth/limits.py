"""What can run out, with what is left of it and what one more takes: from two builds, or reckoned from one.

Takes a build; adds to graphs.headroom what that has not: jacks that give PoE, addresses, leases, and mains outlets. How many more fit is then
the least over all limits, each taken alone. That is near the truth and quickly found, and guides the search, which is the truth.
"""

import math
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping
from ipaddress import ip_address, ip_network

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.logical import Vlan
from firstfix.build.model import Build
from firstfix.graphs.headroom import BATTERY, FILL, JACKS, POE, Headroom, headroom
from firstfix.graphs.mains_load import mains_loads, strips
from firstfix.graphs.way_fill import filled, in_pipes
from firstfix.growth.model import MOST, Behind, Spot
from firstfix.parts.facts import Fact
from firstfix.physics.mains import TURNING, outlets_needed
from firstfix.physics.pathway import fill_limit

POE_JACKS, ADDRESSES, LEASES, OUTLETS = "jacks giving PoE", "addresses", "leases", "mains outlets"
Key = tuple[str, str, str]
# Dust of floating point is no use of anything.
_DUST = 1e-6
# Hosts below are left to routers, as in resolve.addresses: common practice, no source.
_FIRST = 10


def rows(build: Build) -> dict[Key, Headroom]:
    """By what, id and of. A battery has no limit, so it is left out."""
    found = [each for each in headroom(build) if each.what != BATTERY]
    for more in (_poe_jacks, _addresses, leases, _outlets):
        found += more(build)
    return {(each.what, each.id, each.of): each for each in found}


def behind(
    before: Build, now: Mapping[Key, Headroom], one_more: Mapping[Key, Headroom]
) -> tuple[Behind, ...]:
    """All that one more takes something of, the nearest first; what cannot be told comes last."""
    found = []
    for key, row in now.items():
        then = one_more.get(key)
        if then is None:
            continue
        if row.used is None or then.used is None or row.limit is None:
            if row != then or row.what in (POE, FILL):
                found.append(_untold(row))
        elif then.used - row.used > _DUST:
            found.append(_reckoned(before, row, then.used - row.used))
    return in_order(found)


def nearest(near: tuple[Behind, ...]) -> int:
    """How many more until the first of them."""
    return min((each.more for each in near if each.more is not None), default=MOST)


def further(now: Mapping[Key, Headroom], near: tuple[Behind, ...]) -> int:
    """How many more fit into what is left in `now`, each taking what it takes in `near`: a guess."""
    found = [MOST]
    for limit in near:
        row = now.get((limit.what, limit.id, limit.of))
        if row is not None and row.left is not None and limit.each > 0:
            found.append(math.floor(row.left / limit.each + _DUST))
    return max(0, min(found))


def in_order(found: Iterable[Behind]) -> tuple[Behind, ...]:
    """The nearest first; what cannot be told comes last."""
    return tuple(
        sorted(found, key=lambda each: (each.more is None, each.more or 0, each.what, each.id, each.of))
    )


def _untold(row: Headroom) -> Behind:
    return Behind(row.what, row.id, row.of, row.unit, None, 0.0, None, row.why or "it is not known")


def _reckoned(build: Build, row: Headroom, each: float) -> Behind:
    assert row.used is not None
    assert row.limit is not None
    if row.what == FILL:
        count, left = _fill(build, row, each)
    else:
        left = row.limit - row.used
        count = max(0, math.floor(left / each + _DUST))
    return Behind(row.what, row.id, row.of, row.unit, left, each, count)


def _fill(build: Build, row: Headroom, each: float) -> tuple[int, float]:
    """The share that is allowed depends on how many cables there are: 53 % for one, 31 % for two, 40 % for more.

    NFPA 70 (2017), Chapter 9 Table 1.
    """
    assert row.used is not None
    cables = len(in_pipes(build)[row.id])
    left = 100 * fill_limit(max(cables, 3)) - row.used
    for count in range(1, MOST + 1):
        if row.used + count * each > 100 * fill_limit(cables + count) + _DUST:
            return count - 1, left
    return MOST, left


def _poe_jacks(build: Build) -> Iterator[Headroom]:
    wired = {joint.jack for joint in build.joints}
    for source in build.power_sources:
        device = build.devices[build.power_sources[source].device]
        giving = device.part.gives_poe.jacks if device.part.gives_poe is not None else ()
        used = sum(ids.jack(device.name, name) in wired for name in giving)
        if len(giving) > 1:
            yield Headroom(POE_JACKS, device.id, "", "", used, len(giving))


def _addresses(build: Build) -> Iterator[Headroom]:
    """Hosts from the tenth on that are not lent, as resolve.addresses gives them out; small subnets from their first on."""
    held: defaultdict[str, set[int]] = defaultdict(set)
    for claim in build.addresses:
        held[claim.vlan].add(int(ip_address(claim.address)))
    for vlan in build.vlans.values():
        if not vlan.subnet:
            continue
        network = ip_network(vlan.subnet)
        first = int(network.network_address)
        start = first + (_FIRST if network.num_addresses > 2 * _FIRST else 1)
        end = first + network.num_addresses - 2
        low, high = _lent(vlan)
        used = held[vlan.id] | ({int(ip_address(vlan.gateway))} if vlan.gateway else set())
        taken = sum(start <= each <= end and not low <= each <= high for each in used)
        lent = max(0, min(high, end) - max(low, start) + 1)
        yield Headroom(ADDRESSES, vlan.id, "", "", taken, end - start + 1 - lent)


def _lent(vlan: Vlan) -> tuple[int, int]:
    """First and last address that is lent; the last before the first where none is."""
    low, high = vlan.leases
    return (int(ip_address(low)), int(ip_address(high))) if low and high else (0, -1)


def leases(build: Build) -> Iterator[Headroom]:
    """What the plan's own devices borrow; guests with telephones are not among them."""
    borrowed: Counter[str] = Counter()
    for decision in build.decisions:
        if decision.attribute == "address" and decision.value == "leased":
            borrowed[build.memberships[decision.subject][0]] += 1
    for vlan in build.vlans.values():
        low, high = _lent(vlan)
        if high >= low:
            yield Headroom(LEASES, vlan.id, "", "", borrowed[vlan.id], high - low + 1)


def _outlets(build: Build) -> Iterator[Headroom]:
    """Of strips and UPSs, with what adaptors cover; and of rooms, as far as somebody counted them."""
    loads = mains_loads(build)
    for strip in strips(build):
        blocks = [each.part.mains.blocks for each in loads.plugged_into(strip.id)]
        known = [int(each.high) if isinstance(each, Fact) else 0 for each in blocks]
        used = outlets_needed(known, build.mains.plug in TURNING) if known else 0
        yield Headroom(OUTLETS, strip.id, "", "", used, strip.part.mains.outlets)
    for room in build.rooms.values():
        plugged = len(loads.plugged_into(room.id))
        limit = room.mains_outlets.low if isinstance(room.mains_outlets, Fact) else None
        why = "" if limit is not None else "how many mains outlets are free there"
        yield Headroom(OUTLETS, room.id, "", "", plugged, limit, why)


def share_of(build: Build, spot: Spot) -> dict[Key, float]:
    """What the thing that is there already takes of each row, read off the build without compiling it again.

    PoE, jacks of the switch and of panels on the way, and the bores that its cables go through; not what follows from those, such as
    the load on the mains and the warmth around the switch.
    """
    like, switch = ids.device(spot.like), ids.device(spot.switch)
    found: defaultdict[Key, float] = defaultdict(float)
    for run in build.power_runs.values():
        if build.jacks[run.sink].device == like and isinstance(run.reserved, Fact):
            found[POE, build.jacks[run.source].device, ""] += run.reserved.high
    for channel in build.channels.values():
        ends = {build.jacks[end].device for end in channel.ends}
        if switch in ends and like in ends | set(channel.through):
            pieces = [build.pieces[each] for each in channel.pieces]
            found |= _jacks_of(build, switch, pieces)
            found |= _bores_of(build, pieces)
            break
    return {key: value for key, value in found.items() if value}


def _jacks_of(build: Build, switch: str, pieces: list[Piece]) -> Counter[Key]:
    found: Counter[Key] = Counter()
    jacks = {build.jacks[end]._replace(id="", face="") for piece in pieces for end in piece.ends}
    for jack in sorted(jacks, key=lambda each: (each.device, each.order)):
        if jack.device == switch or build.devices[jack.device].part.kind == "panel":
            found[JACKS, jack.device, jack.family] += 1
            found[POE_JACKS, jack.device, ""] += _gives(build, jack.device, jack.name)
    return found


def _bores_of(build: Build, pieces: list[Piece]) -> dict[Key, float]:
    found: dict[Key, float] = {}
    for piece in pieces:
        for way in piece.route:
            if way in in_pipes(build) and (fill := filled(build, build.ways[way], [piece]).fill) is not None:
                found[FILL, way, ""] = found.get((FILL, way, ""), 0.0) + 100 * fill
    return found


def _gives(build: Build, device: str, name: str) -> bool:
    gives = build.devices[device].part.gives_poe
    return gives is not None and name in gives.jacks


def reckoned(build: Build, now: Mapping[Key, Headroom], spot: Spot) -> tuple[Behind, ...]:
    """As `behind`, without a second build: by what the like thing takes of each."""
    found = []
    for key, each in share_of(build, spot).items():
        row = now.get(key)
        if row is not None:
            unknown = row.used is None or row.limit is None
            found.append(_untold(row) if unknown else _reckoned(build, row, each))
    return in_order(found)


def with_missing(near: tuple[Behind, ...], more: tuple[Behind, ...]) -> tuple[Behind, ...]:
    """`near`, and of `more` what is not among it: where not even one fits, a second build shows nothing of what it would take."""
    known = {(each.what, each.id, each.of) for each in near}
    return in_order([*near, *(each for each in more if (each.what, each.id, each.of) not in known)])
