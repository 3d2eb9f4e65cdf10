"""What is left of everything that can run out: PoE, jacks, units, ways, mains, battery, heat.

Takes a build; gives one row for each thing, with what is used, of how much, and what is left. What is not known has no figure, and says
why; it never reads as room. Where a figure has a spread, the worst counts.
"""

import math
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.graphs.backup_time import backup_times
from firstfix.graphs.cabinet_air import cabinet_airs
from firstfix.graphs.mains_load import mains_loads, strips
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.mains import continuous_power
from firstfix.physics.pathway import fill_fraction, fill_limit

POE, JACKS, UNITS, FILL, MAINS, CIRCUIT, BATTERY, AIR = (
    "PoE", "free jacks", "free units", "cable space", "mains watts", "circuit watts", "minutes on battery",
    "warmth to spare",
)  # fmt: skip
WHAT = (POE, JACKS, UNITS, FILL, MAINS, CIRCUIT, BATTERY, AIR)
_PANEL = "panel"
_NOT_BOUNDED = "a draw that nothing bounds"


class Headroom(NamedTuple):
    """Of the thing `id`: `used` and `limit` in `unit`; a battery has no limit, and `used` is how long it lasts.

    `of` tells rows of one thing apart, such as its jacks by their family. `why`: why a figure is not known, or "".
    """

    what: str
    id: str
    of: str
    unit: str
    used: float | None
    limit: float | None
    why: str = ""

    @property
    def left(self) -> float | None:
        """What may still be added, below 0 where too much is used already; of a battery, how long it lasts."""
        if self.used is None or self.limit is None:
            return self.used if self.what == BATTERY else None
        return self.limit - self.used

    @property
    def left_share(self) -> float | None:
        """`left` as a share of the limit: what is tightest has the least."""
        if self.what == BATTERY or self.left is None or not self.limit:
            return None
        return self.left / self.limit


def headroom(build: Build) -> tuple[Headroom, ...]:
    """In the order of `WHAT`, then of ids."""
    found: list[Headroom] = []
    for maker in (_poe, _jacks, _units, _fill, _mains, _circuits, _batteries, _air):
        found += sorted(maker(build), key=lambda each: (each.id, each.of))
    return tuple(found)


def _poe(build: Build) -> Iterator[Headroom]:
    """Counted as the source counts, in the worst case."""
    for source in build.power_sources.values():
        budget, taken = source.budget, source.taken
        why = next((each.why for each in (budget, taken) if isinstance(each, Unknown)), "")
        yield Headroom(
            POE,
            source.device,
            "",
            "W",
            _finite(taken.high) if isinstance(taken, Fact) else None,
            budget.low if isinstance(budget, Fact) else None,
            why,
        )


def _jacks(build: Build) -> Iterator[Headroom]:
    """Of what hands on data to more than one, and of panels; a jack with a rear is taken once either face is. A jack for the provider's
    line is room for nothing else."""
    taken = {(build.jacks[joint.jack].device, build.jacks[joint.jack].name) for joint in build.joints}
    for device in build.devices.values():
        if device.part.bridges is not True and device.part.kind != _PANEL:
            continue
        here, used = Counter[str](), Counter[str]()
        for id_ in build.jacks_of.get(device.id, ()):
            jack = build.jacks[id_]
            if jack.face == "front" and jack.side == "inside":
                here[jack.family] += 1
                used[jack.family] += (device.id, jack.name) in taken
        for family, count in here.items() if here.total() > 1 else ():
            yield Headroom(JACKS, device.id, family, "", used[family], count)


def _units(build: Build) -> Iterator[Headroom]:
    """Units kept free count as used: they are spoken for."""
    full: Counter[str] = Counter(each.cabinet for each in build.occupancy if each.mounts)
    for cabinet in build.cabinets.values():
        yield Headroom(UNITS, cabinet.id, "", "U", full[cabinet.id], cabinet.units)


def _fill(build: Build) -> Iterator[Headroom]:
    """By NFPA 70 (2017), Chapter 9 Table 1, as the rule way-fill has it: share of the bore, for one cable more than there are."""
    inside: dict[str, list[str]] = {way.id: [] for way in build.ways.values() if isinstance(way.bore, Fact)}
    for piece in build.pieces.values() if inside else ():
        for way in piece.route:
            if way in inside:
                inside[way].append(piece.part)
    for id_, parts in inside.items():
        yield _filled(build, id_, parts)


def _filled(build: Build, id_: str, parts: list[str]) -> Headroom:
    bore, diameters = build.ways[id_].bore, list[float]()
    assert isinstance(bore, Fact)
    for name in parts:
        form = build.library[name].cable if name in build.library else None
        if form is None or not isinstance(form.diameter, Fact):
            return Headroom(FILL, id_, "", "%", None, None, f"the diameter of '{name}'")
        diameters.append(form.diameter.high * 1000)
    share = fill_fraction(tuple(diameters), bore.low * 1000)
    return Headroom(FILL, id_, "", "%", 100 * share, 100 * fill_limit(len(parts) + 1))


def _mains(build: Build) -> Iterator[Headroom]:
    loads = mains_loads(build) if build.mains_feeds else None
    for strip in strips(build) if loads is not None else ():
        rating = strip.part.mains.rating
        used = _finite(loads.behind(strip.id).total.most) if loads is not None else None
        why = f"the rating of '{strip.part.name}'" if isinstance(rating, Unknown) else ""
        limit = rating.low if isinstance(rating, Fact) else None
        yield Headroom(
            MAINS, strip.id, "", "W", used, limit, why or ("" if used is not None else _NOT_BOUNDED)
        )


def _circuits(build: Build) -> Iterator[Headroom]:
    """What is usual for hours, against 80 % of the rating (NFPA 70, 210.20(A)), as the rule circuit-load has it."""
    for circuit in build.circuits.values():
        used = _finite(mains_loads(build).of_circuit(circuit).total.usual)
        if isinstance(circuit.volts, Fact) and isinstance(circuit.rating, Fact):
            limit = float(continuous_power(circuit.volts.low, circuit.rating.low))
            yield Headroom(
                CIRCUIT, circuit.id, "", "W", used, limit, "" if used is not None else _NOT_BOUNDED
            )
        else:
            yield Headroom(CIRCUIT, circuit.id, "", "W", used, None, "its volts")


def _batteries(build: Build) -> Iterator[Headroom]:
    """With all that hangs on it drawing the most; batteries are taken to be new."""
    for each in backup_times(build):
        lasts = each.lasts[2]
        minutes = None if lasts is None else lasts / 60
        why = (
            ""
            if lasts is not None
            else "no load, a load that nothing bounds, or none of its data sheet's points is near"
        )
        yield Headroom(BATTERY, each.ups, "", "min", minutes, None, why)


def _air(build: Build) -> Iterator[Headroom]:
    """On the warmest day, at the most heat, against what its weakest thing bears."""
    for air in cabinet_airs(build).values():
        if air.limit is None and not air.things:
            continue
        inside = _finite(air.inside.most)
        why = air.no_rise or (air.missing[0] if inside is None and air.missing else "")
        why = why or ("" if air.limit is not None else "how warm its things may get")
        yield Headroom(AIR, air.cabinet, "", "°C", None if air.no_rise else inside, air.limit, why)


def _finite(value: float) -> float | None:
    return value if math.isfinite(value) else None
