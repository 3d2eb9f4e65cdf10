"""Figures of the library's parts agree with each other, with published limits, and with what is physically possible."""

import re
from collections.abc import Callable

import pytest

from firstfix.parts.facts import Fact, Figure
from firstfix.parts.forms import COVERS, FASTENERS, FRONTS
from firstfix.parts.library_files import library
from firstfix.parts.part import ACTIVE_KINDS, JackSpec, Part
from firstfix.parts.read_jacks import PASSIVE
from firstfix.standards.optical import optical_reaches

# IEC 60297-3-100 (EIA/ECA-310-E): height of a unit; the clear opening between rails of full width.
UNIT_M, OPENING_M = 0.04445, 0.450
# IEEE Std 802.3-2018 Clause 33 and 802.3bt-2018 Clause 145: watts reserved, watts that arrive, type and pairs by class.
SOURCE_WATTS = {0: 15.4, 1: 4.0, 2: 7.0, 3: 15.4, 4: 30.0, 5: 45.0, 6: 60.0, 7: 75.0, 8: 90.0}
DEVICE_WATTS = {0: 12.95, 1: 3.84, 2: 6.49, 3: 12.95, 4: 25.5, 5: 40.0, 6: 51.0, 7: 62.0, 8: 71.3}
TYPE_OF_CLASS = {0: 1, 1: 1, 2: 1, 3: 1, 4: 2, 5: 3, 6: 3, 7: 4, 8: 4}
VOLTS = 230.0
# IEC 62368-1 (from memory): touch current of things with and protective current of things without an earthed plug.
MOST_LEAKAGE_A = 0.0035

PARTS = list(library().values())


def of(test: Callable[[Part], object]) -> list[pytest.ParameterSet]:
    chosen = [pytest.param(part, id=part.name) for part in PARTS if test(part)]
    assert chosen, "a test of nothing"
    return chosen


def known(figure: Figure) -> Fact:
    assert isinstance(figure, Fact)
    return figure


def millimetres_in(title: str, before: str) -> list[float]:
    return [float(each) / 1000 for each in re.findall(rf"(\d+) mm {before}", title)]


@pytest.mark.parametrize("part", of(lambda part: isinstance(part.weight, Fact)))
def test_weight_is_more_than_nothing(part: Part) -> None:
    assert 0 < known(part.weight).low <= known(part.weight).high < 130


@pytest.mark.parametrize("part", of(lambda part: part.rack is not None and part.rack.height))
def test_height_is_in_the_title(part: Part) -> None:
    """A half-written height would shift everything above it."""
    assert part.rack is not None
    unit = "unit" if part.rack.height == 1 else "units"
    assert f"{part.rack.height} {unit}" in part.title


# Nobody knows the size of any wired thing; a screen hangs on a wall, and is as large as a wall lets it be.
_OF_ANY_SIZE = ("end-device", "screen-large")


@pytest.mark.parametrize("part", of(lambda part: part.size is not None and part.kind != "label"))
def test_what_stands_by_itself_has_a_size(part: Part) -> None:
    assert part.size is not None
    assert part.rack is not None
    assert part.rack.height == 0
    for side in (part.size.width, part.size.height, part.rack.depth):
        assert part.name in _OF_ANY_SIZE or 0.02 <= known(side).high <= 0.45


@pytest.mark.parametrize("part", of(lambda part: part.rack is not None and part.rack.height and part.draw))
def test_heat_has_a_way_out(part: Part) -> None:
    """Things between rails that turn more than 25 W into heat have a fan, or ask for room (common practice, no source)."""
    if isinstance(part.draw, Fact) and part.draw.high > 25 and part.cooling is not None:
        assert part.cooling.by == "fan" or known(part.cooling.above).low > 0


@pytest.mark.parametrize("part", of(lambda part: part.kind == "cabinet"))
def test_cabinets_hold_what_they_say(part: Part) -> None:
    form, outside = part.cabinet, part.outside
    assert form is not None
    assert outside is not None
    assert 0 < known(outside.height).high - part.units * UNIT_M < 0.25
    assert known(form.clear_width).high < known(outside.width).low
    assert known(form.load).low > known(part.weight).high * 0.9
    assert (part.rail_width == "full") == (known(form.clear_width).high == OPENING_M)
    assert millimetres_in(part.title, "usable depth") == [known(part.usable_depth).high]
    if form.front == "open":
        assert "pen" in part.title
    else:
        assert known(form.before_rails).high + known(part.usable_depth).high <= known(outside.depth).low
        assert known(form.swing).high <= known(outside.width).high
    assert (form.mounting == "wall") == ("wall-fixing" in dict(part.needs))


