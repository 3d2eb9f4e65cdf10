"""Why a cabinet, and what takes each of its units: written, or free."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Cabinet, Mount
from firstfix.build.model import Build
from firstfix.build.reasons import WRITTEN
from firstfix.explaining.lines import mount_span, part_fact, place_of, room_name, said, sections
from firstfix.explaining.model import Explanation, Line
from firstfix.units import millimetres


def explain_cabinet(build: Build, id_: str) -> Explanation:
    cabinet = build.cabinets[id_]
    parts = sections(("the cabinet", _itself(build, cabinet)), ("units, top down", _units(build, cabinet)))
    return Explanation(
        id_, "cabinet", f"{cabinet.name}, {cabinet.part.title}", build.provenance.span(id_), parts
    )


def _itself(build: Build, cabinet: Cabinet) -> Iterator[Line]:
    yield said(build, cabinet.id, "room", room_name(build, cabinet.room), otherwise="the plan has one room")
    yield said(build, cabinet.id, "part", cabinet.part.name)
    yield part_fact(build, cabinet.part, "usable depth", cabinet.usable_depth, millimetres, "usable-depth")
    yield Line("rails", f"{cabinet.rails or 'not known'}, thread {cabinet.thread or 'not known'}")


def _units(build: Build, cabinet: Cabinet) -> Iterator[Line]:
    for unit in range(cabinet.units, 0, -1):
        mounts = _at(build, cabinet.id, unit)
        if not mounts:
            yield Line(str(unit), "free")
        for mount in mounts:
            if mount.high == unit:
                span = f"{mount.low} to {mount.high}" if mount.low != mount.high else str(unit)
                yield Line(span, _shown(build, mount), WRITTEN, "", mount_span(build, mount))


def _at(build: Build, cabinet: str, unit: int) -> tuple[Mount, ...]:
    return tuple(each for each in build.mounts if each.cabinet == cabinet and each.low <= unit <= each.high)


def _shown(build: Build, mount: Mount) -> str:
    rear = ", at the rear" if mount.face == "rear" else ""
    if mount.is_kept_free:
        return f"kept free for {mount.what}{rear}"
    if mount.item in build.devices:
        return f"{build.devices[mount.item].name}, {build.devices[mount.item].part.name}{rear}"
    carried = [each.name for each in build.devices.values() if each.carried_by == mount.item]
    holds = f", carries {', '.join(carried)}" if carried else ""
    named = build.fittings[mount.item].part.name if mount.item in build.fittings else mount.what
    return f"{named}{holds}{rear}"


def explain_unit(build: Build, id_: str) -> Explanation:
    """One unit: `unit:main/8`."""
    cabinet_name, _, number = ids.path(id_).rpartition("/")
    cabinet = build.cabinets[ids.cabinet(cabinet_name)]
    mounts = _at(build, cabinet.id, int(number))
    lines = [Line(place_of(mount), _shown(build, mount), WRITTEN, "", mount_span(build, mount)) for mount in mounts]  # fmt: skip
    if not lines:
        at = build.provenance.written(cabinet.id, "layout")
        lines = [Line("free", f"nothing in the layout of '{cabinet_name}' takes it", "", "", at)]
    at = mount_span(build, mounts[0]) if mounts else build.provenance.span(cabinet.id)
    return Explanation(id_, "unit", f"{number} of the cabinet {cabinet_name}", at, sections(("in it", lines)))
