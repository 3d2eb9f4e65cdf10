"""What a name is that stands where another kind of thing was expected: "that is a room". Reckoned at the first wrong name only."""

import re
from collections import defaultdict
from collections.abc import Iterator

from firstfix.parts.part import KINDS, Library
from firstfix.plan.model import Plan
from firstfix.source.nearest import nearest

_ADDRESS = re.compile(r"[0-9]{1,3}(?:\.[0-9]{1,3}){3}")
# A jack after another mark than a slash.
_MARKED = re.compile(r"([a-z0-9-]+)[:.\\# ]+([a-z0-9-]+)")
# More names than this in one clause are no help.
_MOST_LISTED = 6


class OtherNames:
    def __init__(self, plan: Plan, library: Library) -> None:
        self._plan = plan
        self._library = library
        self._kinds: defaultdict[str, list[str]] | None = None

    def clause(self, name: str, expected: str) -> str:
        """A clause on what `name` is or what was meant, or ""."""
        if self._kinds is None:
            self._kinds = defaultdict(list)
            for each, kind in self._named():
                self._kinds[each].append(kind)
        special = self._special(name, expected)
        if special:
            return f"; {special}"
        kind = self._likeliest(name, expected)
        if kind:
            return f"; '{name}' is {kind}" + self._further(name, kind, expected)
        if expected == "part":
            if name in KINDS:
                return f"; '{name}' is a kind of parts: `firstfix parts {name}` lists them"
            return "" if nearest(name, self._library) else "; `firstfix parts` searches the library by words"
        return ""

    def _special(self, name: str, expected: str) -> str:
        if expected == "VLAN" and name.isascii() and name.isdigit():
            found = next((spec.name for spec in self._plan.vlans if spec.vid == int(name)), "")
            return (
                f"a VLAN is called by its name: write '{found}'"
                if found
                else "a VLAN is called by its name, not by its number"
            )
        if expected == "VLAN" and name in ("all", "any", "everything"):
            others = ["internet", "names", *(spec.name for spec in self._plan.vlans)]
            return f"name each: {_listed(others)}"
        if expected == "device" and _ADDRESS.fullmatch(name):
            return "write the name of the device that has the address"
        if expected == "device" and name in ("keep-free", "free", "empty", "spare"):
            return "a unit is kept free by {keep-free: what for}"
        marked = _MARKED.fullmatch(name) if expected == "device" else None
        if marked is not None and "a device" in self._all(marked[1]):
            return f"a jack is written after a slash: '{marked[1]}/{marked[2]}'"
        return ""

    def _likeliest(self, name: str, expected: str) -> str:
        """What the name is, other than what was expected; of several things, the one that is nearest to that."""
        others = [kind for kind in self._all(name) if kind.partition(" ")[2] != expected]
        near = [kind for kind in others if expected == "room" and kind in ("a building", "a site")]
        return next(iter((*near, *others)), "")

    def _all(self, name: str) -> list[str]:
        return [] if self._kinds is None else self._kinds.get(name, [])

    def _further(self, name: str, kind: str, expected: str) -> str:
        """How to write what was probably meant."""
        if kind == "a part" and expected == "device":
            return f": in a cabinet's layout write {{fit: {name}}}, on a run the name of a device that is one"
        if kind == "a cabinet" and expected == "device":
            return ": a run goes to a device in it"
        if kind in ("a building", "a site") and expected == "room":
            rooms = [
                room.name
                for site in self._plan.sites
                for building in site.buildings
                if name in (site.name, building.name)
                for room in building.rooms
            ]
            return f" with the room{'s' if len(rooms) > 1 else ''} {_listed(rooms)}" if rooms else ""
        if kind == "a device" and expected == "VLAN":
            vlan = next((spec.vlan for spec in self._plan.devices if spec.name == name), "")
            return f": write the VLAN that it is in, '{vlan}'" if vlan else ""
        if kind == "a device" and expected == "part":
            return ": where it is mounted its name stands alone, without 'fit'"
        return ""

    def _named(self) -> Iterator[tuple[str, str]]:
        """Names and what they are, the likeliest first."""
        plan = self._plan
        for kind, things in (
            ("a device", plan.devices), ("a cabinet", plan.cabinets), ("a VLAN", plan.vlans), ("a way", plan.ways),
            ("a phase", plan.phases), ("a circuit", plan.circuits), ("a wireless network", plan.wifi),
        ):  # fmt: skip
            yield from ((each.name, kind) for each in things)
        for site in plan.sites:
            for building in site.buildings:
                yield from ((room.name, "a room") for room in building.rooms)
                yield building.name, "a building"
            yield site.name, "a site"
        yield from ((name, "a part") for name in self._library)


def _listed(names: list[str]) -> str:
    more = f" and {len(names) - _MOST_LISTED} more" if len(names) > _MOST_LISTED else ""
    return ", ".join(f"'{each}'" for each in names[:_MOST_LISTED]) + more
