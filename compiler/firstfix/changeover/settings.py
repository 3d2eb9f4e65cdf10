"""The jobs of setting devices: jacks before they are used, links between bridges in up to two turns, and what is cleared at the end.

A link's end that gets some VLANs and loses others is widened first and narrowed last, so that whoever uses it is never without.
"""

from collections.abc import Iterator, Mapping

from firstfix.build import ids
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.minutes import Minutes
from firstfix.changeover.sides import PLAIN, Setting, Side

_Sets = tuple[tuple[str, Setting], ...]


def setting_jobs(old: Side, new: Side, kept: frozenset[str], minutes: Minutes) -> Iterator[Job]:
    """`kept`: devices of both sides that stay the same thing; what is new is set up on the bench, before it meets the network."""
    bridges = {
        device
        for side in (old, new)
        for device in side.devices
        if side.devices[device].part.bridges is not False
    }
    facing = _facing(old) | _facing(new)
    for device, jacks in _jacks_of(old, new).items():
        if device in kept and new.devices[device].part.vlan_aware is not False:
            yield from _of_device(
                device, jacks, old, new, facing if device in bridges else {}, bridges, minutes
            )


def _jacks_of(old: Side, new: Side) -> dict[str, list[str]]:
    """Jacks whose setting changes, by device."""
    found: dict[str, list[str]] = {}
    for jack in sorted(old.settings.keys() | new.settings.keys()):
        if old.settings.get(jack) != new.settings.get(jack):
            found.setdefault(device_of(jack), []).append(jack)
    return found


def device_of(jack: str) -> str:
    return ids.device(ids.path(jack).partition("/")[0])


def _facing(side: Side) -> dict[str, str]:
    """Jack to the device at the other end of its lane."""
    return {lane.jacks[at]: lane.devices[1 - at] for lane in side.lanes for at in (0, 1)}


def _of_device(
    device: str,
    jacks: list[str],
    old: Side,
    new: Side,
    facing: Mapping[str, str],
    bridges: set[str],
    minutes: Minutes,
) -> Iterator[Job]:
    took = minutes.of_change("set")
    if not facing and not any(
        side.settings[jack].tagged for side in (old, new) for jack in jacks if jack in side.settings
    ):
        # What knows no tags is in whatever VLAN its jack in the wall is.
        return
    both = [jack for jack in jacks if jack in old.settings and jack in new.settings]
    ready = tuple((jack, new.settings[jack]) for jack in jacks if jack not in old.settings)
    clear = tuple((jack, Setting()) for jack in jacks if jack not in new.settings)
    if ready:
        yield Job(Kind.READY, device, took, sets=ready)
    links: dict[str, list[str]] = {}
    for jack in both:
        far = facing.get(jack, "")
        links.setdefault(far if far in bridges else "", []).append(jack)
    for far, mine in links.items():
        if far:
            yield from _stages(device, far, mine, old, new, took)
        else:
            faces = tuple(sorted({facing[jack] for jack in mine if jack in facing}))
            sets = tuple((jack, new.settings[jack]) for jack in mine)
            yield Job(Kind.ACCESS, device, took, sets=sets, faces=faces)
    if clear:
        gone = (
            f"{Kind.UNPLUG.name}:{laid.key}"
            for laid in old.laid.values()
            if not set(laid.ends).isdisjoint(jacks)
        )
        yield Job(Kind.CLEAR, device, took, sets=clear, after=frozenset(gone))  # fmt: skip


def _stages(device: str, far: str, jacks: list[str], old: Side, new: Side, took: int) -> Iterator[Job]:
    now: _Sets = tuple((jack, old.settings[jack]) for jack in jacks)
    then: _Sets = tuple((jack, new.settings[jack]) for jack in jacks)
    wide = tuple((jack, _widened(setting, new.settings[jack])) for jack, setting in now)
    turns = any(_is_turned(old.settings[jack], new.settings[jack]) for jack in jacks)
    before: frozenset[str] = frozenset()
    if wide not in (now, then):
        job = Job(Kind.WIDEN, device, took, sets=wide, towards=far)
        yield job
        before = frozenset({job.id})
    # The untagged VLAN is turned and the rest taken off in one go: between two turns the far end may be out of reach.
    kind = Kind.TURN if turns else Kind.WIDEN if wide == then else Kind.NARROW
    yield Job(kind, device, took, sets=then, after=before, towards=far)


def _is_turned(now: Setting, new: Setting) -> bool:
    return (now.untagged, now.group) != (new.untagged, new.group)


def _widened(now: Setting, new: Setting) -> Setting:
    """With all that it will carry, tagged, beside what it carries; its untagged VLAN stays."""
    more = new.tagged | ({new.untagged} - {PLAIN})
    return now._replace(tagged=now.tagged | (more - {now.untagged}))
