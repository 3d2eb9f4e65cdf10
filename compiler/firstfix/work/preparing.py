"""Before anything is mounted: unpacking, ways, wall boxes, the cabinet, and the dust that all that leaves."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from firstfix.build.hardware import Cabinet
from firstfix.build.places import Way
from firstfix.graphs.administration import identifiers
from firstfix.graphs.cabinet_space import set_back
from firstfix.parts.facts import Fact
from firstfix.parts.part import ACTIVE_KINDS, Part
from firstfix.units import kilograms, metres, millimetres
from firstfix.work import cautions
from firstfix.work.handling import hung_by_two, load, needs_two_people
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.survey import Survey, says_of_label
from firstfix.work.tools import DIGGING_TOOLS, HELPER, without_drawing

UNPACK = task_id("unpack", "plan:all")
DIRECT_BURIAL = "direct-burial"
_ON_WALL = "Mark, drill and set the fixings of {}"
# By how a cabinet is mounted: what has to bear it, and what is done before it comes.
_ANCHORED = {
    "wall": ("fixings", _ON_WALL),
    "floor": ("floor", "Level the place of {} on the floor, and fix it there if its manual says so"),
    "desk": ("desk", "Clear and level the place of {}"),
}
WITH_LIDS = ("trunking",)


def preparing_tasks(site: Survey) -> Iterator[Task]:
    yield _unpack(site)
    yield from _unboxing(site)
    building_work = [*_ways(site), *_wall_boxes(site), *_cabinets(site)]
    yield from building_work
    yield from _sweeping(site, building_work)


def _unpack(site: Survey) -> Task:
    title = "Open the parcels, and compare what is in them with the shopping list"
    return site.task("unpack", "plan:all", Stage.UNPACK, title)


def _unboxing(site: Survey) -> Iterator[Task]:
    """A step for each, for they may come on different days; and each label is read before it is out of sight."""
    for device in site.build.devices.values():
        if device.part.kind in ACTIVE_KINDS and site.is_new(device.id) and not site.is_moved(device):
            yield site.task(
                "unbox",
                device.id,
                Stage.UNPACK,
                f"Take {device.name} out of its box and write down the MAC address on its label",
                phase=device.phase,
                after=(Precedence(UNPACK, "what came is compared with the list before it is spread out"),),
                cautions=(cautions.LIFT,) if needs_two_people(device.part) else (),
                records=(f"MAC address of {device.name}",),
            )


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
        yield replace(task, tools=_way_tools(way, task.tools))


def is_dug(way: Way) -> bool:
    """Whether there is a trench to dig: for cable that lies in the ground, or for a duct that this plan buys."""
    return way.kind == DIRECT_BURIAL or (way.exposure == "buried" and bool(way.material))


def _way_tools(way: Way, tools: tuple[str, ...]) -> tuple[str, ...]:
    """No ladder into the ground, but a spade where it is opened."""
    if way.exposure == "buried":
        tools = tuple(each for each in tools if each != "ladder")
    if way.kind == DIRECT_BURIAL:
        tools = without_drawing(tools)
    return (*tools, *DIGGING_TOOLS) if is_dug(way) else tools


def _doing(way: Way) -> str:
    if way.kind == DIRECT_BURIAL:
        return "openings at both ends, the trench open from end to end, its bed free of stones"
    if is_dug(way):
        return "trench dug, the duct in it with a draw cord right through, warning tape above it, openings at both ends"
    if way.exposure == "buried":
        return "openings at both ends, a draw cord right through"
    if way.exposure == "outdoor":
        return "entry holes with glands or sleeves at both ends, its fixings in place"
    return "open from end to end, holes through walls and floors made"


def closing_words(way: Way) -> str:
    """What it is to close a way of this kind."""
    if way.kind == DIRECT_BURIAL:
        return "sand over the cable, warning tape above it, the trench filled in, holes into the buildings sealed"
    if way.exposure == "buried":
        return "both ends of the duct sealed, and the holes into the buildings"
    if way.exposure == "outdoor":
        return "holes through walls sealed"
    return f"{'lids on, ' if way.kind in WITH_LIDS else ''}holes through walls and floors sealed"


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
    mounting = cabinet.part.cabinet.mounting if cabinet.part.cabinet is not None else ""
    what, doing = _ANCHORED.get(str(mounting), ("fixings", _ON_WALL + ", or level its place"))
    title = doing.format(f"the cabinet {cabinet.name}")
    return site.task(
        "anchor",
        cabinet.id,
        Stage.PREPARE,
        title,
        cabinet.room,
        phase=cabinet.phase,
        checks=(Check(what, f"made for {figure}{unknown}"),),
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
    lift = hung_by_two(cabinet.part)
    task = site.task(
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
            *says_of_label(cabinet.name, identifiers(site.build).cabinets[cabinet.id]),
        ),
        cautions=(cautions.LIFT,) if lift else (),
    )
    return replace(task, tools=(*task.tools, *HELPER)) if lift else task


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
    """One step for each room with building work, in each phase that has any: what dust harms waits for it, not for each hole."""
    by_room: dict[tuple[str, str], list[Task]] = {}
    for task in (each for each in building_work if each.stage is Stage.PREPARE):
        by_room.setdefault((task.room, task.phase), []).append(task)
        if task.subject in site.build.ways:
            far = site.build.ways[task.subject].ends[1]
            by_room.setdefault((far, task.phase), []).append(task)
    for (room, phase), made in sorted(by_room.items()):
        if room in site.build.rooms and not site.build.rooms[room].is_outdoors:
            title = f"Clean up after drilling in {site.room_name(room)}"
            after = (Precedence(task.id, "it makes dust") for task in made)
            subject = _of_phase(room, phase)
            yield site.task("sweep", subject, Stage.CABINET, title, room, phase=phase, after=after)


def swept(room: str, phase: str) -> str:
    """The id of the step that cleans up in a room after the building work of a phase."""
    return task_id("sweep", _of_phase(room, phase))


def _of_phase(room: str, phase: str) -> str:
    return f"{room}@{phase}" if phase else room
