"""What a build's mains energy costs in a year: typical draw of what is plugged in, times its hours, times the price of a kWh."""

from typing import NamedTuple

from firstfix.build.hardware import Device
from firstfix.build.ids import path
from firstfix.build.model import Build
from firstfix.graphs.consumption import consumption
from firstfix.offers.currency import minor

DAYS = 365
_ALL_DAY = 24.0


class Use(NamedTuple):
    """What all devices of one part take: `watts` together while they run, `hours` a day, `kwh` a year."""

    part: str
    title: str
    devices: int
    watts: float
    hours: float
    kwh: float


class Energy(NamedTuple):
    """`uses`, the largest first, of all devices that are plugged into the mains, with what they hand on by PoE. `paid` in minor units a year.

    `unknown`: names of devices of which some of that is not known; with any, the real figures are higher.
    """

    uses: tuple[Use, ...]
    paid: int
    unknown: tuple[str, ...]

    @property
    def watts(self) -> float:
        return sum(each.watts for each in self.uses)

    @property
    def kwh(self) -> float:
        return sum(each.kwh for each in self.uses)


def yearly_energy(build: Build) -> Energy | None:
    """None where the plan says no price of energy."""
    price = build.purchase.energy_price
    if price is None:
        return None
    plugged = sorted({feed.device for feed in build.mains_feeds if feed.device in build.devices})
    used = [consumption(build, build.devices[device]) for device in plugged]
    by_part: dict[str, list[float]] = {}
    for each in used:
        by_part.setdefault(build.devices[each.device].part.name, []).append(each.taken.usual)
    devices = {build.devices[device].part.name: build.devices[device] for device in plugged}
    uses = [_use(build, devices[part], watts) for part, watts in by_part.items()]
    unknown = tuple(path(each.device) for each in used if each.missing)
    found = Energy(tuple(sorted(uses, key=lambda use: (-use.kwh, use.part))), 0, unknown)
    return found._replace(paid=minor(round(found.kwh, 3), build.currency, price))


def _use(build: Build, device: Device, watts: list[float]) -> Use:
    part, runs = device.part, dict(build.purchase.runs)
    hours = runs.get(part.name, runs.get(part.kind, _ALL_DAY))
    together = sum(watts)
    return Use(part.name, part.title, len(watts), together, hours, together * hours * DAYS / 1000)
