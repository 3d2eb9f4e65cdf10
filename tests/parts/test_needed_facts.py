"""A part that leaves out a fact that its kind needs does not load: one fault, at its name, that names the fact."""

import pytest

from firstfix.parts.library_files import library
from firstfix.parts.part import KINDS
from parts.reading import read_whole

AIR = "exposure.coldest exposure.warmest"
LIVE = f"draw weight depth cooling.by exposure.place {AIR}"
MAINS = "mains.inlet mains.shape mains.leakage"
STANDS = "size.width size.height"
DEVICE = f"price jacks {MAINS} mains.blocks {STANDS} {LIVE}"
RACK = "height fixings ears front-depth plug-space"
RAILS = "height depth weight fixings"
OUTLETS = f"price {MAINS} mains.outlets mains.sockets mains.rating mains.current mains.protection mains.surge"
CABLE = f"price cable.medium cable.lengths cable.diameter cable.bend cable.rating {AIR}"
COPPER = "cable.gauge cable.stranded cable.screened cable.conductor"
GIVES = "gives-poe.jacks gives-poe.class gives-poe.type gives-poe.pairs gives-poe.jack-limit gives-poe.counts"

# What one complete part of each kind says; a second form of a kind behind a slash.
NEEDED = {
    "gateway": f"{DEVICE} routes bridges vlan-aware spanning-tree",
    "switch": f"{DEVICE} bridges vlan-aware spanning-tree",
    "switch/rack": f"price jacks {MAINS} {LIVE} {RACK} bridges vlan-aware spanning-tree",
    "switch/poe": f"{DEVICE} bridges vlan-aware spanning-tree {GIVES} gives-poe.budget gives-poe.efficiency",
    "access-point": f"{DEVICE} bridges vlan-aware spanning-tree",
    "camera": DEVICE,
    "camera/poe": f"price jacks takes-poe.class takes-poe.pairs {STANDS} {LIVE}",
    "camera/outdoor": f"{DEVICE} exposure.uv exposure.ingress",
    "small-computer": DEVICE,
    "computer": DEVICE,
    "storage": DEVICE,
    "sensor": DEVICE,
    "phone": DEVICE,
    "printer": DEVICE,
    "end-device": DEVICE,
    "panel": f"price jacks {RAILS} front-depth plug-space exposure.place category screened",
    "panel/openings": f"price openings {RAILS} front-depth plug-space exposure.place",
    "outlet": "price openings depth weight exposure.place",
    "injector": f"price jacks passes {MAINS} mains.blocks {STANDS} {LIVE} {GIVES} gives-poe.budget gives-poe.efficiency",
    "surge-protector": "price jacks passes category screened surge.line surge.guarded surge.earth surge.poe-class "
    f"depth weight exposure.place {AIR}",
    "coupler": "price jacks passes exposure.place category screened",
    "splitter": f"price jacks passes takes-poe.class takes-poe.pairs low-voltage.voltage low-voltage.power "
    f"low-voltage.efficiency {STANDS} {LIVE}",
    "power-strip": f"{OUTLETS} mains.blocks weight depth exposure.place {STANDS}",
    "ups": f"{OUTLETS} mains.blocks battery.apparent battery.energy {STANDS} {LIVE}",
    "cabinet": "price height usable-depth outside.width outside.height outside.depth rails thread weight "
    "cabinet.mounting cabinet.front cabinet.load cabinet.clear-width exposure.place",
    "cabinet/door": "price height usable-depth outside.width outside.height outside.depth rails thread weight needs "
    "cabinet.mounting cabinet.front cabinet.load cabinet.before-rails cabinet.swing cabinet.clear-width exposure.place",
    "shelf": f"price {RAILS} shelf.load shelf.clear-width shelf.tie-slots",
    "cover-panel": f"price {RAILS} cover.form cover.screw-head",
    "cover-panel/hinged": f"price {RAILS} cover.form cover.screw-head cover.clear-under cover.swing",
    "cable": f"{CABLE} {COPPER} cable.category cable.bend-pulling cable.fire-class exposure.uv",
    "cable/fibre": f"{CABLE} cable.category cable.bend-pulling cable.fire-class exposure.uv cable.fibres cable.family",
    "cord": f"{CABLE} {COPPER} cable.category cable.plug-length exposure.uv",
    "power-cord": f"{CABLE} cable.gauge cable.plug-length cable.ends cable.current",
    "jack-module": "price fits category screened depth wire",
    "plug": "price category screened wire pack",
    "fibre-end": "price fits category",
    "fastener": "price pack rails thread fastener.form fastener.length fastener.head fastener.head-height",
    "fastener/wall": "price pack fastener.form fastener.length",
    "label": "price pack size.width size.height",
    "tie": "price pack spacing",
    "wall-box": "price depth exposure.place",
    "transceiver": f"price fits jacks category draw {AIR} optics.wavelength optics.sends optics.reads",
    "earth-kit": "price earth.area earth.length",
    "pathway-material": "price exposure.place pathway.form pathway.inside pathway.outside pathway.length",
    "pathway-material/clip": "price exposure.place pathway.form pathway.clamps spacing",
    "consumable": "price",
    "tool": "price",
}

