"""Who is plugged in where: what is written is honoured; else a strip or UPS in the same cabinet, then in the room, then the wall."""

from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from firstfix.allocations.choices import KeptFeed
from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.parts.facts import Fact
from firstfix.parts.forms import Word
from firstfix.parts.part import MAINS_KINDS, Part
from firstfix.physics.mains import TURNING, outlets_needed
from firstfix.plan.model import DeviceSpec, Plan
from firstfix.resolve.jacks import JackField
from firstfix.resolve.kept import Kept
from firstfix.resolve.leads import LOCAL, Leads
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.outlet_rows import beside_adaptors, covered_by
from firstfix.resolve.places import Places
from firstfix.source.node import Mapping, Scalar, Sequence
from firstfix.span import Span

# How many of the outlets that were possible too are remembered for each thing that is plugged in.
_MOST_OTHERS = 12
_OURS_TO_FIND = ("", "mains", "wall")
# A room's own outlets are not numbered by anyone, so there is no last one.
_ENDLESS = 10**9
# Heavy, and not what a UPS is bought for unless the plan says so: common practice, no source.
_NOT_BACKED_UP = ("computer", "printer")


class _Asking(NamedTuple):
    """One lead that wants an outlet: `wanted` names what feeds it, as written, or is "" where that is ours to find.

    "mains" asks for any outlet in reach, "wall" for one of the room's own.
    """

    device: Device
    spec: DeviceSpec
    inlet: int
    wanted: str
    kept: KeptFeed | None = None


def resolve_mains(
    plan: Plan,
    devices: dict[str, Device],
    places: Places,
    runs: dict[str, PowerRun],
    field: JackField,
    leads: Leads,
    kept: Kept,
    notes: Notes,
) -> tuple[MainsFeed, ...]:
    fed_by_poe = {field.jacks[run.sink].device for run in runs.values()}
    at_splitter = {
        run.feeds: devices[field.jacks[run.sink].device].name for run in runs.values() if run.feeds
    }
    fed_by_poe.update(at_splitter)
    asking: list[_Asking] = []
    for spec in plan.devices:
        device = devices.get(ids.device(spec.name))
        if device is not None and (device.part.mains.inlet or spec.power):
            splitter = at_splitter.get(device.id, "")
            asking += _leads(device, spec, device.id in fed_by_poe, splitter, notes)
    if kept.has_any:
        asking = [each._replace(kept=kept.feed(each.device.name, each.inlet)) for each in asking]
    outlets = _Outlets(devices, places, leads, plan.mains.plug in TURNING, kept, notes)
    # Those whose author said where come first, so that nobody else takes their outlet; then those who have one from before.
    ordered = sorted(
        asking,
        key=lambda each: (each.wanted in _OURS_TO_FIND, each.kept is None, *_turn(each)),
    )
    outlets.reserve(ordered)
    served = [(feed, each.kept) for each in ordered if (feed := outlets.feed(each)) is not None]
    return tuple(sorted(beside_adaptors(served, devices, plan.mains.plug in TURNING, kept)))


def _place(asking: _Asking) -> Span | None:
    """Where the plan says what feeds this lead: one item of a list, or the value itself."""
    node = asking.spec.written.node
    said = node.value("power") if isinstance(node, Mapping) else None
    if isinstance(said, Sequence):
        return next(
            (each.span for each in said.items if isinstance(each, Scalar) and each.text == asking.wanted),
            said.span,
        )
    return value_span(asking.spec.written, "power")


def _turn(asking: _Asking) -> tuple[bool, str, int]:
    """Strips and UPSs come before what may be plugged into them: they have nothing but the wall."""
    return asking.device.part.kind not in MAINS_KINDS, asking.device.id, asking.inlet


def _leads(
    device: Device, spec: DeviceSpec, is_fed_by_poe: bool, splitter: str, notes: Notes
) -> list[_Asking]:
    """The device's mains leads that are plugged in: those its author wrote, else all of them unless PoE feeds it.

    `splitter`: the one whose low-voltage lead feeds it, or "".
    """
    wanted = [each for each in spec.power if each not in ("poe", splitter)]
    inlets = device.part.mains.inlets if device.part.mains.inlet else 0
    if len(wanted) > inlets:
        message = (
            f"'{spec.name}' has {inlets} mains {'inlet' if inlets == 1 else 'inlets'}, so not all of {', '.join(wanted)} can feed it"
            if inlets
            else f"'{spec.name}' has no mains inlet, so nothing but PoE can feed it"
        )
        notes.gap("part-kind", device.id, message, value_span(spec.written, "power"))
        wanted = wanted[:inlets]
    elif not wanted and not is_fed_by_poe and not spec.power:
        wanted = [""] * inlets
    return [_Asking(device, spec, inlet, each) for inlet, each in enumerate(wanted, 1)]


