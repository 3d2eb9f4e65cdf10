"""Proof that the network does what was meant: rates, PoE, reach, addresses, names. Then tidy and record."""

from collections.abc import Iterable, Iterator, Sequence

from firstfix.build.cabling import Channel, Link
from firstfix.build.logical import AddressClaim, Vlan
from firstfix.build.power import PowerSource
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import rate, watts
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey, end_name

# The plan language's words for what lies beyond the gateway, and for the name servers wherever they are.
_INTERNET = "internet"
_NAMES = "names"


def proving_tasks(site: Survey) -> Iterator[Task]:
    proofs = [*_links(site), *_budgets(site), *_vlans(site), *_names(site)]
    yield from proofs
    finishing = [*_finishing(site, proofs)]
    yield from finishing
    yield _record(site, [*proofs, *finishing])


def _links(site: Survey) -> Iterator[Task]:
    channels: dict[str, list[Channel]] = {}
    for channel in site.build.channels.values():
        channels.setdefault(channel.link, []).append(channel)
    for link in site.build.links.values():
        if link.id in channels:
            yield _link(site, link, channels[link.id])


def _link(site: Survey, link: Link, channels: list[Channel]) -> Task:
    near = site.device_at(channels[0].ends[0])
    ends = dict.fromkeys(site.build.jacks[end].device for channel in channels for end in channel.ends)
    return site.task(
        "prove",
        link.id,
        Stage.PROVE,
        f"Read the link rate of {link.shown}",
        near.room,
        phase=max(
            (site.phase_of(site.build.pieces[piece]) for channel in channels for piece in channel.pieces),
            key=site.phase_key,
        ),
        after=(*_running(ends), *_patched(site, channels)),
        checks=[_rate_check(site, channel) for channel in channels],
    )


def _patched(site: Survey, channels: Iterable[Channel]) -> Iterator[Precedence]:
    for channel in channels:
        for piece in channel.pieces:
            yield Precedence(task_id("patch", piece), "it is a part of the way")
            for end in site.build.pieces[piece].ends:
                yield Precedence(task_id("connect", end), "it is a part of the way")


def _running(devices: Iterable[str]) -> Iterator[Precedence]:
    for device in devices:
        yield Precedence(task_id("power", device), "they must run")
        yield Precedence(task_id("set-up", device), "they must have their settings")


def _rate_check(site: Survey, channel: Channel) -> Check:
    what = f"link rate {end_name(channel.ends[0])} – {end_name(channel.ends[1])}"
    rates = [site.build.jacks[end].rate for end in channel.ends]
    known = [each.typical for each in rates if isinstance(each, Fact)]
    if len(known) < len(rates):
        return Check(
            what, "cannot tell what to expect: the rate of a jack is not known; write down what it shows"
        )
    return Check(what, f"{rate(min(known))}, full duplex, the lower of its two jacks")


def _budgets(site: Survey) -> Iterator[Task]:
    for source in site.build.power_sources.values():
        if source.runs:
            yield _budget(site, source)


def _budget(site: Survey, source: PowerSource) -> Task:
    device = site.build.devices[source.device]
    sinks = [site.build.jacks[site.build.power_runs[run].sink].device for run in source.runs]
    names = ", ".join(site.name(sink) for sink in sinks)
    return site.task(
        "prove",
        device.id,
        Stage.PROVE,
        f"Read what {device.name} gives by PoE to {names}",
        device.room,
        height=site.height(device.id),
        phase=max((site.phase_of_device(each) for each in (device.id, *sinks)), key=site.phase_key),
        after=_running((device.id, *sinks)),
        checks=(Check("PoE in all", _within(source.budget)),),
    )


def _within(budget: Figure) -> str:
    if isinstance(budget, Unknown):
        return f"cannot tell what to expect: {budget.why}; write down what it shows"
    return f"at most {watts(budget.low)} with everything on"


def _vlans(site: Survey) -> Iterator[Task]:
    """One proof for each VLAN, and one more for each later phase that adds addresses to it."""
    for vlan in site.build.vlans.values():
        claims = [claim for claim in site.build.addresses if claim.vlan == vlan.id]
        phases = {"", *(site.phase_of_device(claim.device) for claim in claims)}
        for phase in sorted(phases, key=site.phase_key):
            yield _vlan(
                site, vlan, [each for each in claims if site.phase_of_device(each.device) == phase], phase
            )


