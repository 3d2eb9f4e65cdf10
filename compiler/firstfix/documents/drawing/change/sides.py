"""Two builds and what differs between them, with all that the sheets ask of both: which thing is which, and where it stands.

A thing of the union goes by its key: its id in the new build, or, for what is gone, its old id behind a mark.
"""

from dataclasses import dataclass

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.compare.changes import CHANGED, GONE, MOVED, NEW, SAME, Changes, State
from firstfix.documents.drawing.network.entries import phase, room_name
from firstfix.documents.drawing.network.wiring import Wiring, wiring
from firstfix.documents.drawing.where import building_label, building_of

_GONE = "gone "


def key_of(state: State) -> str:
    return state.new or f"{_GONE}{state.old}"


@dataclass(frozen=True, slots=True)
class Sides:
    """The old build and the new one, each with its wiring."""

    old: Build
    new: Build
    changes: Changes
    before: Wiring
    after: Wiring

    def state(self, key: str) -> State:
        if key.startswith(_GONE):
            return self.changes.in_old(key.removeprefix(_GONE))
        return self.changes.in_new(key)

    def key_of_old(self, id_: str) -> str:
        return key_of(self.changes.in_old(id_))

    def now(self, id_: str) -> str:
        """An id of the old build as it is in the new one."""
        return renamed(id_, self.changes.delta.names)

    def shape(self, key: str) -> str:
        """How it is drawn: what only moved within its cabinet, or is set or called otherwise, is the same thing in the same place."""
        state = self.state(key)
        if state.state in (NEW, GONE):
            return state.state
        if self.has_moved(key):
            return MOVED
        return CHANGED if self.part_was(key) else SAME

    def device(self, key: str) -> Device | None:
        """As it is, or as it was if it is gone."""
        state = self.state(key)
        return self.new.devices.get(state.new) or self.old.devices.get(state.old)

    def was(self, key: str) -> Device | None:
        return self.old.devices.get(self.state(key).old)

    def has_moved(self, key: str) -> bool:
        """From one room to another."""
        was, now = self.was(key), self.new.devices.get(self.state(key).new)
        return was is not None and now is not None and self.now(was.room) != now.room

    def part_was(self, key: str) -> str:
        """The title of the part that it was, if it is another now."""
        was, now = self.was(key), self.new.devices.get(self.state(key).new)
        return (
            was.part.title if was is not None and now is not None and was.part.name != now.part.name else ""
        )

    def is_hub(self, key: str) -> bool:
        state = self.state(key)
        return state.new in self.after.hubs or state.old in self.before.hubs

    def name(self, key: str) -> str:
        known = self.device(key)
        state = self.state(key)
        return known.name if known else ids.path(state.new or state.old)

    def place(self, key: str, is_before: bool = False) -> str:
        """Room, height in a cabinet, phase. `is_before`: where it stood in the old build."""
        state = self.state(key)
        is_old = is_before or not state.new
        build, wires, id_ = (
            (self.old, self.before, state.old) if is_old else (self.new, self.after, state.new)
        )
        known = build.devices.get(id_)
        if known is None:
            return "place not known"
        said = (room_name(build, known), wires.places.get(id_, ""), phase(known.phase))
        return " · ".join(filter(None, said))

    def building(self, key: str, is_before: bool = False) -> tuple[str, str]:
        """A key for the building it is in, the same on both sides, and its name."""
        state = self.state(key)
        is_old = is_before or not state.new
        build, id_ = (self.old, state.old) if is_old else (self.new, state.new)
        found = building_of(build, id_)
        return (self.now(found) if is_old else found), building_label(build, found)


def sides(old: Build, new: Build, changes: Changes) -> Sides:
    return Sides(old, new, changes, wiring(old), wiring(new))
