"""How long each UPS holds what hangs on it: by the points of its data sheet, else by its battery's energy.

Takes a build; gives one BackupTime for each UPS. Batteries are taken to be new: after three years they hold about half.
"""

import math
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.graphs.consumption import Spread
from firstfix.graphs.mains_load import mains_loads
from firstfix.parts.facts import Fact
from firstfix.parts.forms import Battery
from firstfix.physics.mains import backup_time_between
from firstfix.physics.range import OutOfRange
from firstfix.standards.mains import mains_limits


class BackupTime(NamedTuple):
    """`load` [W] at its outlets; `lasts` [s] at the least load, as usual, at the most; None where that can't be told."""

    ups: str
    load: Spread
    lasts: tuple[float | None, float | None, float | None]
    by: str


def backup_times(build: Build) -> tuple[BackupTime, ...]:
    """In order of ids; nothing for a plan without a UPS."""
    upses = sorted(each.id for each in build.devices.values() if each.part.kind == "ups")
    return tuple(_time(build, each) for each in upses)


def _time(build: Build, ups: str) -> BackupTime:
    load = mains_loads(build).behind(ups).total
    battery = build.devices[ups].part.battery or Battery()
    by = "points of its data sheet" if battery.lasts else "its battery's energy, to first order"
    least, usual, most = (_lasts(battery, watts) for watts in load)
    return BackupTime(ups, load, (least, usual, most), by)


def _lasts(battery: Battery, watts: float) -> float | None:
    if not watts or not math.isfinite(watts):
        return None
    if len(battery.lasts) > 1:
        try:
            # Below the least load of a point it lasts longer; how much longer nobody says.
            return backup_time_between(battery.lasts, max(watts, min(battery.lasts)[0]))
        except OutOfRange:
            return None
    if isinstance(battery.energy, Fact):
        known = mains_limits()
        usable = battery.energy.low * known.backup_efficiency.value * known.backup_depth.value
        return usable / watts * 3600
    return None