@pytest.mark.parametrize("part", of(lambda part: part.kind == "shelf"))
def test_shelves_fit_between_rails(part: Part) -> None:
    assert part.shelf is not None
    assert part.rack is not None
    assert known(part.shelf.load).low > known(part.weight).high
    assert known(part.shelf.clear_width).high < (OPENING_M if part.rack.width == "full" else 0.222)
    assert millimetres_in(part.title, "deep") == [known(part.rack.depth).high]


@pytest.mark.parametrize("part", of(lambda part: part.exposure.place in ("outdoor", "buried")))
def test_what_is_outdoors_bears_it(part: Part) -> None:
    """IEC 60529: the second digit is 4 against splashes from all sides, 5 and 6 against jets."""
    assert part.exposure.uv is (part.exposure.place == "outdoor")
    if part.kind in ACTIVE_KINDS or part.jacks:
        assert isinstance(part.exposure.ingress, str)
        assert int(part.exposure.ingress[3]) >= 4
    if isinstance(part.exposure.coldest, Fact):
        assert part.exposure.coldest.high <= -25


@pytest.mark.parametrize("part", of(lambda part: isinstance(part.exposure.coldest, Fact)))
def test_there_is_air_that_it_bears(part: Part) -> None:
    assert known(part.exposure.coldest).high <= 10
    assert 30 <= known(part.exposure.warmest).low <= 85


@pytest.mark.parametrize("part", of(lambda part: "outdoor" in part.name and part.cable is None))
def test_outdoors_in_the_name_is_so(part: Part) -> None:
    assert part.exposure.place == "outdoor" or part.kind in ("label", "tie")


@pytest.mark.parametrize("part", of(lambda part: part.gives_poe is not None))
def test_poe_given_is_of_its_class(part: Part) -> None:
    gives = part.gives_poe
    assert gives is not None
    poe_class = int(known(gives.poe_class).high)
    assert known(gives.jack_limit).high == SOURCE_WATTS[poe_class]
    assert known(gives.poe_type).high == TYPE_OF_CLASS[poe_class]
    assert known(gives.pairs).high == (4 if poe_class > 4 else 2)
    if isinstance(gives.budget, Fact):
        assert gives.budget.high <= len(gives.jacks) * SOURCE_WATTS[poe_class]
        assert re.search(rf"\b{gives.budget.high:g} W", part.title)
    assert f"class {poe_class}" in part.title


@pytest.mark.parametrize("part", of(lambda part: part.takes_poe is not None))
def test_poe_taken_is_of_its_class(part: Part) -> None:
    assert part.takes_poe is not None
    poe_class = int(known(part.takes_poe.poe_class).high)
    assert known(part.takes_poe.pairs).high == (4 if poe_class > 4 else 2)
    assert f"class {poe_class}" in part.title


@pytest.mark.parametrize("part", of(lambda part: part.gives_low_voltage is not None))
def test_splitters_give_no_more_than_arrives(part: Part) -> None:
    low = part.gives_low_voltage
    assert low is not None
    assert part.takes_poe is not None
    arrives = DEVICE_WATTS[int(known(part.takes_poe.poe_class).high)]
    assert known(low.power).high <= arrives * known(low.efficiency).high
    assert known(part.draw).high <= arrives
    assert f"{known(low.voltage).high:g} V" in part.title or known(low.voltage).high == 12


@pytest.mark.parametrize("part", of(lambda part: part.mains.inlet))
def test_mains_inlets(part: Part) -> None:
    mains = part.mains
    assert mains.shape == ("C14" if mains.inlet == "coupler" else "local")
    assert isinstance(mains.blocks, Fact) == (mains.inlet == "adaptor")
    assert part.name == "end-device" or known(mains.leakage).high <= MOST_LEAKAGE_A


