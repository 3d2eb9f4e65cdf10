"""Where a device stands, in the words of the plan."""

from firstfix.build import ids
from firstfix.build.hardware import Device, Mount
from firstfix.documents.stubs.lookup import Lookup


def place_of(look: Lookup, device: Device) -> str:
    """`cabinet main, unit 8, in room office (building mill, floor 0)`"""
    return f"{_spot(look, device)}in {_room(look, device)}"


def _spot(look: Lookup, device: Device) -> str:
    mounts = look.mounts.get(device.id, ())
    if mounts:
        return f"cabinet {ids.path(mounts[0].cabinet)}, {_units(mounts[0])}, "
    shelf = look.mounts.get(device.carried_by, ()) if device.carried_by else ()
    if shelf:
        return f"cabinet {ids.path(shelf[0].cabinet)}, on the shelf at {_units(shelf[0])}, "
    return f"cabinet {ids.path(device.cabinet)}, " if device.cabinet else ""


def _units(mount: Mount) -> str:
    rear = ", rear" if mount.face == "rear" else ""
    return (f"unit {mount.low}" if mount.low == mount.high else f"units {mount.low} to {mount.high}") + rear


def _room(look: Lookup, device: Device) -> str:
    room = look.build.rooms.get(device.room)
    if room is None:
        return "a room that is not settled"
    building = look.build.buildings.get(room.building)
    words = [f"building {building.name}"] if building is not None else []
    words.append("outdoors" if room.is_outdoors else f"floor {room.floor}")
    return f"room {room.name} ({', '.join(words)})"
