"""A name that the plan uses, settled: the part it means, the room where a thing is. What cannot be is a gap at its place."""

from firstfix.build import ids
from firstfix.parts.part import Library, Part
from firstfix.resolve.notes import Notes
from firstfix.resolve.places import Places, find_room
from firstfix.span import Span

_HOW = {
    True: "; write its 'room', or put it into the layout of a cabinet",
    False: "; write its 'room'",
}  # fmt: skip


def find_part(name: str, subject: str, library: Library, notes: Notes, at: Span | None) -> Part | None:
    part = library.get(name)
    if part is None and name:
        notes.unknown_name(subject, name, "part", library, at)
    return part


def settle_room(reference: str, subject: str, places: Places, notes: Notes, at: Span | None) -> str:
    if reference:
        return find_room(reference, subject, places, notes, at)
    if len(places.rooms) == 1:
        only = next(iter(places.rooms))
        notes.decide(subject, "room", ids.path(only), "equipment", "the plan has one room")
        return only
    is_device = subject.startswith("device:")
    if places.rooms and ids.path(subject) not in notes.in_doubt | notes.meant:
        notes.gap(
            "room-unsaid",
            subject,
            f"the plan does not say in which room '{ids.path(subject)}' is{_HOW[is_device]}",
            at,
        )
    return ""