def _vlan(site: Survey, vlan: Vlan, claims: Sequence[AddressClaim], phase: str) -> Task:
    members = (device for device in site.members_of(vlan.id) if site.is_no_later(device, phase))
    answers = (Check(f"address of {site.name(each.device)}", f"answers at {each.address}") for each in claims)
    return site.task(
        "prove",
        vlan.id + (f"@{phase}" if phase else ""),
        Stage.PROVE,
        f"From a device in the VLAN {vlan.name} ({vlan.vid}), try what it reaches and what it must not reach",
        phase=phase,
        after=_running(dict.fromkeys((*members, *(claim.device for claim in claims)))),
        checks=(*_reach(site, vlan), *answers),
    )


def _reach(site: Survey, vlan: Vlan) -> Iterator[Check]:
    if vlan.gateway:
        yield Check("gateway", f"{vlan.gateway} answers")
    if vlan.leases[0]:
        yield Check("lease", f"an address from {vlan.leases[0]} to {vlan.leases[1]} is given")
    if vlan.reaches:
        yield Check("reaches", ", ".join(_answers(site, each) for each in vlan.reaches))
    others = [each.name for each in site.build.vlans.values() if each.name not in (vlan.name, *vlan.reaches)]
    silent = [f"any device in {_either(others)}"] if others else []
    if _INTERNET not in vlan.reaches:
        silent.append("outside (the internet)")
    but = ", except from the name servers" if _NAMES in vlan.reaches else ""
    nothing = f"no answer from {', nor from '.join(silent)}{but}" if silent else "there is nothing else"
    yield Check("reaches nothing else", nothing)


def _either(names: Sequence[str]) -> str:
    return " or ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _answers(site: Survey, word: str) -> str:
    """Who is to answer: a VLAN by its name, or one of the two words that are none."""
    if word == _INTERNET:
        return "outside (the internet) answers"
    if word == _NAMES:
        servers = ", ".join(site.name(each) for each in site.build.name_service.servers)
        return f"the name servers answer{f' ({servers})' if servers else ''}"
    return f"devices in {word} answer"


def _names(site: Survey) -> Iterator[Task]:
    service = site.build.name_service
    for server in service.servers:
        name = site.name(server)
        domain = f" below {service.domain}" if service.domain else ""
        yield site.task(
            "prove-names",
            server,
            Stage.PROVE,
            f"Ask {name} for a name, with the other servers unplugged or not asked",
            site.room_of(server),
            height=site.height(server),
            phase=site.phase_of_device(server),
            after=_running((server,)),
            checks=(
                Check("names", f"{name} alone resolves a name of the network{domain}, and one from outside"),
            ),
        )


def _finishing(site: Survey, proofs: Iterable[Task]) -> Iterator[Task]:
    """One step for each cabinet, after every proof up to its own phase about what stands in it."""
    by_cabinet: dict[str, list[str]] = {}
    for task in proofs:
        for device in _devices_of(site, task.subject):
            by_cabinet.setdefault(site.build.devices[device].cabinet, []).append(task.id)
    why = "what is not proved may have to be opened again"
    for cabinet in site.build.cabinets.values():
        proved = (Precedence(proof, why) for proof in by_cabinet.get(cabinet.id, ()))
        covered = (
            Precedence(task_id("fit", cover), "covers go on before doors")
            for cover in site.covers(cabinet.id)
        )
        title = f"Tie the cords of {cabinet.name}, put its doors and panels back on"
        yield site.task(
            "finish",
            cabinet.id,
            Stage.FINISH,
            title,
            cabinet.room,
            phase=cabinet.phase,
            after=(*proved, *covered),
        )


def _devices_of(site: Survey, subject: str) -> tuple[str, ...]:
    if subject in site.build.devices:
        return (subject,)
    link = site.build.links.get(subject)
    return link.hops if link else ()


def _record(site: Survey, all_before: Iterable[Task]) -> Task:
    title = "Record measured lengths and MAC addresses (firstfix progress); write into the plan what turned out otherwise"
    steps = tuple(all_before)
    last = max((task.phase for task in steps), key=site.phase_key, default="")
    after = (Precedence(task.id, "what it showed is written down") for task in steps)
    return site.task("record", "plan:all", Stage.FINISH, title, phase=last, after=after)
