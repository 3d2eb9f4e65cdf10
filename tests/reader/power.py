"""What is true of mains and PoE, told by the build and its graphs: what feeds what, how much is left, how long a battery holds."""

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed
from firstfix.graphs.backup_time import backup_times
from firstfix.graphs.mains_tree import mains_tree
from firstfix.parts.facts import Fact
from reader.cabling import only


def outlet_of(build: Build, device: str) -> str:
    """The strip, the UPS or the room whose outlet feeds a device, and which of its outlets."""
    feed = _feed(build, device)
    source = build.devices.get(feed.source) or build.rooms[feed.source]
    return f"{source.name}, outlet {feed.outlet}"


def fed_at(build: Build, source: str, outlet: str) -> str:
    """The device on an outlet of a strip or a UPS."""
    here = [each for each in build.mains_feeds if each.source == ids.device(source)]
    return build.devices[only([each.device for each in here if each.outlet == int(outlet)])].name


def circuit_of(build: Build, device: str) -> str:
    """The circuit at the end of a device's leads, with its rating."""
    source = ids.device(device)
    while source in build.devices:
        source = only([each.source for each in build.mains_feeds if each.device == source])
    circuit = only([each for each in build.circuits.values() if source in each.rooms])
    assert isinstance(circuit.rating, Fact)
    return f"{circuit.name}, {circuit.rating.low:g} A"


def left_of(build: Build, strip: str) -> str:
    """Of what a strip carries, when all that hangs on it draws the most."""
    left = only([each.left for each in mains_tree(build) if each.id == ids.device(strip)])
    assert left is not None
    return _watts(left)


def untold_draws(build: Build) -> str:
    """The devices on the mains of which nobody knows what they draw."""
    untold = {each.id for each in mains_tree(build) if each.missing and each.id in build.devices}
    return ", ".join(sorted(build.devices[each].name for each in untold))


def holds_at_the_most(build: Build, ups: str) -> str:
    lasts = only([each.lasts[2] for each in backup_times(build) if each.ups == ids.device(ups)])
    assert lasts is not None
    return f"{lasts // 60:.0f} min"


def poe_left(build: Build, device: str) -> str:
    return _watts(_left(build, ids.device(device)))


def least_poe_left(build: Build) -> str:
    """Of all that feed something, the one with the fewest watts left."""
    left, device = min(
        (_left(build, each.device), each.device) for each in build.power_sources.values() if each.runs
    )
    return f"{build.devices[device].name}, {_watts(left)}"


def poe_source_of(build: Build, device: str) -> str:
    """The jack that feeds a device by PoE, and the class that it grants."""
    run = only(
        [each for each in build.power_runs.values() if build.jacks[each.sink].device == ids.device(device)]
    )
    assert isinstance(run.assigned, Fact)
    return f"{run.source.removeprefix('jack:')}, class {run.assigned.low:g}"


def thirstiest(build: Build, source: str) -> str:
    """Of the devices that a source feeds by PoE, the one that may draw the most, and how much."""
    draws = []
    for each in build.power_sources[ids.device(source)].runs:
        run = build.power_runs[each]
        assert isinstance(run.drawn, Fact)
        draws.append((run.drawn.high, build.devices[build.jacks[run.sink].device].name))
    most = max(draws)[0]
    return f"{only([name for watts, name in draws if watts == most])}, {_watts(most)}"


def _feed(build: Build, device: str) -> MainsFeed:
    return only([each for each in build.mains_feeds if each.device == ids.device(device)])


def _left(build: Build, device: str) -> float:
    left = build.power_sources[device].left
    assert isinstance(left, Fact)
    return left.low


def _watts(watts: float) -> str:
    return f"{round(watts, 1):g} W"
