"""Each row of the copper tables once, against figures typed in anew; and the published example of thin cords.

A figure that is changed in a table, or a row added to it, fails here until it is looked up again.
"""

import pytest

from firstfix.physics.channel import Cord, FixedCable, channel_length, temperature_factor, thin_cords
from firstfix.plan.read_places import EXPOSURE_OF_KIND
from firstfix.standards.cabling import (
    cabling_limits,
    cord_deratings,
    fixed_link_models,
    temperature_deratings,
    way_warmth,
)
from firstfix.standards.copper import conductor_materials, resistance_limits
from firstfix.standards.twisted_pair import categories, pair_reach, pair_reaches, twinax_reaches
from oracles import twisted_pair

# ANSI/TIA-568.2-D (2018); the Category 8 link from memory.
LIMITS = {
    "permanent_link": 90, "channel": 100, "cord_formula": 102, "cords_at_full_link": 10, "connections": 4,
    "permanent_link_category_8": 24, "channel_category_8": 30, "connections_category_8": 2, "thin_cord_bundle": 12,
}  # fmt: skip
# Gauge, factor, usual cords of the telecommunications room, most at the work area, advised and most in all.
CORDS = [
    (24, 1.2, 5, 22, None, None),
    (26, 1.5, 3.5, 17, None, None),
    (28, 1.95, None, None, 10, 15),
]
WARMTH = [(False, 20, 40, 0.4), (False, 40, 60, 0.6), (True, 20, 60, 0.2)]
CATEGORIES = {
    "3": (16, "C"), "5": (100, "D"), "5e": (100, "D"), "6": (250, "E"), "6a": (500, "EA"), "7": (600, "F"),
    "7a": (1000, "FA"), "8": (2000, "I"), "8.1": (2000, "I"), "8.2": (2000, "II"),
}  # fmt: skip
# Signalling, Mb/s, pairs, category, screened, sure and possible metres, connections. IEEE Std 802.3, TIA TSB-155-A.
REACHES = {
    ("10BASE-T", 10, 2, "3", None, 100, 100, 4),
    ("100BASE-TX", 100, 2, "5", None, 100, 100, 4),
    ("1000BASE-T", 1000, 4, "5", None, 100, 100, 4),
    ("1000BASE-T", 1000, 4, "5e", None, 100, 100, 4),
    ("2.5GBASE-T", 2500, 4, "5e", None, 100, 100, 4),
    ("2.5GBASE-T", 2500, 4, "6", None, 100, 100, 4),
    ("5GBASE-T", 5000, 4, "5e", None, 0, 100, 4),
    ("5GBASE-T", 5000, 4, "6", None, 100, 100, 4),
    ("5GBASE-T", 5000, 4, "6a", None, 100, 100, 4),
    ("10GBASE-T", 10000, 4, "6", False, 37, 55, 4),
    ("10GBASE-T", 10000, 4, "6", True, 55, 100, 4),
    ("10GBASE-T", 10000, 4, "6a", None, 100, 100, 4),
    ("25GBASE-T", 25000, 4, "8", None, 30, 30, 2),
    ("40GBASE-T", 40000, 4, "8", None, 30, 30, 2),
}
TWINAX = {
    ("10GBASE-CX4", 10_000, 15),
    ("10G-SFP+-passive", 10_000, 7),
    ("1G-SFP-passive", 1000, 7),
    ("25GBASE-CR", 25_000, 5),
    ("25GBASE-CR-S", 25_000, 3),
    ("40GBASE-CR4", 40_000, 7),
    ("100GBASE-CR4", 100_000, 5),
}
# ISO/IEC 11801 (2002), Table 21: base less allowance, from memory.
FIXED = {
    ("interconnect-outlet", "D"): 109, ("interconnect-outlet", "E"): 104, ("interconnect-outlet", "F"): 105,
    ("crossconnect-outlet", "D"): 107, ("crossconnect-outlet", "E"): 103, ("crossconnect-outlet", "F"): 103,
    ("interconnect-point-outlet", "D"): 107, ("interconnect-point-outlet", "E"): 103,
    ("interconnect-point-outlet", "F"): 103, ("crossconnect-point-outlet", "D"): 105,
    ("crossconnect-point-outlet", "E"): 102, ("crossconnect-point-outlet", "F"): 102,
}  # fmt: skip
RESISTANCES = {"conductor_per_100m": 9.38, "channel_pair_loop": 25, "per_connection": 0.2}
SUNLIT = {"loft", "clipped-outdoors", "overhead"}


