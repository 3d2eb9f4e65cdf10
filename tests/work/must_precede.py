"""What must come before what, said from the trade's side: read off a build's own tables, with nothing of the work's own reasoning.

Takes a build; gives pairs (before, after) of steps, wherever the build has both. Phases aside: of plans without phases.
"""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Piece
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.parts.part import ACTIVE_KINDS, TERMINATION_KINDS

Pair = tuple[str, str]


def step(verb: str, id_: str) -> str:
    return f"{verb}:{id_.replace(':', '/', 1)}"


def must_precede(build: Build, steps: frozenset[str]) -> frozenset[Pair]:
    """Every pair of `steps` whose order is not free."""
    rules = (_pulled, _terminated, _mounted, _closed_over, _plugged, _earthed, _powered, _proved, _set_anew)
    held = frozenset(pair for rule in rules for pair in rule(build) if steps.issuperset(pair))
    return held | frozenset(_wanted(build, steps))


def _wanted(build: Build, steps: frozenset[str]) -> Iterator[Pair]:
    """What the author wants, of a plan whose wishes can all be had; steps are named without the kind of their subject."""
    by_name: dict[str, str] = {}
    for each in steps:
        verb, _, subject = each.partition(":")
        by_name[f"{verb}:{subject.partition('/')[2].removesuffix('@rear')}"] = each
    for wish in build.working.after:
        yield by_name[wish.before], by_name[wish.step]


def _devices(build: Build, piece: Piece) -> list[Device]:
    return [build.devices[build.jacks[end].device] for end in piece.ends]


def _runs(build: Build) -> Iterator[Piece]:
    yield from (piece for piece in build.pieces.values() if piece.kind == RUN)


def _pulled(build: Build) -> Iterator[Pair]:
    """Building work first: ways, boxes, cabinets; and where there are holes to make, no cabinet in front of them."""
    for piece in _runs(build):
        pull = step("pull", piece.id)
        yield from ((step("prepare", way), pull) for way in piece.route)
        for device in _devices(build, piece):
            yield step("box", device.id), pull
            yield step("hang", device.cabinet), pull
    for cabinet in build.cabinets.values():
        yield step("anchor", cabinet.id), step("hang", cabinet.id)
        for way in build.ways.values():
            if cabinet.room in way.ends:
                yield step("prepare", way.id), step("hang", cabinet.id)


def _terminated(build: Build) -> Iterator[Pair]:
    """Pull, terminate, test, close."""
    for piece in _runs(build):
        test = step("test", piece.id)
        for end in piece.ends:
            yield step("pull", piece.id), step("terminate", end)
            yield step("terminate", end), test
        for device in _devices(build, piece):
            if device.part.kind == "panel":
                for end in piece.ends:
                    if build.jacks[end].device == device.id:
                        yield step("fit", device.id), step("terminate", end)
        yield from ((test, step("close", way)) for way in piece.route)


def _mounted(build: Build) -> Iterator[Pair]:
    """The cabinet and the shelf before what stands in them, what is heavy before what is light, labels read, dust gone."""
    heavy = [each for each in build.devices.values() if each.cabinet and _is_heavy(each)]
    for device in build.devices.values():
        fit = step("fit", device.id)
        yield step("hang", device.cabinet), fit
        yield step("fit", device.carried_by), fit
        if device.part.kind in ACTIVE_KINDS:
            yield step("unbox", device.id), fit
            yield "unpack:plan/all", step("unbox", device.id)
            yield step("sweep", device.room), fit
        # A shelf that carries something heavy goes in as the heavy thing does.
        if not _is_heavy(device) and device.cabinet:
            yield from ((step("fit", each.id), fit) for each in heavy if each.cabinet == device.cabinet)
    for piece in _runs(build):
        for cabinet in {device.cabinet for device in _devices(build, piece)}:
            yield from (
                (step("fit", each.id), step("pull", piece.id)) for each in heavy if each.cabinet == cabinet
            )


def _is_heavy(device: Device) -> bool:
    weight = device.part.weight
    return device.part.kind in ("ups", "storage") or getattr(weight, "high", 0) >= 5


def _closed_over(build: Build) -> Iterator[Pair]:
    """Test before close: an outlet, or a thing on a wall, hides the end of its run; a cover hides what stands behind it."""
    for piece in _runs(build):
        for device in _devices(build, piece):
            if device.part.kind == "outlet" or (device.part.kind in ACTIVE_KINDS and not device.cabinet):
                yield step("test", piece.id), step("fit", device.id)
                yield step("box", device.id), step("fit", device.id)
    for cover in (mount for mount in build.mounts if mount.is_over):
        for mount in build.mounts:
            is_behind = mount.low <= cover.high and cover.low <= mount.high and not mount.is_over
            if mount.cabinet == cover.cabinet and is_behind and mount.item:
                yield step("fit", mount.item), step("fit", cover.item)
                yield step("power", mount.item), step("fit", cover.item)
                for piece in build.pieces.values():
                    if any(device.id == mount.item for device in _devices(build, piece)):
                        yield step("patch", piece.id), step("fit", cover.item)
        yield step("fit", cover.item), step("finish", cover.cabinet)


