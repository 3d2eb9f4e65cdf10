"""What a build's mains energy costs in a year: typical draw of what is plugged in, times all hours, times the price of a kWh."""

from typing import NamedTuple

from firstfix.build.ids import path
from firstfix.build.model import Build
from firstfix.graphs.consumption import consumption
from firstfix.offers.currency import minor

# Everything is taken to run day and night: 365 days of 24 hours.
HOURS = 8760


class Energy(NamedTuple):
    """`watts` of all devices that are plugged into the mains, with what they hand on by PoE. `paid` in minor units a year.

    `unknown`: names of devices of which some of that is not known; with any, the real figures are higher.
    """

    watts: float
    kwh: float
    paid: int
    unknown: tuple[str, ...]


def yearly_energy(build: Build) -> Energy | None:
    """None where the plan says no price of energy."""
    price = build.purchase.energy_price
    if price is None:
        return None
    plugged = sorted({feed.device for feed in build.mains_feeds if feed.device in build.devices})
    used = [consumption(build, build.devices[device]) for device in plugged]
    watts = sum(each.taken.usual for each in used)
    kwh = watts * HOURS / 1000
    unknown = tuple(path(each.device) for each in used if each.missing)
    return Energy(watts, kwh, minor(round(kwh, 3), build.currency, price), unknown)