@pytest.mark.parametrize("part", of(lambda part: part.mains.outlets))
def test_outlets_carry_their_watts(part: Part) -> None:
    mains = part.mains
    assert known(mains.rating).high <= known(mains.current).high * VOLTS * 1.001
    # A backup's battery converts real power; its label's amperes are apparent power at the most.
    if part.battery is None:
        assert known(mains.rating).high == known(mains.current).high * VOLTS
    else:
        assert known(mains.current).high * VOLTS <= known(part.battery.apparent).high * 1.01


@pytest.mark.parametrize("part", of(lambda part: part.battery is not None))
def test_batteries_hold_what_they_give(part: Part) -> None:
    battery = part.battery
    assert battery is not None
    assert known(part.mains.rating).high <= known(battery.apparent).high
    for load, seconds in battery.lasts:
        assert load * seconds / 3600 <= known(battery.energy).high
    loads, times = zip(*battery.lasts, strict=True)
    assert list(times) == sorted(times, reverse=True)
    # Twice the load lasts less than half as long: lead batteries give less when hurried (from memory).
    energies = [load * seconds for load, seconds in battery.lasts]
    assert energies == sorted(energies, reverse=True)
    assert loads[-1] == known(part.mains.rating).high


@pytest.mark.parametrize("part", of(lambda part: part.cable is not None))
def test_bends_are_possible(part: Part) -> None:
    """Least bends in diameters, from memory: ANSI/TIA-568.2-D 4 for cable and 1 for cords; ISO/IEC 11801-1 10 for fibre."""
    cable = part.cable
    assert cable is not None
    least = {"copper": 4.0 if part.kind == "cable" else 1.0, "fibre": 10.0, "twinax": 4.0, "mains": 3.0}[
        cable.medium
    ]
    assert known(cable.bend).low >= least * known(cable.diameter).high - 1e-6
    if part.kind == "cable":
        assert known(cable.bend_pulling).low >= known(cable.bend).high
    else:
        assert 0.02 <= known(cable.plug_length).high <= 0.06
    assert set(cable.reels) <= set(cable.lengths)


@pytest.mark.parametrize("part", of(lambda part: part.cable is not None and part.kind == "cable"))
def test_jackets(part: Part) -> None:
    assert part.cable is not None
    assert part.exposure.uv is (part.cable.rating != "indoor")
    assert (part.cable.fire_class == "Fca") == (
        part.cable.rating != "indoor" or "clad" in part.cable.conductor
    )


@pytest.mark.parametrize("part", of(lambda part: part.kind == "power-cord"))
def test_mains_cords_carry_their_couplers_current(part: Part) -> None:
    """IEC 60320-1 (from memory): C7 and C5 carry 2.5 A, C13 10 A."""
    assert part.cable is not None
    coupler = part.cable.ends[-1]
    assert known(part.cable.current).high == {"C7": 2.5, "C5": 2.5, "C13": 10.0}[coupler]
    assert coupler in part.title


@pytest.mark.parametrize("part", of(lambda part: part.optics is not None and part.jacks[0].family == "lc"))
def test_transceivers_bear_the_loss_that_their_standard_allows(part: Part) -> None:
    """Against the channel losses of the table of optical reaches, which come from other sources.

    Multimode light is held against OM3 too: 10GBASE-SR was written for it, and what OM4 allows beyond is an article's.
    """
    assert part.optics is not None
    left = part.optics.budget_db
    assert left is not None
    wavelength, rate = known(part.optics.wavelength).high, known(part.jacks[0].rate).high
    losses = [
        row.loss_max_db
        for row in optical_reaches().values()
        if row.grade.lower() in ({part.category, "om3"} if part.category == "om4" else {part.category})
        and row.rate_mbps == rate
        and abs(row.wavelength_nm - wavelength) <= 10
    ]
    assert losses
    assert left >= min(losses) - 1e-9


@pytest.mark.parametrize("part", of(lambda part: part.kind == "fastener"))
def test_fasteners(part: Part) -> None:
    form = part.fastener
    assert form is not None
    assert 0 <= known(form.head_height).high < 0.02
    assert 0.01 <= known(form.length).low <= 0.08
    assert not part.thread or part.thread in part.title
    fitting = {
        "cage nut": "square holes",
        "clip stud": "square holes",
        "clip nut": "round holes",
        "screw": "threaded",
    }
    assert part.rails == fitting.get(str(form.form), part.rails)


