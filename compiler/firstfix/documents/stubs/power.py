"""Power on a device's sheet: what a jack gives or takes over PoE, and what feeds the device at all."""

from firstfix.build import ids
from firstfix.build.hardware import Device, Jack
from firstfix.build.power import MainsFeed, PowerRun
from firstfix.documents.stubs.figures import NOTHING, at_most, power_class, shown
from firstfix.documents.stubs.lookup import Lookup
from firstfix.standards.poe import USUAL_PRIORITY
from firstfix.units import watts


def poe_at(look: Lookup, jack: Jack) -> str:
    """The PoE cell of a jack's row."""
    given = look.powering.get(jack.id, ())
    if given:
        return "; ".join(_given(look, run) for run in given)
    taken = look.powered.get(jack.id, ())
    if taken:
        return "; ".join(_taken(run) for run in taken)
    if power_from_elsewhere(look, jack):
        return "off"
    return "not needed" if jack.power == "gives" else NOTHING


def _given(look: Lookup, run: PowerRun) -> str:
    granted = f"{power_class(run.assigned)}, {shown(run.granted, watts)} at {look.owner(run.sink).name}"
    priority = "" if run.priority == USUAL_PRIORITY else f", priority {run.priority}"
    return f"on: {granted} ({at_most(run.reserved, watts)} counted here{priority})"


def _taken(run: PowerRun) -> str:
    return f"takes {power_class(run.assigned)}, {shown(run.granted, watts)}, from {ids.path(run.source)}"


def power_from_elsewhere(look: Lookup, jack: Jack) -> tuple[str, ...]:
    """For a jack that could give PoE, what gives it instead on the same channel: an injector in line."""
    channel = look.channel(jack.id)
    if jack.power != "gives" or look.powering.get(jack.id) or channel is None:
        return ()
    runs = (run for run in look.power_over.get(channel.id, ()) if run.sink != jack.id)
    return tuple(look.owner(run.source).name for run in runs)


def feeds_of(look: Lookup, device: Device) -> tuple[str, ...]:
    """One line for each thing that feeds the device; none found is said, never left blank."""
    jacks = look.build.jacks_of.get(device.id, ())
    over_cable = [_poe_feed(run) for jack in jacks for run in look.powered.get(jack, ())]
    mains = [_mains_feed(look, feed) for feed in look.feeds.get(device.id, ())]
    return tuple(mains + over_cable) or ("nothing is known to feed it",)


def _poe_feed(run: PowerRun) -> str:
    granted = f"{power_class(run.assigned)}, {shown(run.granted, watts)} at the device"
    return f"PoE from {ids.path(run.source)}: {granted}, which draws {at_most(run.drawn, watts)} at the most"


def _mains_feed(look: Lookup, feed: MainsFeed) -> str:
    source = look.build.devices.get(feed.source)
    if source is None:
        return f"mains outlet in room {ids.path(feed.source)}"
    return f"outlet {feed.outlet} of {source.name}" if feed.outlet else f"an outlet of {source.name}"
