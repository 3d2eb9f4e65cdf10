"""The parts that come with firstfix are complete, agree with each other, and are physically possible.

That no name or title holds a brand cannot be tested; it is looked at when a part is added.
"""

from collections.abc import Callable, Iterator

import pytest

from firstfix.parts.facts import TYPICAL, Fact, Figure
from firstfix.parts.library_files import library
from firstfix.parts.part import ACTIVE_KINDS, INLINE_KINDS, KINDS, Part
from firstfix.standards.optical import fibre_losses, optical_reaches
from firstfix.standards.twisted_pair import categories, pair_reaches, twinax_reaches

# What a powered device may draw at its jack, and what its source reserves, by class, in watts:
# IEEE Std 802.3-2018, Clause 33 (classes 0 to 4), and IEEE Std 802.3bt-2018, Clause 145 (classes 5 to 8).
DEVICE_WATTS = {0: 12.95, 1: 3.84, 2: 6.49, 3: 12.95, 4: 25.5, 5: 40.0, 6: 51.0, 7: 62.0, 8: 71.3}
SOURCE_WATTS = {0: 15.4, 1: 4.0, 2: 7.0, 3: 15.4, 4: 30.0, 5: 45.0, 6: 60.0, 7: 75.0, 8: 90.0}

# IEC 60297-3-100 (EIA/ECA-310-E): height of a unit, width of a front panel. Half: common practice, no source.
UNIT_M = 0.04445
PANEL_WIDTH_M = {"full": 0.4826, "half": 0.254}

PLANNED = (
    "gateway-1u", "switch-16-poe", "keystone-panel-24-1u", "small-computer-poe", "small-computer",
    "storage-2-bay", "shelf-1u", "brush-panel-1u", "blank-panel-1u", "power-strip-1u-8",
    "injector-class-6", "surge-protector",
    "surge-protector-outdoor", "switch-8-poe-fed", "access-point", "access-point-outdoor", "camera-outdoor",
    "sensor-poe", "wall-outlet-2", "wall-outlet-1", "wall-cabinet-12u", "wall-cabinet-6u", "computer-desktop",
    "cat6-indoor", "cat6-outdoor", "cat6-buried", "cord-cat6", "jack-cat6", "plug-cat6", "cage-nut-set-m6",
    "label-cable", "tie-hook-and-loop", "earth-kit", "power-cord-c13", "wall-fixing",
)  # fmt: skip

PARTS = list(library().values())
# A thing of which nothing is known but its jack: the plan's author has to say.
ANYTHING = {"end-device"}


def of(test: Callable[[Part], object]) -> list[pytest.ParameterSet]:
    chosen = [pytest.param(part, id=part.name) for part in PARTS if test(part)]
    assert chosen, "a test of nothing"
    return chosen


def known(figure: Figure) -> Fact:
    assert isinstance(figure, Fact)
    return figure


def test_names_that_example_plans_use() -> None:
    assert set(PLANNED) - set(library()) == set()


def test_there_are_enough_to_build_with() -> None:
    assert len(PARTS) >= 150


def test_every_kind_has_a_part() -> None:
    assert set(KINDS) == {part.kind for part in PARTS}


def test_titles_tell_parts_apart() -> None:
    titles = [part.title for part in PARTS]
    assert len(set(titles)) == len(titles)


@pytest.mark.parametrize("part", of(lambda part: part.name))
def test_common_facts(part: Part) -> None:
    assert part.basis == TYPICAL
    assert part.title != part.name.replace("-", " ")
    assert part.title[0].isupper()
    assert len(part.title) <= 110
    assert isinstance(part.price, Fact) or part.name in ANYTHING


@pytest.mark.parametrize("part", of(lambda part: part.kind in ACTIVE_KINDS))
def test_active_parts_have_jacks_a_draw_and_power(part: Part) -> None:
    assert part.jacks
    assert isinstance(part.draw, Fact) or part.name in ANYTHING
    assert part.mains.inlet or part.takes_poe is not None
    assert all(isinstance(jack.rate, Fact) and not jack.needs_module for jack in part.jacks)


@pytest.mark.parametrize("part", of(lambda part: part.kind == "switch"))
def test_switches_say_how_they_forward(part: Part) -> None:
    assert (part.bridges, part.routes) == (True, False)
    assert isinstance(part.vlan_aware, bool)
    assert part.spanning_tree is part.vlan_aware


@pytest.mark.parametrize("part", of(lambda part: part.kind == "gateway"))
def test_gateways_route(part: Part) -> None:
    assert (part.routes, part.bridges, part.vlan_aware) == (True, True, True)
    assert part.jack("wan") is not None


@pytest.mark.parametrize("part", of(lambda part: part.mains.inlet == "coupler"))
def test_coupler_has_a_cord_in_the_box(part: Part) -> None:
    assert ("power-cord-c13", part.mains.inlets) in part.in_box


