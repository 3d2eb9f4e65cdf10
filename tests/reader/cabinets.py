"""What is true of cabinets, told by the build: where things are mounted, what is under them, what is kept free."""

from firstfix.build import ids
from firstfix.build.hardware import Mount
from firstfix.build.model import Build
from firstfix.parts.facts import Fact
from reader.cabling import only


def unit_of(build: Build, device: str) -> str:
    mount = _mount(build, device)
    assert mount.low == mount.high
    return f"U{mount.low}"


def under(build: Build, device: str) -> str:
    """What is mounted in the unit directly below a device."""
    above = _mount(build, device)
    below = only(
        [each for each in build.mounts if each.cabinet == above.cabinet and each.high == above.low - 1]
    )
    return build.devices[below.item].name


def kept_free(build: Build, cabinet: str) -> str:
    """The one unit kept free in a cabinet, and for what."""
    mounts = [each for each in build.mounts if each.cabinet == ids.cabinet(cabinet) and each.is_kept_free]
    mount = only(mounts)
    assert mount.low == mount.high
    return f"U{mount.low}, {mount.what}"


def depth_left(build: Build, device: str) -> str:
    """Of the cabinet's usable depth, behind a device."""
    mount = _mount(build, device)
    usable = build.cabinets[mount.cabinet].usable_depth
    rack = build.devices[mount.item].part.rack
    assert isinstance(usable, Fact)
    assert rack is not None
    assert isinstance(rack.depth, Fact)
    return f"{round(1000 * (usable.low - rack.depth.high))} mm"


def _mount(build: Build, device: str) -> Mount:
    return only([each for each in build.mounts if each.item == ids.device(device)])
