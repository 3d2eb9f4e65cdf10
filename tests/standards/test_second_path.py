"""Table rows against a second way to the same figure."""

import ipaddress

import pytest

from firstfix.physics.copper import conductor_resistance
from firstfix.standards import addresses, cabinet, cabling, optical, poe, twisted_pair
from firstfix.standards.cabling import cord_deratings
from firstfix.standards.poe import PoeClass

# NFPA 70 (2017), Chapter 9 Table 8: solid uncoated copper at 75 °C in ohm per 1000 ft.
# The values of 14 and 12 AWG were looked up; those of 18 and 16 are from memory.
TABLE_8_SOLID = {18: 7.77, 16: 4.89, 14: 3.07, 12: 1.93}


@pytest.mark.parametrize("row", poe.classes().values(), ids=lambda row: f"class {row.number}")
def test_the_device_power_of_a_class_follows_from_its_source(row: PoeClass) -> None:
    """P_device = P - (P / V)^2 R; published figures are rounded, the largest step is 0.07 W (class 5)."""
    current = row.pse_power_w / row.pse_min_v
    assert row.pse_power_w - current**2 * row.loop_ohm == pytest.approx(row.pd_power_w, abs=0.07)


@pytest.mark.parametrize("row", poe.classes().values(), ids=lambda row: f"class {row.number}")
def test_a_class_agrees_with_its_type(row: PoeClass) -> None:
    kind = poe.types()[row.type]
    assert row.pse_power_w <= kind.pse_power_w
    assert row.pse_min_v >= 44
    assert row.loop_ohm == kind.pairset_loop_ohm * 2 / row.pairs
    assert (row.pairs == 4) == (row.number >= 5), "four pairs are needed from class 5 on"
    pairsets = row.pairs / 2
    assert row.pse_power_w / row.pse_min_v / pairsets * 1000 <= kind.pairset_current_ma + 1e-9


def test_the_largest_class_of_each_type_uses_all_of_it() -> None:
    for kind in poe.types().values():
        largest = max(row.pse_power_w for row in poe.classes().values() if row.type == kind.number)
        assert largest == kind.pse_power_w


def test_demotion_levels_rise_with_class_events() -> None:
    levels = [level.level for level in poe.demotion_levels()]
    assert levels == sorted(levels)
    assert [level.class_events for level in poe.demotion_levels()] == [1, 2, 3, 4, 5]


@pytest.mark.parametrize("awg", TABLE_8_SOLID)
def test_resistance_against_the_code_book(awg: int) -> None:
    """The table converts by R2 = R1 (1 + 0.00323 (T2 - 75)); 1000 ft are 304.8 m."""
    at_75 = TABLE_8_SOLID[awg] / 304.8 * 1000
    at_20 = at_75 * (1 + 0.00323 * (20 - 75))
    assert conductor_resistance(awg, 1000) == pytest.approx(at_20, rel=0.0016)
    assert conductor_resistance(awg, 1000, 75) == pytest.approx(at_75, rel=0.015)


def test_thinner_cords_lose_more() -> None:
    rows = cord_deratings()
    assert [row.awg for row in rows] == [24, 26, 28]
    assert sorted(row.factor for row in rows) == [row.factor for row in rows]


def test_the_full_link_and_its_cords_use_up_the_formula() -> None:
    """90 + 1.2 * 10 = 102: three published figures that must agree."""
    known = cabling.cabling_limits()
    used = known.permanent_link.value + cord_deratings()[0].factor * known.cords_at_full_link.value
    assert used == known.cord_formula.value
    assert known.permanent_link.value + known.cords_at_full_link.value == known.channel.value


def test_the_hole_pattern_fills_a_unit() -> None:
    known = cabinet.cabinet_dimensions()
    gaps = 2 * known.hole_pitch.value + known.hole_gap_between_units.value
    assert gaps == pytest.approx(known.rack_unit.value)
    assert known.rack_unit.value == pytest.approx(1.75 * 25.4)
    assert known.panel_width.value == pytest.approx(19 * 25.4)
    assert known.first_hole.value * 2 == known.hole_gap_between_units.value


