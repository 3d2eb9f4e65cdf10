"""A build with the eyes of who does the work: what hangs on what, what is there, how things are called.

Made once for a build and read by every module that makes tasks.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from firstfix.build import ids
from firstfix.build.cabling import CORD, RUN, Piece
from firstfix.build.hardware import IN_PLACE, Device, Item, Mount
from firstfix.build.model import Build
from firstfix.build.phases import PhaseKey
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.graphs.administration import identifiers
from firstfix.parts.part import Part
from firstfix.work.cautions import LADDER, static_cautions
from firstfix.work.handling import is_heavy
from firstfix.work.model import Check, Precedence, Stage, Task, task_id
from firstfix.work.tools import LADDER_TOOLS, TOOLS

SURGE_PROTECTOR = "surge-protector"


@dataclass(frozen=True, slots=True)
class Survey:
    """What the build says, by what one asks for. All keys are ids unless noted.

    mounts: of a device or fitting. pieces_at: of a device. run_behind: the run at the rear of a jack,
    by `panel/3`. items_for: by what needs them. feeds, poe_feed: of the device that is fed. in_place:
    devices, cabinets, fittings and pieces that are there already. heavy: devices in cabinets, and
    fittings that carry them; heavy_in: by cabinet. spare_pieces: of links that close a loop on purpose.
    powered_pieces: those that carry PoE. addressed: devices. phase_key sorts names of phases.
    routers: of a VLAN the device at its gateway's address.
    """

    build: Build
    mounts: Mapping[str, Mount]
    pieces_at: Mapping[str, tuple[Piece, ...]]
    run_behind: Mapping[str, str]
    items_for: Mapping[str, tuple[Item, ...]]
    feeds: Mapping[str, tuple[MainsFeed, ...]]
    poe_feed: Mapping[str, PowerRun]
    in_place: frozenset[str]
    heavy: frozenset[str]
    heavy_in: Mapping[str, tuple[str, ...]]
    spare_pieces: frozenset[str]
    powered_pieces: frozenset[str]
    addressed: frozenset[str]
    phase_key: PhaseKey
    routers: Mapping[str, str]

    def device_at(self, jack: str) -> Device:
        return self.build.devices[self.build.jacks[jack].device]

    def devices_of(self, piece: Piece) -> tuple[Device, Device]:
        return self.device_at(piece.ends[0]), self.device_at(piece.ends[1])

    def part(self, name: str) -> Part | None:
        return self.build.library.get(name)

    def medium(self, piece: Piece) -> str:
        part = self.part(piece.part)
        return part.cable.medium if part is not None and part.cable is not None else ""

    def kinds_for(self, subject: str) -> frozenset[str]:
        """The kinds of parts that `subject` needs."""
        parts = (self.part(item.part) for item in self.items_for.get(subject, ()))
        return frozenset(part.kind for part in parts if part is not None)

    def runs(self) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.build.pieces.values() if piece.kind == RUN)

    def runs_at(self, device: str) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.pieces_at.get(device, ()) if piece.kind == RUN)

    def cords(self) -> tuple[Piece, ...]:
        return tuple(piece for piece in self.build.pieces.values() if piece.kind == CORD)

    def is_new(self, subject: str) -> bool:
        """Whether there is work to do to bring it where it belongs; an owned device may have to move, too."""
        return subject not in self.in_place

    def is_moved(self, device: Device) -> bool:
        return self.is_new(device.id) and device.is_owned

    def is_heavy(self, subject: str) -> bool:
        return subject in self.heavy

    def leaves_building(self, piece: Piece) -> bool:
        return any(self.build.ways[way].joins_buildings for way in piece.route)

    def surge_protectors_of(self, piece: Piece) -> tuple[Device, ...]:
        """For the run of a link that leaves the building, and for cords at a protector: all protectors of the link."""
        hops = map(self.build.devices.get, self.build.links[piece.link].hops)
        found = tuple(each for each in hops if each is not None and each.part.kind == SURGE_PROTECTOR)
        touches = any(device.part.kind == SURGE_PROTECTOR for device in self.devices_of(piece))
        return found if touches or self.leaves_building(piece) else ()

    def ways_into(self, room: str) -> tuple[str, ...]:
        return tuple(way.id for way in self.build.ways.values() if room in way.ends)

    def members_of(self, vlan: str) -> tuple[str, ...]:
        """Devices with a jack that is set up in the VLAN."""
        setups = (each for each in self.build.port_setups.values() if vlan in (each.untagged, *each.tagged))
        return tuple(sorted({self.build.jacks[setup.jack].device for setup in setups}))

    def covers(self, cabinet: str) -> tuple[str, ...]:
        return tuple(mount.item for mount in self.build.mounts if mount.cabinet == cabinet and mount.is_over)

    def behind(self, cover: Mount) -> tuple[str, ...]:
        """What is mounted in the same units as a cover that stands in front."""
        return tuple(
            mount.item
            for mount in self.build.mounts
            if mount.cabinet == cover.cabinet
            and mount.item not in ("", cover.item)
            and not mount.is_over
            and mount.low <= cover.high
            and cover.low <= mount.high
        )

    def phase_of(self, piece: Piece) -> str:
        """A piece comes with its link, or with the last of the devices at its ends and the ways that it lies in."""
        devices = [device.phase for device in self.devices_of(piece)]
        ways = [self.build.ways[way].phase for way in piece.route]
        return max(self.build.links[piece.link].phase, *devices, *ways, key=self.phase_key)

    def phase_of_device(self, subject: str) -> str:
        """Of a device, a cabinet or a fitting."""
        build = self.build
        thing = build.devices.get(subject) or build.cabinets.get(subject) or build.fittings.get(subject)
        return thing.phase if thing is not None else ""

    def is_no_later(self, subject: str, phase: str) -> bool:
        """Whether a device or piece comes before or in `phase`."""
        piece = self.build.pieces.get(subject)
        own = self.phase_of(piece) if piece else self.phase_of_device(subject)
        return self.phase_key(own) <= self.phase_key(phase)

    def feeders(self, device: str) -> tuple[str, ...]:
        """The devices that feed this one, by mains or by PoE; none at the end of the chain."""
        run = self.poe_feed.get(device)
        sources = [feed.source for feed in self.feeds.get(device, ())]
        if not sources and run is not None:
            sources = [self.build.jacks[run.source].device]
        return tuple(each for each in sources if each in self.build.devices)

    def feeds_itself(self, device: str) -> bool:
        seen: set[str] = set()
        ahead = [*self.feeders(device)]
        while ahead:
            source = ahead.pop()
            if source not in seen:
                seen.add(source)
                ahead += self.feeders(source)
        return device in seen

    def height(self, subject: str) -> int:
        """The lowest rack unit of a device, itself or what carries it; 0 outside cabinets."""
        device = self.build.devices.get(subject)
        mount = self.mounts.get(device.carried_by or subject if device else subject)
        return mount.low if mount else 0

    def room_of(self, subject: str) -> str:
        if subject in self.build.devices:
            return self.build.devices[subject].room
        return self.build.cabinets[subject].room if subject in self.build.cabinets else ""

    def room_name(self, room: str) -> str:
        return (
            self.build.rooms[room].name if room in self.build.rooms else "a place that the plan does not say"
        )

    def name(self, subject: str) -> str:
        return f"the cabinet {ids.path(subject)}" if subject in self.build.cabinets else ids.path(subject)

    def task(
        self,
        verb: str,
        subject: str,
        stage: Stage,
        title: str,
        room: str = "",
        *,
        height: int = 0,
        phase: str = "",
        after: Iterable[Precedence] = (),
        checks: Iterable[Check] = (),
        cautions: Iterable[str] = (),
        records: Iterable[str] = (),
    ) -> Task:
        """A task of kind `verb`, with the tools and cautions of its kind; `cautions` come on top."""
        place = self.build.rooms.get(room)
        warned = dict.fromkeys((*static_cautions(verb), *cautions))
        tools = (*TOOLS[verb], *(LADDER_TOOLS if LADDER in warned else ()))
        return Task(
            task_id(verb, subject), stage, subject, title, place.building if place else "", room, height, phase,
            _one_reason_each(after), (), tuple(dict.fromkeys(tools)), tuple(checks), tuple(warned), tuple(records),
        )  # fmt: skip


def _one_reason_each(after: Iterable[Precedence]) -> tuple[Precedence, ...]:
    """The first reason that is given for a task stands."""
    found: dict[str, Precedence] = {}
    for each in after:
        found.setdefault(each.before, each)
    return tuple(found.values())


def survey(build: Build) -> Survey:
    pieces_at: defaultdict[str, list[Piece]] = defaultdict(list)
    for piece in build.pieces.values():
        for device in dict.fromkeys(build.jacks[end].device for end in piece.ends):
            pieces_at[device].append(piece)
    items_for: defaultdict[str, list[Item]] = defaultdict(list)
    for item in build.items:
        items_for[item.for_id].append(item)
    in_place = frozenset(_in_place(build))
    heavy = frozenset(_heavy(build)) - in_place
    return Survey(
        build,
        {mount.item: mount for mount in build.mounts if mount.item},
        {device: tuple(found) for device, found in pieces_at.items()},
        {
            end_name(end): piece.id
            for piece in build.pieces.values()
            if piece.kind == RUN
            for end in piece.ends
        },
        {for_id: tuple(found) for for_id, found in items_for.items()},
        _by_device(build.mains_feeds),
        _poe_feeds(build),
        in_place,
        heavy,
        _by_cabinet(build, heavy),
        frozenset(piece.id for piece in build.pieces.values() if build.links[piece.link].spare_for),
        frozenset(piece for run in build.power_runs.values() for piece in run.pieces),
        frozenset(claim.device for claim in build.addresses),
        PhaseKey(build.phases),
        _routers(build),
    )


def _routers(build: Build) -> dict[str, str]:
    gateways = {(vlan.id, vlan.gateway) for vlan in build.vlans.values() if vlan.gateway}
    return {each.vlan: each.device for each in build.addresses if (each.vlan, each.address) in gateways}


def _poe_feeds(build: Build) -> dict[str, PowerRun]:
    """The run that feeds each device: at its own jack, or at the splitter whose low-voltage lead it hangs on."""
    runs = build.power_runs.values()
    return {build.jacks[run.sink].device: run for run in runs} | {run.feeds: run for run in runs if run.feeds}


def _by_device(feeds: Iterable[MainsFeed]) -> dict[str, tuple[MainsFeed, ...]]:
    """A device's feeds, in the order of its inlets."""
    found: defaultdict[str, list[MainsFeed]] = defaultdict(list)
    for feed in feeds:
        found[feed.device].append(feed)
    return {device: tuple(sorted(mine, key=lambda feed: feed.inlet)) for device, mine in found.items()}