def test_limits_of_cabling() -> None:
    assert {name: limit.value for name, limit in cabling_limits()._asdict().items()} == LIMITS


def test_cords() -> None:
    assert [row[:6] for row in cord_deratings()] == CORDS
    assert {row.awg: row.factor for row in cord_deratings()} == twisted_pair.CORD_FACTOR


def test_warmth_of_cables() -> None:
    assert [row[:4] for row in temperature_deratings()] == WARMTH


@pytest.mark.parametrize("celsius", [-20, 0, 20, 20.5, 33, 40, 40.5, 60])
@pytest.mark.parametrize("screened", [False, True])
def test_warmth_as_the_second_reckoning_has_it(celsius: float, screened: bool) -> None:
    assert temperature_factor(celsius, screened) == pytest.approx(twisted_pair.warm(celsius, screened))


def test_warmth_of_ways_is_said_for_each_kind_and_open_only_in_the_sun() -> None:
    assert set(way_warmth()) == set(EXPOSURE_OF_KIND)
    for kind, row in way_warmth().items():
        assert (row.least_c, row.most_c) == (20, 60 if kind in SUNLIT else 20)


def test_categories() -> None:
    assert {name: row[2:4] for name, row in categories().items()} == CATEGORIES


def test_reaches() -> None:
    assert {row[:8] for row in pair_reaches()} == REACHES


@pytest.mark.parametrize("rate", [10, 100, 1000, 2500, 5000, 10_000])
@pytest.mark.parametrize("name", ["3", "5", "5e", "6", "6a"])
def test_reaches_as_the_second_reckoning_has_them(rate: int, name: str) -> None:
    row = pair_reach(rate, name, screened=False)
    expected = twisted_pair.REACH.get((rate, name))
    assert (None if row is None else (row.sure_m, row.possible_m)) == expected


@pytest.mark.parametrize("name", sorted(CATEGORIES))
@pytest.mark.parametrize("screened", [False, True])
def test_a_faster_rate_never_reaches_further(name: str, screened: bool) -> None:
    """On this rests that a rate which is known at one end only is judged by its bound."""
    rates = sorted({row.rate_mbps for row in pair_reaches()})
    rows = [pair_reach(rate, name, screened) for rate in rates]
    reaches = [(row.possible_m, row.sure_m) if row else (0.0, 0.0) for row in rows]
    assert reaches == sorted(reaches, reverse=True)


def test_twinax() -> None:
    assert {row[:3] for row in twinax_reaches()} == TWINAX


def test_fixed_lengths() -> None:
    assert {key: row.base_m - row.allowance_m for key, row in fixed_link_models().items()} == FIXED


def test_resistances() -> None:
    found = resistance_limits()._asdict()
    assert {name: found[name].value for name in RESISTANCES} == RESISTANCES
    assert {name: row.conductivity for name, row in conductor_materials().items()} == {
        "copper": 1.0,
        "copper-clad-aluminium": 0.629,
        "copper-clad-aluminium-15": 0.644,
    }


def test_the_published_example_of_thin_cords() -> None:
    """Trade press on ANSI/TIA-568.2-D: 10 m of 28 AWG leave 82.5 m of cable."""
    found = channel_length([FixedCable("link", 82.5)], [Cord("one", 5, 28), Cord("other", 5, 28)])
    assert found.equivalent_m == pytest.approx(102)


def test_only_thin_cords_are_limited_in_their_sum() -> None:
    cords = [Cord("thin", 4, 28), Cord("odd", 3, 27), Cord("thick", 50, 24), Cord("middling", 9, 26)]
    thin = thin_cords(cords)
    assert thin is not None
    assert float(thin.length_m) == 7
    assert (thin.derating.total_advised_m, thin.derating.total_max_m) == (10.0, 15.0)
    assert thin_cords(cords[2:]) is None
