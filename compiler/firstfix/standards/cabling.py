"""Twisted-pair cabling: lengths, counts, de-rating by cord and by temperature, international link models."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import Limit, keyed, limits, read


class CablingLimits(NamedTuple):
    permanent_link: Limit
    channel: Limit
    cord_formula: Limit
    cords_at_full_link: Limit
    connections: Limit
    permanent_link_category_8: Limit
    channel_category_8: Limit
    connections_category_8: Limit
    thin_cord_bundle: Limit


class CordDerating(NamedTuple):
    """A metre of this cord loses as much as `factor` metres of fixed cable. None: no limit is published."""

    awg: int
    factor: float
    room_cords_m: float | None
    work_area_max_m: float | None
    total_advised_m: float | None
    total_max_m: float | None
    basis: Basis
    note: str


class TemperatureDerating(NamedTuple):
    """Insertion loss grows by `percent_per_k` for each kelvin between `from_c` and `to_c`."""

    screened: bool
    from_c: float
    to_c: float
    percent_per_k: float
    basis: Basis
    note: str


class WayWarmth(NamedTuple):
    """How warm a cable gets in a way of this kind whose temperature nobody gave: between `least_c` and `most_c`."""

    kind: str
    least_c: float
    most_c: float
    basis: Basis
    note: str


class FixedLinkModel(NamedTuple):
    """Longest fixed cable = base_m - allowance_m - each length of cord or point cable * its loss ratio."""

    model: str
    cabling_class: str
    base_m: float
    allowance_m: float
    basis: Basis
    note: str


@cache
def cabling_limits() -> CablingLimits:
    """Lengths in metres, and counts."""
    return limits("cabling_limits", CablingLimits)


@cache
def cord_deratings() -> tuple[CordDerating, ...]:
    """Thickest cord first."""
    rows = (
        CordDerating(
            row.whole("cord_awg"), row.number("factor"), row.number_or_none("room_cords_m"),
            row.number_or_none("work_area_max_m"), row.number_or_none("total_advised_m"),
            row.number_or_none("total_max_m"), row.basis, row.note,
        )
        for row in read("cord_derating")
    )  # fmt: skip
    return tuple(sorted(rows))


@cache
def temperature_deratings() -> tuple[TemperatureDerating, ...]:
    """Unscreened before screened, cold before warm."""
    rows = (
        TemperatureDerating(
            row.flag("screened"), row.number("from_c"), row.number("to_c"),
            row.number("loss_percent_per_k"), row.basis, row.note,
        )
        for row in read("temperature_derating")
    )  # fmt: skip
    return tuple(sorted(rows))


@cache
def way_warmth() -> Mapping[str, WayWarmth]:
    """By kind of way (trunking, loft, buried-duct). Where the bounds differ, the plan must say the temperature."""
    rows = (
        WayWarmth(row.text("kind"), row.number("least_c"), row.number("most_c"), row.basis, row.note)
        for row in read("way_warmth")
    )
    return keyed(rows, lambda row: row.kind)


@cache
def fixed_link_models() -> Mapping[tuple[str, str], FixedLinkModel]:
    """By model (interconnect-outlet, crossconnect-outlet, and both with -point-) and class (D, E, F)."""
    rows = (
        FixedLinkModel(
            row.text("model"),
            row.text("class"),
            row.number("base_m"),
            row.number("allowance_m"),
            row.basis,
            row.note,
        )
        for row in read("fixed_link_models")
    )
    return keyed(rows, lambda row: (row.model, row.cabling_class))