@pytest.mark.parametrize("part", of(lambda part: part.mains.outlets))
def test_what_offers_outlets_says_how_much_they_carry(part: Part) -> None:
    assert part.kind in ("power-strip", "ups")
    assert known(part.mains.rating).high > 0


@pytest.mark.parametrize("part", of(lambda part: part.rack is not None and part.rack.height))
def test_rack_parts_fit_a_cabinet(part: Part) -> None:
    assert part.rack is not None
    assert 0 < known(part.rack.depth).high < 0.65
    assert 0 < known(part.weight).high < 15
    assert known(part.draw).low >= 0
    assert part.fixings in (2, 4)
    cabinets = [each for each in PARTS if each.kind == "cabinet" and each.rail_width == part.rack.width]
    assert any(known(part.rack.depth).high < known(each.usable_depth).low for each in cabinets)


@pytest.mark.parametrize("part", of(lambda part: part.kind == "cabinet"))
def test_cabinets_are_possible(part: Part) -> None:
    assert part.outside is not None
    assert known(part.outside.height).low > part.units * UNIT_M
    assert known(part.outside.width).low > PANEL_WIDTH_M[part.rail_width]
    assert known(part.outside.depth).low > known(part.usable_depth).high
    assert known(part.weight).high > 0
    assert part.rack is None
    fasteners = [each for each in PARTS if each.kind == "fastener"]
    assert any((each.rails, each.thread) == (part.rails, part.thread) for each in fasteners)
    assert part.name.endswith(f"-{part.units}u")


@pytest.mark.parametrize("part", of(lambda part: part.kind == "fastener" and part.rails))
def test_rack_fasteners_have_a_thread(part: Part) -> None:
    assert part.thread
    assert part.pack > 1


@pytest.mark.parametrize("part", of(lambda part: part.takes_poe is not None))
def test_draw_is_within_the_class_and_needs_it(part: Part) -> None:
    assert part.takes_poe is not None
    poe_class = int(known(part.takes_poe.poe_class).high)
    draw = known(part.draw).high
    given_on = max((power for _, power in part.gives_poe.when_fed), default=0.0) if part.gives_poe else 0.0
    assert draw + given_on <= DEVICE_WATTS[poe_class]
    if poe_class > 1:
        less = 3 if poe_class == 4 else poe_class - 1
        assert draw + given_on > DEVICE_WATTS[less]


@pytest.mark.parametrize("part", of(lambda part: part.gives_poe is not None))
def test_poe_sources_can_feed_a_jack_fully(part: Part) -> None:
    gives = part.gives_poe
    assert gives is not None
    source_watts = SOURCE_WATTS[int(known(gives.poe_class).high)]
    assert all(jack is not None and jack.family == "rj45" for jack in map(part.jack, gives.jacks))
    if part.takes_poe is None:
        assert source_watts <= known(gives.budget).high <= len(gives.jacks) * source_watts
        assert 0.7 <= known(gives.efficiency).high < 1


@pytest.mark.parametrize("part", of(lambda part: part.gives_poe is not None and part.takes_poe is not None))
def test_what_is_given_on_is_left_over(part: Part) -> None:
    """Common practice for a cascade: input of the granted class, less own use, less conversion loss."""
    assert part.gives_poe is not None
    assert part.gives_poe.when_fed
    assert not part.mains.inlet
    for poe_class, given in part.gives_poe.when_fed:
        assert given < DEVICE_WATTS[poe_class] - known(part.draw).high


def test_parts_that_examples_rest_on() -> None:
    parts = library()
    core, shed, injector = parts["switch-16-poe"], parts["switch-8-poe-fed"], parts["injector-class-6"]
    assert core.gives_poe is not None
    assert shed.gives_poe is not None
    assert shed.takes_poe is not None
    assert injector.gives_poe is not None
    assert len(core.jacks) == 16
    assert {known(jack.rate).high for jack in core.jacks} == {1000.0}
    assert core.gives_poe.jacks == tuple("12345678")
    assert (known(core.gives_poe.poe_class).high, known(core.gives_poe.budget).high) == (4, 120)
    assert (shed.takes_poe.jacks, known(shed.takes_poe.poe_class).high) == (("in",), 6)
    assert (shed.gives_poe.jacks, known(shed.gives_poe.poe_class).high) == (tuple("1234567"), 4)
    assert shed.gives_poe.when_fed == ((4, 14.0), (6, 38.0))
    assert known(shed.draw).high == 7
    assert (injector.gives_poe.jacks, known(injector.gives_poe.budget).high) == (("out",), 60)
    assert known(parts["wall-cabinet-12u"].usable_depth).high == 0.4