class _Outlets:
    """Free outlets of strips, UPSs and rooms, handed out one by one."""

    def __init__(
        self,
        devices: dict[str, Device],
        places: Places,
        leads: Leads,
        turning: bool,
        kept: Kept,
        notes: Notes,
    ) -> None:
        self._devices = devices
        self._leads = leads
        self._problems: dict[tuple[str, str], str] = {}
        self._places = places
        self._kept = kept
        self._notes = notes
        self._used: defaultdict[str, dict[int, str]] = defaultdict(dict)
        self._next: dict[str, int] = {}
        self._turning = turning
        self._blocks: defaultdict[str, list[int]] = defaultdict(list)
        self._reserved: defaultdict[str, set[int]] = defaultdict(set)
        self._fed_by: defaultdict[str, list[str]] = defaultdict(list)
        self._strips = sorted(device.id for device in devices.values() if device.part.mains.outlets)
        self._strips_in: defaultdict[str, list[str]] = defaultdict(list)
        for each in self._strips:
            for place in {devices[each].cabinet, devices[each].room} - {""}:
                self._strips_in[place].append(each)

    def feed(self, asking: _Asking) -> MainsFeed | None:
        device = asking.device
        if asking.wanted not in _OURS_TO_FIND:
            return self._as_written(asking)
        candidates = self._near(device, asking.wanted)
        if asking.kept is not None and (feed := self._as_kept(asking, asking.kept, candidates)):
            return feed
        free = [each for each in candidates if self._free(each)]
        if free:
            source = next((each for each in free if self._leaves_room(each, device)), free[0])
            self._notes.decide(
                device.id,
                _attribute(asking),
                ids.path(source),
                "mains",
                _why(source, device, self._devices),
                tuple(ids.path(other) for other in candidates[:_MOST_OTHERS] if other != source),
            )
            return self._take(asking, source)
        if candidates == [device.room] and not self._used[device.room]:
            message = f"'{device.name}' needs a mains outlet, and '{ids.path(device.room)}' has none"
            self._notes.gap("mains-outlets", device.id, message, self._notes.provenance.span(device.id))
        elif candidates:
            full = " and ".join(f"'{ids.path(source)}'" for source in candidates[:_MOST_OTHERS])
            self._notes.gap(
                "mains-outlets",
                device.id,
                f"'{device.name}' finds no free mains outlet: all those of {full} are taken",
                self._notes.provenance.span(device.id),
            )
        elif device.room and (problem := self._wall_problem(device)):
            self._notes.gap(
                "mains-outlets",
                device.id,
                f"'{device.name}' {problem}",
                self._notes.provenance.span(device.id),
            )
        return None

    def reserve(self, asking: Iterable[_Asking]) -> None:
        """Outlets that somebody has from before are the last that others get."""
        for each in asking:
            if each.kept is not None:
                self._reserved[_source(each.kept)].add(each.kept.outlet)

    def _as_kept(self, asking: _Asking, kept: KeptFeed, candidates: list[str]) -> MainsFeed | None:
        """The feed from before, where that is still possible; in a room any free outlet is as good as another."""
        source = _source(kept)
        was = f"{kept.chosen} was kept for '{asking.device.name}'"
        if source not in candidates:
            self._kept.impossible(kept, f"{was}, and that is not in its reach now")
            return None
        if not self._free(source):
            self._kept.impossible(kept, f"{was}, and all outlets there are taken")
            return None
        other = self._used[source].get(kept.outlet)
        if other is not None and source in self._devices:
            self._kept.twice(kept, f"{was}, and for '{other}'", f"'{other}'")
        self._notes.keep(asking.device.id, _attribute(asking), ids.path(source), "mains")
        return self._take(asking, source)

    def _as_written(self, asking: _Asking) -> MainsFeed | None:
        device, wanted = asking.device, asking.wanted
        at = _place(asking)
        source = ids.device(wanted)
        if source not in self._devices:
            names = map(ids.path, self._strips)
            self._notes.unknown_name(device.id, wanted, "device that has mains outlets", names, at)
            return None
        if self._devices[source].part.kind == "splitter":
            self._notes.gap("mains-outlets", device.id, f"'{wanted}' has no power for '{device.name}': no PoE reaches it in a run of that", at)  # fmt: skip
            return None
        if source not in self._strips:
            self._notes.gap(
                "part-kind", device.id, f"'{wanted}' has no mains outlet to feed '{device.name}'", at
            )
            return None
        if problem := self._chaining(device, source):
            self._notes.gap("mains-outlets", device.id, problem, at)
            return None
        if not self._free(source):
            count = self._devices[source].part.mains.outlets
            self._notes.gap(
                "mains-outlets",
                device.id,
                f"'{wanted}' has {count} outlets, all in use; '{device.name}' finds none free",
                at,
            )
            return None
        self._notes.honour(device.id, _attribute(asking), wanted, "mains")
        return self._take(asking, source)

    def _chaining(self, device: Device, source: str) -> str:
        """What is wrong with the way that power would take to the device, or nothing."""
        shown = f"'{device.name}' is to be fed by '{self._devices[source].name}'"
        if circle := self._circle(device.id, source):
            names = " – ".join(ids.path(each) for each in circle)
            return f"{shown}, which it feeds itself ({names}); no power comes in"
        rooms = (device.room, self._devices[source].room)
        if all(rooms) and rooms[0] != rooms[1]:
            return f"{shown}, which is in another room; a mains lead does not go through a wall"
        if device.part.kind == self._devices[source].part.kind == "power-strip":
            return f"{shown}: one power strip plugged into another overloads and can burn"
        if problem := self._lead_problem(device, source):
            return f"'{device.name}' {problem} of '{self._devices[source].name}'"
        return ""

    def _lead_problem(self, device: Device, source: str) -> str:
        """Why the device's lead does not go into an outlet of a strip or UPS, or nothing."""
        strip = self._devices[source].part
        return self._problem(device.part, strip.name, strip.mains.sockets)

    def _wall_problem(self, device: Device) -> str:
        return self._problem(device.part, "", LOCAL)

    def _problem(self, part: Part, at: str, sockets: Word) -> str:
        known = self._problems.get((part.name, at))
        if known is None:
            known = self._problems[part.name, at] = self._leads.problem(part.mains, sockets)
        return known

    def _circle(self, device: str, source: str) -> tuple[str, ...]:
        """How power would go round from the device to itself if `source` fed it, or nothing. Things may have two feeds."""
        stack: list[tuple[str, ...]] = [(device, source)]
        seen = {source}
        while stack:
            path = stack.pop()
            if path[-1] == device:
                return path[::-1]
            behind = [each for each in self._fed_by.get(path[-1], ()) if each not in seen]
            seen.update(behind)
            stack += [(*path, each) for each in behind]
        return ()

    def _near(self, device: Device, wanted: str) -> list[str]:
        """Outlets within reach, nearest first. Strips and UPSs are plugged into the wall unless the plan says otherwise.

        A second lead looks first for what does not feed the device already.
        """
        found: list[str] = []
        if device.part.kind not in MAINS_KINDS and wanted != "wall":
            here = (*self._strips_in[device.cabinet], *self._strips_in[device.room])
            # What stands in a cabinet is there for its own: a desk is not plugged into it unless the plan says so.
            found += dict.fromkeys(
                each
                for each in here
                if self._devices[each].cabinet in ("", device.cabinet)
                and not self._lead_problem(device, each)
            )
        if device.room in self._places.rooms and not self._wall_problem(device):
            found.append(device.room)
        if device.part.kind in _NOT_BACKED_UP and device.part.mains.inlets == 1:
            found.sort(key=lambda each: each in self._devices and self._devices[each].part.kind == "ups")
        mine = self._fed_by.get(device.id)
        return found if mine is None else sorted(found, key=lambda each: each in mine)

    def _free(self, source: str) -> bool:
        used = len(self._used[source])
        if source in self._devices:
            return used < self._devices[source].part.mains.outlets
        count = self._places.rooms[source].mains_outlets
        # A room whose outlets nobody counted is taken to have enough; the rule on mains outlets then cannot tell.
        return used < count.typical if isinstance(count, Fact) else True

    def _leaves_room(self, source: str, device: Device) -> bool:
        """Whether the device's adaptor has room on a strip beside those that are there; of a room nobody says how its outlets lie."""
        if source not in self._devices:
            return True
        blocks = [*self._blocks[source], covered_by(device)]
        return (
            not any(blocks)
            or outlets_needed(blocks, self._turning) <= self._devices[source].part.mains.outlets
        )

    def _take(self, asking: _Asking, source: str) -> MainsFeed:
        device = asking.device.id
        outlet = self._outlet(asking, source)
        self._used[source][outlet] = asking.device.name
        self._blocks[source].append(covered_by(asking.device))
        self._fed_by[device].append(source)
        return MainsFeed(device, source, outlet, asking.inlet)

    def _outlet(self, asking: _Asking, source: str) -> int:
        """The one it had, if that is free; else the lowest that nobody has or had; else the lowest free one."""
        used, kept = self._used[source], asking.kept
        most = self._devices[source].part.mains.outlets if source in self._devices else _ENDLESS
        if kept is not None and _source(kept) == source and kept.outlet not in used and kept.outlet <= most:
            return kept.outlet
        outlet = self._next.get(source, 1)
        while outlet in used or outlet in self._reserved[source]:
            outlet += 1
        if outlet > most:
            return next(each for each in range(1, most + 1) if each not in used)
        self._next[source] = outlet + 1
        return outlet


def _attribute(asking: _Asking) -> str:
    return "power" if asking.inlet == 1 else f"power {asking.inlet}"


def _source(kept: KeptFeed) -> str:
    """The id of what feeds: a room's path has a stroke, a device's name has none."""
    return f"room:{kept.source}" if "/" in kept.source else ids.device(kept.source)


def _why(source: str, device: Device, devices: dict[str, Device]) -> str:
    if source not in devices:
        return "the room's own outlets are the nearest with one free"
    same = device.cabinet and devices[source].cabinet == device.cabinet
    return (
        "it stands in the same cabinet and has an outlet free"
        if same
        else "it stands in the same room and has an outlet free"
    )