def _plugged(build: Build) -> Iterator[Pair]:
    """A thing stands before it is plugged, a run is tested before anything is plugged to it, a loop closed last."""
    rear = {ids.path(end).removesuffix("@rear"): piece for piece in _runs(build) for end in piece.ends}
    for piece in build.pieces.values():
        for end in piece.ends:
            device = build.jacks[end].device
            plug = step("patch", piece.id) if piece.kind == CORD else step("connect", end)
            yield step("fit", device), plug
            behind = piece if piece.kind == RUN else rear.get(ids.path(end).removesuffix("@rear"))
            if behind is not None:
                yield step("test", behind.id), plug
            if build.links[piece.link].spare_for:
                yield from ((step("set-up", hop), plug) for hop in build.links[piece.link].hops)


def _earthed(build: Build) -> Iterator[Pair]:
    """Earth before power, and at both protectors before the run between buildings is plugged."""
    for cabinet in build.cabinets.values():
        yield step("hang", cabinet.id), step("bond", cabinet.id)
    for device in build.devices.values():
        yield step("fit", device.id), step("bond", device.id)
        yield step("bond", device.cabinet), step("power", device.id)
    for piece in build.pieces.values():
        hops = [build.devices[each] for each in build.links[piece.link].hops if each in build.devices]
        protectors = [each.id for each in hops if each.part.kind == "surge-protector"]
        at_one = any(device.id in protectors for device in _devices(build, piece))
        between = any(build.ways[way].joins_buildings for way in piece.route)
        for protector in protectors if at_one or between else ():
            yield step("bond", protector), step("patch", piece.id)
            yield from ((step("bond", protector), step("connect", end)) for end in piece.ends)


def _powered(build: Build) -> Iterator[Pair]:
    """Power last, and a source before what it feeds."""
    for device in build.devices.values():
        yield step("fit", device.id), step("power", device.id)
    for feed in build.mains_feeds:
        yield step("power", feed.source), step("power", feed.device)
    for run in build.power_runs.values():
        sink = run.feeds or build.jacks[run.sink].device
        yield step("power", build.jacks[run.source].device), step("power", sink)
        for piece in (build.pieces[each] for each in run.pieces):
            if not build.links[piece.link].spare_for:
                yield step("patch", piece.id), step("power", sink)
                yield from ((step("connect", end), step("power", sink)) for end in piece.ends)
    for piece in build.pieces.values():
        if not build.links[piece.link].spare_for:
            for end in piece.ends:
                plugged = build.jacks[end].device
                yield step("patch", piece.id), step("power", plugged)
                yield step("connect", end), step("power", plugged)
    for device in build.devices.values():
        setting = step("set-up", device.id)
        is_passing = device.part.kind in ("gateway", "switch") and bool(device.part.mains.inlet)
        if is_passing and not device.is_owned:
            # On the bench, before it meets the network.
            yield step("unbox", device.id), setting
            yield setting, step("fit", device.id)
            yield setting, step("power", device.id)
        elif device.part.kind not in TERMINATION_KINDS:
            yield step("power", device.id), setting
    yield from _routers_first(build)


def _routers_first(build: Build) -> Iterator[Pair]:
    """Who is set up in its place is asked for over a network in which addresses are given: the router runs, and is set up."""
    router_of = {
        claim.vlan: claim.device
        for claim in build.addresses
        if claim.address == build.vlans[claim.vlan].gateway
    }
    for device in build.devices.values():
        is_passing = device.part.kind in ("gateway", "switch") and bool(device.part.mains.inlet)
        if device.id in router_of.values() or (is_passing and not device.is_owned):
            continue
        for vlan in build.memberships.get(device.id, ()):
            if vlan in router_of:
                yield step("power", router_of[vlan]), step("set-up", device.id)
                yield step("set-up", router_of[vlan]), step("set-up", device.id)


def _proved(build: Build) -> Iterator[Pair]:
    """What is measured runs, has its settings and is plugged in; what is tidied and written down is measured."""
    for channel in build.channels.values():
        proof = step("prove", channel.link)
        for end in channel.ends:
            yield step("power", build.jacks[end].device), proof
            yield step("set-up", build.jacks[end].device), proof
        for id_ in channel.pieces:
            yield step("patch", id_), proof
            yield from ((step("connect", end), proof) for end in build.pieces[id_].ends)
        for hop in build.links[channel.link].hops:
            yield proof, step("finish", build.devices[hop].cabinet)
        yield proof, "record:plan/all"
    for cabinet in build.cabinets:
        yield step("finish", cabinet), "record:plan/all"
    for claim in build.addresses:
        yield step("power", claim.device), step("prove", claim.vlan)
        yield step("set-up", claim.device), step("prove", claim.vlan)
    for source in build.power_sources.values():
        for run in source.runs:
            sink = build.jacks[build.power_runs[run].sink].device
            yield step("power", sink), step("prove", source.device)
        yield step("prove", source.device), step("finish", build.devices[source.device].cabinet)


def _set_anew(build: Build) -> Iterator[Pair]:
    """A jack that a later phase uses is set on a device that runs with its first settings, before anything is plugged into it."""
    for piece in build.pieces.values():
        phase = build.links[piece.link].phase
        for end in piece.ends if phase else ():
            device = build.jacks[end].device
            anew = step("set-up", f"{device}@{phase}")
            yield step("set-up", device), anew
            yield step("power", device), anew
            yield anew, step("patch", piece.id)
            yield anew, step("connect", end)
