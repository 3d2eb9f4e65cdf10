"""The plan with so many more of something in it, and with what would lift a limit.

Takes a typed plan and gives another one, as its author could have written it: copies of a device with a run of their own over the same
panels to the same switch. What a run needs for itself (an outlet, a surge protector, an injector) is copied with it. Nothing that
the author chose for one thing alone is taken over: no jack, no address, no label, no hardware that is there already.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.growth.model import HEIGHT, Spot
from firstfix.growth.spots import towards_switch
from firstfix.parts.part import INLINE_KINDS
from firstfix.plan.model import CabinetSpec, DeviceSpec, HopSpec, LinkSpec, Plan, SlotSpec

# Ids that name jacks.
_WIRED = ("link", "channel", "jack", "piece", "joint", "power-run")
_OWN = ("outlet", *INLINE_KINDS)


class Change(NamedTuple):
    """What would lift a limit: other parts by name of device, cabinet or way; and for copies past `after`, an injector of the
    part `injector` in line before the switch, a panel like `panel` beside that one, and a shelf (`shelf`) like the one they would
    stand on. "" for none. `anew`: devices whose jacks are chosen anew."""

    devices: tuple[tuple[str, str], ...] = ()
    cabinets: tuple[tuple[str, str], ...] = ()
    ways: tuple[tuple[str, str], ...] = ()
    injector: str = ""
    panel: str = ""
    shelf: str = ""
    after: int = 0
    anew: tuple[str, ...] = ()


UNCHANGED = Change()


def marker(plan: Plan) -> str:
    """What stands between the name of a thing and the number of its copy; in no name of the plan."""
    text = "-more-"
    while any(text in spec.name for spec in plan.devices):
        text = f"-still{text}"
    return text


def original(subject: str, mark: str) -> str:
    """An id with its copies' names put back, and the jacks left out, which differ from copy to copy: what copies have in common.

    >>> original("link:cam-more-2--core/7", "-more-"), original("device:cam-more-12", "-more-")
    ('link:cam--core', 'device:cam')
    """
    kind, path = ids.kind(subject), re.sub(rf"{re.escape(mark)}[0-9]+", "", ids.path(subject))
    if kind in _WIRED:
        path = "--".join(sorted(re.split("[/#]", end)[0] for end in path.split("--")))
    return f"{kind}:{path}"


def with_more(plan: Plan, build: Build, spot: Spot, count: int, change: Change = UNCHANGED) -> Plan:
    """`plan` with `count` more at `spot`, and with `change`. `build`: of `plan` itself."""
    return _Grown(changed(plan, change), build, spot, change).with_copies(count)


def changed(plan: Plan, change: Change) -> Plan:
    """With other parts in the place of some; what is new is not there already."""
    devices, cabinets, ways = dict(change.devices), dict(change.cabinets), dict(change.ways)
    return replace(
        plan,
        devices=tuple(
            replace(each, part=devices[each.name], is_owned=False) if each.name in devices else each
            for each in plan.devices
        ),
        cabinets=tuple(
            replace(each, part=cabinets[each.name], is_owned=False) if each.name in cabinets else each
            for each in plan.cabinets
        ),
        ways=tuple(
            replace(each, material=ways[each.name], bore=None, is_owned=False) if each.name in ways else each
            for each in plan.ways
        ),
    )


class _Grown:
    def __init__(self, plan: Plan, build: Build, spot: Spot, change: Change) -> None:
        self._plan, self._build, self._spot, self._change = plan, build, spot, change
        self._mark = marker(plan)
        self._specs = {spec.name: spec for spec in plan.devices}
        self._devices: list[DeviceSpec] = []
        self._links: list[LinkSpec] = []
        self._cabinets = {each.name: each for each in plan.cabinets}

    def with_copies(self, count: int) -> Plan:
        if self._change.panel and count > self._change.after:
            self._copy(self._change.panel, "0")
        for number in range(1, count + 1):
            self._one(str(number))
        return replace(
            self._plan,
            devices=(*self._plan.devices, *self._devices),
            links=(*self._plan.links, *self._links),
            cabinets=tuple(self._cabinets.values()),
        )

    def _one(self, number: str) -> None:
        spot = self._spot
        if spot.is_part:
            cabinet = self._cabinets[spot.cabinet]
            self._mount(cabinet, _fitted(cabinet, spot.like))
            return
        if spot.kind == HEIGHT:
            name = self._copy(spot.like, number)
            if self._is_switch(spot.like):
                self._wire((self._hop(name), self._hop(spot.like)))
            return
        link = self._plan.links[spot.link]
        hops = [self._hop_of(hop, number) for hop in towards_switch(link.hops, spot.like, self._build)]
        if self._change.injector and int(number) > self._change.after:
            hops.insert(-1, self._hop(self._injector(number, hops[-1].device)))
        self._wire(tuple(hops), link)

    def _is_switch(self, name: str) -> bool:
        return self._build.devices[ids.device(name)].part.bridges is True

    def _hop_of(self, hop: HopSpec, number: str) -> HopSpec:
        """The same panel or switch at any of its jacks; of what serves one run only, a copy."""
        device = self._build.devices[ids.device(hop.device)]
        if hop.device == self._spot.like or device.part.kind in _OWN:
            return self._hop(self._copy(hop.device, number))
        if hop.device == self._change.panel and int(number) > self._change.after:
            return self._hop(f"{hop.device}{self._mark}0")
        return self._hop(hop.device)

    def _hop(self, device: str) -> HopSpec:
        node = self._plan.links[0].hops[0].node if self._plan.links else self._plan.written.node
        return HopSpec(device, "", device, node)

    def _wire(self, hops: tuple[HopSpec, ...], like: LinkSpec | None = None) -> None:
        if like is not None:
            self._links.append(replace(like, hops=hops, owned="", spare_for=""))
        else:
            self._links.append(LinkSpec(hops, 1, "", (), None, None, "", "", None, "", self._plan.written))

    def _copy(self, name: str, number: str) -> str:
        """One more of `name`, at the same place: in the same room, on the same shelf, or in free units of the same cabinet."""
        copy = f"{name}{self._mark}{number}"
        spec = self._specs[name]
        self._devices.append(replace(spec, name=copy, host="", mac="", label="", note="", is_owned=False))
        for cabinet in self._cabinets.values():
            for slot in cabinet.slots:
                if slot.name == name and slot.what == "device":
                    self._mount(cabinet, replace(slot, name=copy, is_owned=False))
                    return copy
                if name in slot.carries:
                    is_apart = bool(self._change.shelf) and int(number) > self._change.after
                    self._carry(cabinet, self._other_shelf(cabinet, slot) if is_apart else slot, copy)
                    return copy
        return copy

    def _other_shelf(self, cabinet: CabinetSpec, slot: SlotSpec) -> SlotSpec | None:
        """The second shelf, once there is one."""
        own = (each for each in cabinet.slots if each.name == slot.name and each.carries)
        return next((each for each in own if all(self._mark in name for name in each.carries)), None)

    def _carry(self, cabinet: CabinetSpec, shelf: SlotSpec | None, copy: str) -> None:
        """On that shelf, or on a new one."""
        if shelf is None:
            like = next(each for each in cabinet.slots if each.name == self._change.shelf and each.carries)
            self._mount(cabinet, replace(like, carries=(copy,), is_owned=False))
            return
        fuller = replace(shelf, carries=(*shelf.carries, copy))
        slots = tuple(fuller if each is shelf else each for each in cabinet.slots)
        self._cabinets[cabinet.name] = replace(cabinet, slots=slots)

    def _mount(self, cabinet: CabinetSpec, slot: SlotSpec) -> None:
        """In the highest free units; where there are none, in front of what is at the top, and a rule will say so."""
        height = slot.high - slot.low + 1
        part = self._build.library.get(cabinet.part)
        taken = {unit for each in cabinet.slots for unit in range(each.low, each.high + 1)}
        low = next(_free(taken, part.units if part else 0, height), slot.low)
        placed = replace(slot, low=low, high=low + height - 1)
        self._cabinets[cabinet.name] = replace(cabinet, slots=(*cabinet.slots, placed))

    def _injector(self, number: str, switch: str) -> str:
        """In the switch's room, beside it."""
        name = f"injector{self._mark}{number}"
        room = ids.path(self._build.devices[ids.device(switch)].room)
        like = self._specs[switch]
        self._devices.append(
            replace(
                like, name=name, part=self._change.injector, room=room, vlan="", tagged=(), host="", power=(),
                is_owned=False, mac="", label="", note="",
            )
        )  # fmt: skip
        return name


def _fitted(cabinet: CabinetSpec, part: str) -> SlotSpec:
    return SlotSpec(1, 1, "fit", part, "", "", "", (), None, False, "", cabinet.written)


def _free(taken: set[int], units: int, height: int) -> Iterator[int]:
    """Lowest units of what is free and high enough, from the top."""
    for low in range(units - height + 1, 0, -1):
        if taken.isdisjoint(range(low, low + height)):
            yield low
