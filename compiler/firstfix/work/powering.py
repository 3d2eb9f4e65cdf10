"""Earth, then power: a source before what it feeds, nothing before its cords are in and its settings made."""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.units import number, watts
from firstfix.work import cautions
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.settings import is_set_up_on_the_bench
from firstfix.work.survey import Survey, end_name


def powering_tasks(site: Survey) -> Iterator[Task]:
    for subject in sorted(site.items_for):
        if "earth-kit" in site.kinds_for(subject):
            yield _bond(site, subject)
    for device in site.build.devices.values():
        if site.is_new(device.id) and device.id in site.feeds:
            yield _plug_in(site, device, site.feeds[device.id])
        elif site.is_new(device.id) and device.id in site.poe_feed:
            yield _fed_by_poe(site, device, site.poe_feed[device.id])
        elif new := [feed for feed in site.feeds.get(device.id, ()) if _is_new_source(site, feed)]:
            yield _plug_over(site, device, new)


def _is_new_source(site: Survey, feed: MainsFeed) -> bool:
    return feed.source in site.build.devices and site.is_new(feed.source)


def _bond(site: Survey, subject: str) -> Task:
    holder = "hang" if subject in site.build.cabinets else "fit"
    return site.task(
        "bond",
        subject,
        Stage.BOND,
        f"Bond {site.name(subject)} to the building's earth",
        site.room_of(subject),
        height=site.height(subject),
        phase=site.phase_of_device(subject),
        after=(Precedence(task_id(holder, subject), "it must stand before its earth lead is led to it"),),
        checks=(
            Check("continuity", f"from {site.name(subject)} to the earth bar{_whose_earth(site, subject)}"),
        ),
    )


def _whose_earth(site: Survey, subject: str) -> str:
    room = site.build.rooms.get(site.room_of(subject))
    building = site.build.buildings.get(room.building) if room else None
    return f" of {building.name}" if building else ""


def _plug_in(site: Survey, device: Device, feeds: tuple[MainsFeed, ...]) -> Task:
    outlets = " and ".join(_outlet(site, feed) for feed in feeds)
    return site.task(
        "power",
        device.id,
        Stage.PLUG_IN,
        f"Plug {device.name} into {outlets} and switch it on",
        device.room,
        height=site.height(device.id),
        phase=device.phase,
        after=(
            *(each for feed in feeds for each in _source_first(site, device, feed.source)),
            *_before_power(site, device),
        ),
        checks=(
            *_battery(device),
            Check("start", f"{device.name} starts and stays on, without smell or noise"),
        ),
        cautions=(cautions.MAINS,),
    )


def _battery(device: Device) -> Iterator[Check]:
    """Batteries are often shipped with their lead off."""
    if device.part.kind == "ups":
        yield Check(
            "battery", "its lead is on, as the manual says, before the plug goes in; it shows that it charges"
        )


def _plug_over(site: Survey, device: Device, feeds: list[MainsFeed]) -> Task:
    """It stays where it stands, and what feeds it is new: its plug goes over to that."""
    sources = [site.build.devices[feed.source] for feed in feeds]
    return site.task(
        "power",
        device.id,
        Stage.PLUG_IN,
        f"Take the plug of {device.name}, which stands there already, over to {' and '.join(_outlet(site, feed) for feed in feeds)}",
        device.room,
        height=site.height(device.id),
        phase=max((source.phase for source in sources), key=site.phase_key),
        after=[each for feed in feeds for each in _source_first(site, device, feed.source)],
        checks=(Check("start", f"{device.name} starts again and stays on"),),
        cautions=(cautions.MAINS, cautions.HOT_NETWORK),
    )


def _outlet(site: Survey, feed: MainsFeed) -> str:
    source = site.build.devices.get(feed.source)
    if source is None:
        return f"a wall outlet in {site.room_name(feed.source)}"
    return f"{source.name}, outlet {feed.outlet}"


def _fed_by_poe(site: Survey, device: Device, run: PowerRun) -> Task:
    source = site.device_at(run.source)
    return site.task(
        "power",
        device.id,
        Stage.FEED,
        f"Let {device.name} start from the PoE of {end_name(run.source)}",
        device.room,
        height=site.height(device.id),
        phase=device.phase,
        after=(
            *_source_first(site, device, source.id),
            *_before_power(site, device),
            *_way_of_power(site, run),
        ),
        checks=(Check("PoE class", _expected_class(run)), Check("PoE draw", _expected_draw(run))),
    )


def _source_first(site: Survey, device: Device, source: str) -> Iterator[Precedence]:
    """A plan may be at fault and let things feed each other in a ring: a rule says so, and here nobody is first."""
    if source in site.build.devices and not site.feeds_itself(device.id):
        yield Precedence(task_id("power", source), f"{site.name(source)} feeds it")


def _expected_class(run: PowerRun) -> str:
    if isinstance(run.assigned, Unknown):
        return f"cannot tell what to expect: {run.assigned.why}"
    granted = f" ({watts(run.granted.typical)} at the device)" if isinstance(run.granted, Fact) else ""
    asked = "" if _same(run.asked, run.assigned) else ", less than it asks for"
    return f"class {number(run.assigned.typical)} assigned{granted}{asked}"


def _same(asked: Figure, assigned: Fact) -> bool:
    return isinstance(asked, Unknown) or asked.typical == assigned.typical


def _expected_draw(run: PowerRun) -> str:
    if isinstance(run.drawn, Unknown):
        return f"cannot tell what to expect: {run.drawn.why}; write it down"
    return f"at most {watts(run.drawn.high)} at the device"


def _before_power(site: Survey, device: Device) -> Iterator[Precedence]:
    yield Precedence(task_id("fit", device.id), "it must be in its place")
    if device.cabinet:
        yield Precedence(task_id("bond", device.cabinet), "earth comes before power")
    if is_set_up_on_the_bench(site, device):
        yield Precedence(task_id("set-up", device.id), "it must not meet the network with foreign settings")
    for piece in site.pieces_at.get(device.id, ()):
        if piece.id not in site.spare_pieces and site.is_no_later(piece.id, device.phase):
            yield from _plugged(site, piece.ends, piece.id, device)


def _plugged(site: Survey, ends: tuple[str, str], piece: str, device: Device) -> Iterator[Precedence]:
    """Whichever exists: the cord's own task, or that of a run whose plug goes straight into the device."""
    why = "power comes last, when nothing is plugged any more"
    yield Precedence(task_id("patch", piece), why)
    for end in ends:
        if site.device_at(end).id == device.id:
            yield Precedence(task_id("connect", end), why)


def _way_of_power(site: Survey, run: PowerRun) -> Iterator[Precedence]:
    why = "its power comes over it"
    for piece in (each for each in run.pieces if each not in site.spare_pieces):
        yield Precedence(task_id("patch", piece), why)
        for end in site.build.pieces[piece].ends:
            yield Precedence(task_id("connect", end), why)
