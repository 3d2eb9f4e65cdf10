"""Before anything is mounted: unpacking, ways, wall boxes, the cabinet, and the dust that all that leaves."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from firstfix.build.hardware import Cabinet
from firstfix.build.places import Way
from firstfix.graphs.cabinet_space import set_back
from firstfix.parts.facts import Fact
from firstfix.parts.part import ACTIVE_KINDS, Part
from firstfix.units import kilograms, metres, millimetres
from firstfix.work import cautions
from firstfix.work.handling import load
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey
from firstfix.work.tools import without_drawing

UNPACK = task_id("unpack", "plan:all")
DIRECT_BURIAL = "direct-burial"


def preparing_tasks(site: Survey) -> Iterator[Task]:
    yield _unpack(site)
    building_work = [*_ways(site), *_wall_boxes(site), *_cabinets(site)]
    yield from building_work
    yield from _sweeping(site, building_work)


def _unpack(site: Survey) -> Task:
    with_address = (
        device.name
        for device in site.build.devices.values()
        if device.part.kind in ACTIVE_KINDS and site.is_new(device.id) and not site.is_moved(device)
    )
    title = "Unpack, compare with the shopping list, and write down each MAC address from its label"
    records = (f"MAC address of {name}" for name in with_address)
    return site.task("unpack", "plan:all", Stage.UNPACK, title, records=records)


def _ways(site: Survey) -> Iterator[Task]:
    used = {way for piece in site.runs() if site.is_new(piece.id) for way in piece.route}
    for way_id in sorted(used):
        way = site.build.ways[way_id]
        if way.is_owned:
            continue
        rooms = " and ".join(site.room_name(room) for room in way.ends)
        length = f", {metres(way.length.typical)}" if isinstance(way.length, Fact) else ""
        title = f"Make the way {way.name} ready ({way.kind.replace('-', ' ')} between {rooms}{length}): {_doing(way)}"
        task = site.task(
            "prepare",
            way.id,
            Stage.PREPARE,
            title,
            way.ends[0],
            phase=way.phase,
            cautions=way_cautions(way),
            checks=(_bore(way),),
        )
        yield replace(task, tools=without_drawing(task.tools)) if way.kind == DIRECT_BURIAL else task


def _doing(way: Way) -> str:
    if way.kind == DIRECT_BURIAL:
        return "openings at both ends, the trench open from end to end, its bed free of stones"
    if way.exposure == "buried":
        return "openings at both ends, a draw cord right through"
    if way.exposure == "outdoor":
        return "entry holes with glands or sleeves at both ends, its fixings in place"
    return "open from end to end, holes through walls and floors made"


def _bore(way: Way) -> Check:
    if way.kind == DIRECT_BURIAL:
        # Nothing is drawn through: the cable is laid into the open trench.
        return Check(
            "trench", "open and dry all along, as deep as local codes ask, with warning tape at hand"
        )
    free = "a draw cord runs through freely from end to end"
    if isinstance(way.bore, Fact):
        return Check("bore", f"{metres(way.bore.low)} or more all along; {free}")
    return Check("bore", free)


def way_cautions(way: Way) -> tuple[str, ...]:
    """Making a way ready can mean holes, heights or the ground; its kind does not rule any of them out."""
    if way.exposure == "buried":
        return (cautions.BURIED, cautions.DRILL, cautions.OUTDOOR)
    if way.exposure == "outdoor":
        return (cautions.DRILL, cautions.LADDER, cautions.OUTDOOR)
    return (cautions.DRILL, cautions.LADDER)


def _wall_boxes(site: Survey) -> Iterator[Task]:
    for device in site.build.devices.values():
        if site.is_new(device.id) and "wall-box" in site.kinds_for(device.id):
            title = f"Fix the wall box for {device.name}"
            yield site.task("box", device.id, Stage.PREPARE, title, device.room, phase=device.phase)


def _cabinets(site: Survey) -> Iterator[Task]:
    for cabinet in site.build.cabinets.values():
        if site.is_new(cabinet.id):
            yield _anchor(site, cabinet)
            yield _hang(site, cabinet)


def _anchor(site: Survey, cabinet: Cabinet) -> Task:
    held = load(_in_it(site, cabinet))
    figure = f"{'more than ' if held.unknown else ''}{kilograms(held.known)} with all that goes in it"
    unknown = f"; no weight is known of {', '.join(held.unknown)}" if held.unknown else ""
    title = f"Mark, drill and set the fixings of the cabinet {cabinet.name}, or level its place on the floor"
    return site.task(
        "anchor",
        cabinet.id,
        Stage.PREPARE,
        title,
        cabinet.room,
        phase=cabinet.phase,
        checks=(Check("fixings", f"made for {figure}{unknown}"),),
    )


def _in_it(site: Survey, cabinet: Cabinet) -> Iterable[tuple[str, Part]]:
    yield f"the cabinet {cabinet.name}", cabinet.part
    for device in site.build.devices.values():
        if device.cabinet == cabinet.id:
            yield device.name, device.part
    for fitting in site.build.fittings.values():
        if fitting.cabinet == cabinet.id:
            yield fitting.part.title, fitting.part


def _hang(site: Survey, cabinet: Cabinet) -> Task:
    return site.task(
        "hang",
        cabinet.id,
        Stage.CABINET,
        _hang_title(cabinet),
        cabinet.room,
        phase=cabinet.phase,
        after=(
            Precedence(task_id("anchor", cabinet.id), "its fixings hold it"),
            *(
                Precedence(task_id("prepare", way), "holes come out behind it")
                for way in site.ways_into(cabinet.room)
                if site.phase_key(site.build.ways[way].phase) <= site.phase_key(cabinet.phase)
            ),
        ),
        checks=(
            Check("spirit level", "level both ways; nothing moves when pulled by hand"),
            *_rails(site, cabinet),
        ),
    )


def _hang_title(cabinet: Cabinet) -> str:
    form = cabinet.part.cabinet
    if form is not None and form.front == "open":
        return f"Put up the frame {cabinet.name}"
    return f"Put up the cabinet {cabinet.name}, doors and side panels off"


def _rails(site: Survey, cabinet: Cabinet) -> Iterator[Check]:
    """Where the door only closes with the rails further back than they come: they are hard to move with things on them."""
    back, form = set_back(site.build, cabinet), cabinet.part.cabinet
    if (
        back is None
        or not (back.lets and back.fits)
        or form is None
        or not isinstance(form.before_rails, Fact)
    ):
        return
    clear = millimetres(form.before_rails.low + back.by)
    yield Check(
        "rails",
        f"set back by {millimetres(back.by)} or a little more: {clear} are clear before them with the door closed",
    )


def _sweeping(site: Survey, building_work: Iterable[Task]) -> Iterator[Task]:
    """One step for each room with building work: what dust harms waits for it, not for each hole."""
    by_room: dict[str, list[Task]] = {}
    for task in (each for each in building_work if each.stage is Stage.PREPARE and not each.phase):
        by_room.setdefault(task.room, []).append(task)
        if task.subject in site.build.ways:
            by_room.setdefault(site.build.ways[task.subject].ends[1], []).append(task)
    for room, made in sorted(by_room.items()):
        if room in site.build.rooms and not site.build.rooms[room].is_outdoors:
            title = f"Clean up after drilling in {site.room_name(room)}"
            after = (Precedence(task.id, "it makes dust") for task in made)
            yield site.task("sweep", room, Stage.CABINET, title, room, after=after)