# Facts that are no figure, or on which others hang. The rest is 'unknown', which states a fact too.
GIVEN = {
    "jacks": "{1: rj45, 2: rj45}", "openings": "{1: keystone}", "passes": "{1: {to: 2, power: passes}}",
    "height": "1U", "fixings": "2", "rails": "threaded", "thread": "M6", "pack": "10", "fits": "keystone",
    "category": "6", "needs": "{wall-fixing: 4}", "mains.inlet": "adaptor", "mains.outlets": "3",
    "gives-poe.jacks": "2", "gives-poe.budget": "30 W", "surge.line": "1", "surge.guarded": "2",
    "cable.medium": "copper", "cable.lengths": "[1 m]", "cable.stranded": "true", "cable.screened": "false",
    "cable.conductor": "copper", "cable.rating": "indoor", "cable.category": "6", "cable.fibres": "2",
    "cable.family": "lc", "cable.ends": "[local, C13]", "exposure.place": "indoor", "cabinet.mounting": "floor",
    "cabinet.front": "open", "cover.form": "blank", "fastener.form": "screw", "pathway.form": "conduit",
}  # fmt: skip
GIVEN_TO = {
    "switch/rack": {"mains.inlet": "coupler"},
    "camera/outdoor": {"exposure.place": "outdoor"},
    "cabinet/door": {"cabinet.mounting": "wall", "cabinet.front": "glass door"},
    "cover-panel/hinged": {"cover.form": "hinged"},
    "cable/fibre": {"cable.medium": "fibre", "cable.conductor": "glass"},
    "power-cord": {"cable.medium": "mains"},
    "fastener/wall": {"fastener.form": "wall plug"},
    "transceiver": {"jacks": "{1: lc}"},
    "pathway-material/clip": {"pathway.form": "clip"},
}  # fmt: skip

# Without a height it is no part for rails, but one that stands by itself.
PAIRS = [
    (form, fact)
    for form, facts in NEEDED.items()
    for fact in facts.split()
    if (form, fact) != ("switch/rack", "height")
]


def written(form: str, without: str = "") -> str:
    """A part of the form's kind that says each fact but one."""
    values = {**GIVEN, **GIVEN_TO.get(form, {})}
    tables: dict[str, list[str]] = {}
    lines = ["p:", f"  kind: {form.split('/')[0]}"]
    for fact in NEEDED[form].split():
        key, _, below = fact.partition(".")
        if fact == without:
            continue
        if below:
            tables.setdefault(key, []).append(f"{below}: {values.get(fact, 'unknown')}")
        else:
            lines.append(f"  {key}: {values.get(fact, 'unknown')}")
    lines += [f"  {key}: {{{', '.join(entries)}}}" for key, entries in tables.items()]
    return "\n".join(lines) + "\n"


def test_every_kind_is_here() -> None:
    assert {form.split("/")[0] for form in NEEDED} == set(KINDS)


@pytest.mark.parametrize("form", NEEDED)
def test_complete_part_loads(form: str) -> None:
    assert read_whole(written(form))[1] == []


@pytest.mark.parametrize(("form", "fact"), PAIRS)
def test_without_a_fact_it_does_not_load(form: str, fact: str) -> None:
    (fault,) = read_whole(written(form, without=fact))[1]
    at, rule, message = fault.split(" ", 2)
    assert rule == "key-missing:"
    if message.startswith("the part 'p'"):
        assert at == "1:1"
        assert f"'{fact}'" in message
    else:
        # A table of which nothing can be read without it says so itself, at its own place.
        key, _, below = fact.partition(".")
        assert message == f"'{key}' needs '{below}'"


def test_all_that_is_left_out_is_one_fault_and_says_what_to_do() -> None:
    assert read_whole("p: {kind: wall-box}\n")[1] == [
        "1:1 key-missing: the part 'p' of kind 'wall-box' does not say 'price', 'depth', 'exposure.place'"
    ]
    assert read_whole("p: {kind: surge-protector}\n")[1] == [
        "1:1 key-missing: the part 'p' of kind 'surge-protector' does not say 'price', 'jacks', 'passes', 'category', "
        "'screened' and 9 more facts; nor 'surge.line', 'surge.guarded', 'surge.earth', 'surge.poe-class', 'depth'; "
        "nor 'weight', 'exposure.place', 'exposure.coldest', 'exposure.warmest'"
    ]


def test_either_of_two_is_enough() -> None:
    (fault,) = read_whole("p: {kind: camera}\n")[1]
    assert "'mains.inlet' or 'takes-poe.class'" in fault


@pytest.mark.parametrize("name", list(library()))
def test_what_is_like_a_part_of_the_library_states_what_that_states(name: str) -> None:
    assert read_whole(f"p: {{like: {name}, price: unknown}}\n", library())[1] == []


@pytest.mark.parametrize(
    "text",
    [
        "p: {kind: tie}\nq: {like: p, title: Two}\n",
        "p: {kind: tie}\nq: {like: p}\nr: {like: q}\n",
    ],
)
def test_what_its_model_leaves_out_is_told_once(text: str) -> None:
    (fault,) = read_whole(text)[1]
    assert fault.startswith("1:1 ")


def test_another_kind_needs_its_own_facts() -> None:
    first, second = read_whole("p: {like: switch-8, kind: gateway}\nq: {like: p, kind: shelf}\n", library())[
        1
    ]
    assert first.startswith("1:1 key-missing: the part 'p' of kind 'gateway' does not say 'routes'")
    assert second.startswith("2:1 key-missing: the part 'q' of kind 'shelf' does not say 'height', ")
    assert "'routes'" not in second


def test_another_inlet_or_medium_begins_anew() -> None:
    (fault,) = read_whole("p: {like: switch-8, mains: {inlet: coupler}}\n", library())[1]
    assert fault.endswith("does not say 'mains.shape', 'mains.leakage'")
    (fault,) = read_whole("p: {like: cord-cat6, cable: {medium: fibre}}\n", library())[1]
    assert "'cable.diameter'" in fault
    assert "'cable.fibres'" in fault


def test_what_stood_by_itself_needs_ears_between_rails() -> None:
    (fault,) = read_whole("p: {like: switch-8, height: 1U}\n", library())[1]
    assert fault.endswith("does not say 'fixings', 'ears', 'front-depth', 'plug-space'")
