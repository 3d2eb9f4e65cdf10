"""Where a device is, in ids and in words; also for what the build doesn't know the place of."""

from firstfix.build.model import Build
from firstfix.graphs.administration import identifiers

NOWHERE = "place not known"


def building_of(build: Build, device: str) -> str:
    """The id of the building a device is in; "" if that isn't known."""
    known = build.devices.get(device)
    room = build.rooms.get(known.room) if known else None
    return room.building if room else ""


def site_of(build: Build, device: str) -> str:
    """The id of the site a device is at; "" if that isn't known."""
    building = build.buildings.get(building_of(build, device))
    return building.site if building else ""


def site_name(build: Build, site: str) -> str:
    known = build.sites.get(site)
    return known.name if known else "site not known"


def building_label(build: Build, building: str) -> str:
    known = build.buildings.get(building)
    if known is None:
        return NOWHERE
    return f"{site_name(build, known.site)} / {known.name}"


def labelled(build: Build, id_: str) -> str:
    """`label 1A.AD02-35` of a device or a cabinet whose label says more than its name; else ""."""
    names = identifiers(build)
    device, cabinet = build.devices.get(id_), build.cabinets.get(id_)
    if device is not None:
        return f"label {names.devices[id_]}" if names.says_more(device) else ""
    if cabinet is not None and names.cabinets[id_] != cabinet.name.upper():
        return f"label {names.cabinets[id_]}"
    return ""