def _in_place(build: Build) -> Iterable[str]:
    """What has its own item (the one of its own part) in place, unless its cabinet is still to be put up."""
    parts = {device.id: device.part.name for device in build.devices.values()}
    parts |= {cabinet.id: cabinet.part.name for cabinet in build.cabinets.values()}
    parts |= {fitting.id: fitting.part.name for fitting in build.fittings.values()}
    parts |= {piece.id: piece.part for piece in build.pieces.values()}
    there = {
        each.for_id
        for each in build.items
        if each.standing == IN_PLACE and parts.get(each.for_id) == each.part
    }
    for subject in sorted(there):
        device = build.devices.get(subject)
        if device is None or not device.cabinet or device.cabinet in there:
            yield subject


def _heavy(build: Build) -> Iterable[str]:
    for device in build.devices.values():
        if device.cabinet and is_heavy(device.part):
            yield device.id
            if device.carried_by:
                yield device.carried_by


def _by_cabinet(build: Build, heavy: frozenset[str]) -> dict[str, tuple[str, ...]]:
    found: defaultdict[str, list[str]] = defaultdict(list)
    for subject in sorted(heavy):
        thing = build.devices.get(subject) or build.fittings[subject]
        found[thing.cabinet].append(subject)
    return {cabinet: tuple(subjects) for cabinet, subjects in found.items()}


def end_name(jack: str) -> str:
    """`jack:panel/3@rear` is `panel/3`: front or rear is plain from what is done there."""
    return ids.path(jack).removesuffix("@rear")


def says_of_label(device: str, identifier: str) -> tuple[Check, ...]:
    """What a plate says, where that isn't just the name that the step has already."""
    return () if identifier == device.upper() else (Check("label", f"the plate says “{identifier}”"),)


def labels_of(site: Survey, piece: Piece) -> Check:
    """What both ends of a cable say: the end at which one stands comes first."""
    names = identifiers(site.build)
    near, far = (f"at {end_name(end)} “{names.cable(piece, end)}”" for end in piece.ends)
    return Check("labels", f"{near}, {far}")


def piece_name(piece: Piece) -> str:
    return f"{end_name(piece.ends[0])} – {end_name(piece.ends[1])}"