@pytest.mark.parametrize("row", addresses.address_blocks(), ids=lambda row: row.block)
def test_a_block_is_one_and_means_what_the_standard_library_says(row: addresses.AddressBlock) -> None:
    block = ipaddress.ip_network(row.block)
    if row.use in ("multicast", "link-local", "loopback", "reserved"):
        assert getattr(block, f"is_{row.use.replace('-', '_')}")
    elif row.use == "shared":
        assert not block.is_private
        assert not block.is_global
    elif row.block == "3fff::/20":
        assert block.prefixlen == 20  # newer than the standard library of Python 3.11
    else:
        assert block.is_private


def test_blocks_of_a_use() -> None:
    assert [row.block for row in addresses.blocks_for("documentation")][:1] == ["192.0.2.0/24"]
    assert len(addresses.blocks_for("private")) == 4
    assert addresses.blocks_for("nothing") == ()
    assert "home.arpa" in addresses.reserved_names()


def test_no_two_blocks_of_one_family_overlap() -> None:
    blocks = [ipaddress.ip_network(row.block) for row in addresses.address_blocks()]
    for index, first in enumerate(blocks):
        for second in blocks[index + 1 :]:
            assert first.version != second.version or not first.overlaps(second), (first, second)


@pytest.mark.parametrize("row", optical.optical_reaches().values(), ids=lambda row: f"{row.phy} {row.grade}")
def test_an_optical_row_is_possible(row: optical.OpticalReach) -> None:
    """Its longest fibre alone, at the lowest published loss, stays near its loss limit.

    15 % above is let pass: the longest-reach optics count on better fibre than cabling standards ask for.
    """
    assert 0 < row.sure_m <= row.possible_m
    assert row.needs or row.sure_m == row.possible_m, "a longer reach says what it depends on"
    fitting = (
        loss.loss_db_per_km
        for loss in optical.fibre_losses()
        if loss.grade == row.grade and abs(loss.wavelength_nm - row.wavelength_nm) <= 10
    )
    assert min(fitting) * row.sure_m / 1000 <= row.loss_max_db * 1.15


def test_better_fibre_never_reaches_less() -> None:
    grades = ("OM1", "OM2", "OM3", "OM4", "OM5")
    for phy in {row.phy for row in optical.optical_reaches().values()}:
        reaches = [row.sure_m for grade in grades if (row := optical.optical_reach(phy, grade)) is not None]
        assert reaches == sorted(reaches), phy


def test_a_fibre_without_published_loss_is_refused() -> None:
    assert optical.optical_reach("10GBASE-LR", "OM3") is None
    with pytest.raises(LookupError, match="no chosen loss of OM3 at 1550 nm inside"):
        optical.fibre_loss("OM3", 1550, outside=False)


@pytest.mark.parametrize("rate", sorted({row.rate_mbps for row in twisted_pair.pair_reaches()}))
def test_a_better_category_never_reaches_less(rate: float) -> None:
    ranked = sorted(twisted_pair.categories().values(), key=lambda row: row.rank)
    for screened in (None, False, True):
        rows = [twisted_pair.pair_reach(rate, row.name, screened) for row in ranked]
        reaches = [(row.sure_m, row.possible_m) if row else (0.0, 0.0) for row in rows]
        assert reaches == sorted(reaches)


def test_screening_that_is_not_known_is_taken_as_none() -> None:
    assert twisted_pair.pair_reach(10_000, "6") == twisted_pair.pair_reach(10_000, "6", screened=False)
    better = twisted_pair.pair_reach(10_000, "6", screened=True)
    assert better is not None
    assert better.sure_m == 55


@pytest.mark.parametrize("name", ["6a", "6A", "Cat 6A", "cat6a", "Category 6A", "CAT-6A"])
def test_ways_to_write_a_category(name: str) -> None:
    found = twisted_pair.category(name)
    assert found is not None
    assert found.name == "6a"


def test_what_no_table_knows_is_refused() -> None:
    with pytest.raises(LookupError, match="category '9'"):
        twisted_pair.pair_reach(1000, "9")
    with pytest.raises(LookupError, match="1234 Mb/s"):
        twisted_pair.pair_reach(1234, "6")
    assert twisted_pair.category("9") is None
    assert twisted_pair.fastest_rate("9") is None
    assert twisted_pair.fastest_rate("5e") == 2500
    assert twisted_pair.fastest_rate("Cat 6") == 10_000


def test_twinax_longest_first() -> None:
    lengths = [row.length_m for row in twisted_pair.twinax_reaches() if row.rate_mbps == 25_000]
    assert lengths == [5.0, 3.0]