@pytest.mark.parametrize("part", of(lambda part: part.kind in INLINE_KINDS))
def test_in_line_parts_join_their_two_jacks(part: Part) -> None:
    (joined,) = part.passes
    assert {joined.near, joined.far} == {jack.name for jack in part.jacks}
    assert (joined.power == "injects") == (part.kind == "injector")
    assert (part.gives_poe is not None) == (part.kind == "injector")


@pytest.mark.parametrize("part", of(lambda part: part.kind == "surge-protector"))
def test_surge_protectors_are_earthed(part: Part) -> None:
    assert "earth-kit" in dict(part.needs)
    assert "electrician" in part.note


@pytest.mark.parametrize("part", of(lambda part: part.in_box or part.needs))
def test_what_comes_along_or_is_needed_exists(part: Part) -> None:
    for name, count in (*part.in_box, *part.needs):
        assert count > 0
        assert name in library()


@pytest.mark.parametrize("part", of(lambda part: part.kind == "outlet"))
def test_outlets_stand_in_a_box(part: Part) -> None:
    assert [library()[name].kind for name, _ in part.needs] == ["wall-box"]


@pytest.mark.parametrize("part", of(lambda part: any(jack.needs_module for jack in part.jacks)))
def test_openings_have_a_module(part: Part) -> None:
    modules = {each.fits for each in PARTS if each.kind == "jack-module"}
    assert {jack.needs_module for jack in part.jacks} <= modules


@pytest.mark.parametrize(
    "part", of(lambda part: part.category and part.kind not in ("transceiver", "fibre-end"))
)
def test_copper_hardware_has_a_known_category(part: Part) -> None:
    assert part.category in categories()


@pytest.mark.parametrize("part", of(lambda part: part.kind in ("cable", "cord", "power-cord")))
def test_cables_and_cords(part: Part) -> None:
    cable = part.cable
    assert cable is not None
    assert cable.lengths
    assert list(cable.lengths) == sorted(set(cable.lengths))
    assert 0.001 < known(cable.diameter).high < 0.02
    assert isinstance(cable.gauge_awg, Fact) == (cable.medium != "fibre")
    assert (cable.medium == "mains") == (part.kind == "power-cord")
    assert cable.category in _categories(cable.medium)
    assert cable.rating in part.name or cable.rating == "indoor"


def _categories(medium: str) -> set[str]:
    found = {
        "copper": set(categories()),
        "fibre": {loss.grade.lower() for loss in fibre_losses()},
        "twinax": {reach.phy for reach in twinax_reaches()},
        "mains": {""},
    }
    return found[medium]


def _copper(kind: str) -> Iterator[Part]:
    return (part for part in PARTS if part.kind == kind and part.cable and part.cable.medium == "copper")


def test_installed_cable_is_solid_and_no_thinner_than_24_awg() -> None:
    """ANSI/TIA-568.2-D (from memory): horizontal cable is 22 to 24 AWG; 28 AWG is for cords only."""
    for part in _copper("cable"):
        assert part.cable is not None
        thin = part.name == "cat6-thin-indoor"
        assert part.cable.is_stranded == thin
        assert 22 <= known(part.cable.gauge_awg).high <= (28 if thin else 24)
        assert ("TIA-568" in part.note) == thin


def test_cords_are_stranded() -> None:
    for part in _copper("cord"):
        assert part.cable is not None
        assert part.cable.is_stranded
        assert 24 <= known(part.cable.gauge_awg).high <= 28


def test_clad_cable_says_so() -> None:
    clad = [part for part in PARTS if part.cable and part.cable.conductor == "copper-clad-aluminium"]
    assert [part.name for part in clad] == ["cat5e-cca-indoor"]
    assert "copper-clad aluminium" in clad[0].title


def test_passive_twinax_is_short_enough() -> None:
    """SFF-8431, Annex E: passive 10 Gb/s cords work up to 7 m in practice (from memory); those for 1 Gb/s are taken alike."""
    twinax = [part.cable for part in PARTS if part.cable and part.cable.medium == "twinax"]
    assert {form.family for form in twinax} == {"sfp", "sfp-plus"}
    assert max(length for form in twinax for length in form.lengths) <= 7


@pytest.mark.parametrize("part", of(lambda part: part.kind == "transceiver"))
def test_transceivers_have_a_signalling_for_their_cable(part: Part) -> None:
    (jack,) = part.jacks
    known_rates = {(reach.grade.lower(), reach.rate_mbps, "lc") for reach in optical_reaches().values()}
    known_rates |= {(reach.category, reach.rate_mbps, "rj45") for reach in pair_reaches()}
    assert (part.category, known(jack.rate).high, jack.family) in known_rates
    assert part.fits in ("sfp", "sfp-plus")
    assert known(part.draw).high < 2