@pytest.mark.parametrize("part", of(lambda part: part.pathway is not None))
def test_pathways(part: Part) -> None:
    form = part.pathway
    assert form is not None
    if isinstance(form.outside, Fact) and isinstance(form.inside, Fact):
        assert 0.7 * form.outside.high <= form.inside.high < form.outside.high
    if isinstance(form.clamps, Fact):
        assert form.clamps.low < form.clamps.high


def test_each_form_can_be_bought() -> None:
    assert {part.cover.form for part in PARTS if part.cover} == set(COVERS)
    assert {part.fastener.form for part in PARTS if part.fastener} == set(FASTENERS)
    assert {part.cabinet.front for part in PARTS if part.cabinet} == set(FRONTS) - {"solid door"}
    assert {part.thread for part in PARTS if part.kind == "fastener"} == {"", "M5", "M6", "10-32", "12-24"}
    assert {part.cable.rating for part in PARTS if part.kind == "cable" and part.cable} == {
        "indoor", "outdoor", "buried",
    }  # fmt: skip
    assert {part.cable.category for part in PARTS if part.cable and part.cable.medium == "fibre"} == {
        "om3", "om4", "os2",
    }  # fmt: skip


FIXED_JACK = JackSpec("", "rj45", PASSIVE)
BOUGHT: dict[str, Callable[[Part], object]] = {
    "switch without settings": lambda part: part.kind == "switch" and part.vlan_aware is False,
    "PoE switch without a fan": lambda part: (
        part.kind == "switch" and part.gives_poe and is_cooled(part, "passive")
    ),
    "PoE switch with a fan": lambda part: part.kind == "switch" and part.gives_poe and is_cooled(part, "fan"),
    "switch fed by PoE that gives it on": lambda part: (
        part.kind == "switch" and part.takes_poe and part.gives_poe
    ),
    "10 Gb/s switch": lambda part: (
        part.kind == "switch" and any(jack.family == "sfp-plus" for jack in part.jacks)
    ),
    "outdoor access point": lambda part: part.kind == "access-point" and part.exposure.place == "outdoor",
    "small computer with a PoE board": lambda part: part.kind == "small-computer" and part.takes_poe,
    "small computer with an adaptor": lambda part: part.kind == "small-computer" and part.mains.inlet,
    "adaptor that covers two neighbours": lambda part: part.mains.outlets and blocks(part) == 2,
    "strip with surge arresters": lambda part: part.kind == "power-strip" and part.mains.surge is True,
    "thing with two feeds": lambda part: part.mains.inlets == 2,
    "half-width cabinet": lambda part: part.kind == "cabinet" and part.rail_width == "half",
    "floor cabinet": lambda part: part.cabinet and part.cabinet.mounting == "floor",
    "coupler for an opening": lambda part: part.kind == "coupler" and part.fits == "keystone",
    "fibre coupler": lambda part: part.kind == "coupler" and part.jacks[0].family == "sc",
    "28 AWG cord": lambda part: part.kind == "cord" and gauge(part) == 28,
    "cable by the reel": lambda part: part.cable and part.cable.reels,
    "direct-attach cord": lambda part: part.kind == "cord" and part.cable and part.cable.medium == "twinax",
    "fixed panel": lambda part: part.kind == "panel" and part.jacks[0]._replace(name="") == FIXED_JACK,
    "outdoor outlet": lambda part: part.kind == "outlet" and part.exposure.place == "outdoor",
    "lamp": lambda part: part.kind == "end-device" and "Lamp" in part.title,
}


def is_cooled(part: Part, by: str) -> bool:
    return part.cooling is not None and part.cooling.by == by


def blocks(part: Part) -> float | None:
    return part.mains.blocks.high if isinstance(part.mains.blocks, Fact) else None


def gauge(part: Part) -> float | None:
    return part.cable.gauge_awg.high if part.cable and isinstance(part.cable.gauge_awg, Fact) else None


@pytest.mark.parametrize("what", BOUGHT)
def test_there_is_one(what: str) -> None:
    assert any(BOUGHT[what](part) for part in PARTS)
