"""How far each Ethernet signalling goes over twisted pair of which category, and over twinax assemblies."""

from collections.abc import Mapping
from functools import cache
from typing import NamedTuple

from firstfix.finding.model import Basis
from firstfix.standards.table import keyed, read


class Category(NamedTuple):
    """A cabling category; one of higher `rank` can replace one of lower rank."""

    name: str
    rank: int
    bandwidth_mhz: float
    iso_class: str
    basis: Basis
    note: str


class PairReach(NamedTuple):
    """Over `category`: works up to `sure_m`; up to `possible_m` it depends on what `caveat` says; not beyond.

    `screened` is None where screening makes no difference. `connections_max` is for the whole channel.
    """

    phy: str
    rate_mbps: float
    pairs: int
    category: str
    screened: bool | None
    sure_m: float
    possible_m: float
    connections_max: int
    caveat: str
    basis: Basis
    note: str


class TwinaxReach(NamedTuple):
    """Longest passive assembly; `needs` says what the ends must do for it, or nothing."""

    phy: str
    rate_mbps: float
    length_m: float
    needs: str
    basis: Basis
    note: str


@cache
def categories() -> Mapping[str, Category]:
    """By name: 3, 5, 5e, 6, 6a, 7, 7a, 8, 8.1, 8.2."""
    rows = (
        Category(
            row.text("category"), row.whole("rank"), row.number("bandwidth_mhz"), row.text("iso_class"),
            row.basis, row.note,
        )
        for row in read("cable_categories")
    )  # fmt: skip
    return keyed(rows, lambda row: row.name)


def category(name: str) -> Category | None:
    """The category that `name` means ("6a", "Cat 6A", "category 6A", "cat6a"), or None.

    >>> category("Cat 6A").iso_class, category("9")
    ('EA', None)
    """
    bare = name.lower().replace(" ", "").replace("-", "").removeprefix("category").removeprefix("cat")
    return categories().get(bare)


@cache
def pair_reaches() -> tuple[PairReach, ...]:
    """Every published reach, by rate, then by category rank."""
    screens = {"any": None, "yes": True, "no": False}
    rows = (
        PairReach(
            row.text("phy"), row.number("rate_mbps"), row.whole("pairs"), row.text("category"),
            screens[row.text("screened")], row.number("sure_m"), row.number("possible_m"),
            row.whole("connections_max"), row.text("caveat"), row.basis, row.note,
        )
        for row in read("phy_reach")
    )  # fmt: skip
    return tuple(
        sorted(rows, key=lambda row: (row.rate_mbps, categories()[row.category].rank, row.screened is True))
    )


@cache
def twinax_reaches() -> tuple[TwinaxReach, ...]:
    """By rate, then the longest first."""
    rows = (
        TwinaxReach(
            row.text("phy"),
            row.number("rate_mbps"),
            row.number("length_m"),
            row.text("needs"),
            row.basis,
            row.note,
        )
        for row in read("twinax_reach")
    )
    return tuple(sorted(rows, key=lambda row: (row.rate_mbps, -row.length_m)))


@cache
def pair_reach(rate_mbps: float, category_name: str, screened: bool | None = None) -> PairReach | None:
    """The reach of the twisted-pair signalling of a rate over a category; None: that is too low for the rate.

    A better category than any listed counts as the best one listed. Where screening matters and is not known,
    unscreened is taken, the stricter. Raises LookupError for a rate or a category that no table knows.
    """
    cable = category(category_name)
    if cable is None:
        raise LookupError(f"no category {category_name!r}")
    of_rate = [row for row in pair_reaches() if row.rate_mbps == rate_mbps]
    if not of_rate:
        raise LookupError(f"no twisted-pair signalling of {rate_mbps:g} Mb/s")
    fitting = [
        row
        for row in of_rate
        if categories()[row.category].rank <= cable.rank and row.screened in (None, bool(screened))
    ]
    return fitting[-1] if fitting else None


def fastest_rate(category_name: str) -> float | None:
    """The highest rate [Mb/s] that is sure of some length over a category; None: the category is unknown.

    >>> fastest_rate("5e"), fastest_rate("6a")
    (2500.0, 10000.0)
    """
    cable = category(category_name)
    if cable is None:
        return None
    return max(
        row.rate_mbps
        for row in pair_reaches()
        if categories()[row.category].rank <= cable.rank and row.sure_m > 0
    )
