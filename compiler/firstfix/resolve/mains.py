"""Who is plugged in where: what is written is honoured; else a strip or UPS in the same cabinet, then in the room, then the wall."""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.parts.facts import Fact
from firstfix.parts.part import MAINS_KINDS
from firstfix.plan.model import DeviceSpec, Plan
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes, value_span
from firstfix.resolve.places import Places

# How many of the outlets that were possible too are remembered for each thing that is plugged in.
_MOST_OTHERS = 12


class _Asking(NamedTuple):
    device: Device
    spec: DeviceSpec


def resolve_mains(
    plan: Plan,
    devices: dict[str, Device],
    places: Places,
    runs: dict[str, PowerRun],
    field: JackField,
    notes: Notes,
) -> tuple[MainsFeed, ...]:
    fed_by_poe = {field.jacks[run.sink].device for run in runs.values()}
    asking = [
        _Asking(devices[ids.device(spec.name)], spec)
        for spec in plan.devices
        if ids.device(spec.name) in devices
        and devices[ids.device(spec.name)].part.mains.inlet
        and (ids.device(spec.name) not in fed_by_poe or spec.power not in ("", "poe"))
        and spec.power != "poe"
    ]
    for spec in plan.devices:
        device = devices.get(ids.device(spec.name))
        if device is not None and spec.power not in ("", "poe") and not device.part.mains.inlet:
            message = f"'{spec.name}' has no mains inlet, so nothing but PoE can feed it"
            notes.gap("part-kind", device.id, message, value_span(spec.written, "power"))
    outlets = _Outlets(devices, places, notes)
    # Those whose author said where come first, so that nobody else takes their outlet.
    ordered = sorted(asking, key=lambda each: (each.spec.power in ("", "mains"), each.device.id))
    feeds = [feed for each in ordered if (feed := outlets.feed(each)) is not None]
    return tuple(sorted(feeds))


class _Outlets:
    """Free outlets of strips, UPSs and rooms, handed out one by one."""

    def __init__(self, devices: dict[str, Device], places: Places, notes: Notes) -> None:
        self._devices = devices
        self._places = places
        self._notes = notes
        self._used: dict[str, int] = {}
        self._fed_by: dict[str, str] = {}
        self._strips = sorted(device.id for device in devices.values() if device.part.mains.outlets)
        self._strips_in: defaultdict[str, list[str]] = defaultdict(list)
        for each in self._strips:
            for place in {devices[each].cabinet, devices[each].room} - {""}:
                self._strips_in[place].append(each)

    def feed(self, asking: _Asking) -> MainsFeed | None:
        device, spec = asking
        if spec.power and spec.power != "mains":
            return self._as_written(asking)
        candidates = self._near(device)
        for source in candidates:
            if self._free(source):
                self._notes.decide(
                    device.id,
                    "power",
                    ids.path(source),
                    "mains",
                    _why(source, device, self._devices),
                    tuple(ids.path(other) for other in candidates[:_MOST_OTHERS] if other != source),
                )
                return self._take(device, source)
        if candidates:
            full = " and ".join(f"'{ids.path(source)}'" for source in candidates[:_MOST_OTHERS])
            self._notes.gap(
                "mains-outlets",
                device.id,
                f"'{device.name}' finds no free mains outlet: all those of {full} are taken",
                self._notes.provenance.span(device.id),
            )
        return None

    def _as_written(self, asking: _Asking) -> MainsFeed | None:
        device, spec = asking
        at = value_span(spec.written, "power")
        source = ids.device(spec.power)
        if source not in self._devices:
            names = map(ids.path, self._strips)
            self._notes.unknown_name(device.id, spec.power, "device that has mains outlets", names, at)
            return None
        if source not in self._strips:
            self._notes.gap(
                "part-kind", device.id, f"'{spec.power}' has no mains outlet to feed '{device.name}'", at
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
                f"'{spec.power}' has {count} outlets, all in use; '{device.name}' finds none free",
                at,
            )
            return None
        self._notes.honour(device.id, "power", spec.power, "mains")
        return self._take(device, source)

    def _chaining(self, device: Device, source: str) -> str:
        """What is wrong with the way that power would take to the device, or nothing."""
        shown = f"'{device.name}' is to be fed by '{self._devices[source].name}'"
        behind: str | None = source
        while behind is not None:
            if behind == device.id:
                return f"{shown}, which it feeds itself; no power comes in"
            behind = self._fed_by.get(behind)
        rooms = (device.room, self._devices[source].room)
        if all(rooms) and rooms[0] != rooms[1]:
            return f"{shown}, which is in another room; a mains lead does not go through a wall"
        if device.part.kind == self._devices[source].part.kind == "power-strip":
            return f"{shown}: one power strip plugged into another overloads and can burn"
        return ""

    def _near(self, device: Device) -> list[str]:
        """Outlets within reach, nearest first. Strips and UPSs are plugged into the wall unless the plan says otherwise."""
        found: list[str] = []
        if device.part.kind not in MAINS_KINDS:
            here = (*self._strips_in[device.cabinet], *self._strips_in[device.room])
            # What stands in a cabinet is there for its own: a desk is not plugged into it unless the plan says so.
            found += dict.fromkeys(
                each for each in here if self._devices[each].cabinet in ("", device.cabinet)
            )
        if device.room in self._places.rooms:
            found.append(device.room)
        return found

    def _free(self, source: str) -> bool:
        used = self._used.get(source, 0)
        if source in self._devices:
            return used < self._devices[source].part.mains.outlets
        count = self._places.rooms[source].mains_outlets
        # A room whose outlets nobody counted is taken to have enough; the rule on mains outlets then cannot tell.
        return used < count.typical if isinstance(count, Fact) else True

    def _take(self, device: Device, source: str) -> MainsFeed:
        self._used[source] = self._used.get(source, 0) + 1
        self._fed_by[device.id] = source
        return MainsFeed(device.id, source, self._used[source])


def _why(source: str, device: Device, devices: dict[str, Device]) -> str:
    if source not in devices:
        return "the room's own outlets are the nearest with one free"
    same = device.cabinet and devices[source].cabinet == device.cabinet
    return (
        "it stands in the same cabinet and has an outlet free"
        if same
        else "it stands in the same room and has an outlet free"
    )
