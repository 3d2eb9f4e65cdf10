"""The schema has the readers' keys, words, units and limits, no more and no fewer."""

import importlib
import pkgutil
import re
from collections.abc import Iterable
from typing import Any

import pytest

import firstfix.offers
import firstfix.parts
import firstfix.plan
from firstfix import units
from firstfix.offers import read_offers
from firstfix.offers.model import AIMS
from firstfix.parts import (
    forms,
    needed_facts,
    part,
    read,
    read_forms,
    read_groups,
    read_jacks,
    read_power,
    reading,
)
from firstfix.parts.facts import BASES
from firstfix.plan import (
    read_cabinets,
    read_cabling,
    read_circuits,
    read_drawings,
    read_equipment,
    read_exceptions,
    read_internet,
    read_labels,
    read_links,
    read_logical,
    read_phases,
    read_places,
    read_rooms,
    read_shops,
    read_work,
)
from firstfix.plan.colours import COLOURS
from firstfix.plan.model import RUNS, CordColours
from firstfix.plan.read import PLAN_KEYS
from firstfix.standards.poe import PRIORITIES
from firstfix.standards.work import kinds_of_step
from schemas.around import keys
from schemas.judging import schema, validator

# Each table of the schema, and the keys that its reader takes.
READERS: dict[str, Iterable[str]] = {
    "": PLAN_KEYS,
    "site": read_places._SITE_KEYS,
    "building": read_places._BUILDING_KEYS,
    "room": read_rooms._ROOM_KEYS,
    "walls": read_rooms.SIDES,
    "way": read_places._WAY_KEYS,
    "cabinet": read_cabinets.CABINET_KEYS,
    "cooling": read_cabinets._COOLING_KEYS,
    "faces": read_cabinets._FACES,
    "slot": read_cabinets._SLOT_KEYS,
    "device": read_equipment.DEVICE_KEYS,
    "usual": read_equipment.DEFAULT_KEYS,
    "link": read_links._LINK_KEYS,
    "vlan": read_logical._VLAN_KEYS,
    "wifiNetwork": read_logical._WIFI_KEYS,
    "nameService": read_logical._NAMES_KEYS,
    "internet": read_internet._KEYS,
    "cabling": read_cabling._CABLING_KEYS,
    "cordColours": CordColours._fields,
    "circuit": read_circuits._CIRCUIT_KEYS,
    "houseMains": read_circuits._MAINS_KEYS,
    "shop": read_offers.SHOP_KEYS,
    "offer": read_offers.OFFER_KEYS,
    "wish": read_shops.PURCHASE_KEYS,
    "work": read_work.WORK_KEYS,
    "ownStep": read_work.OWN_KEYS,
    "labelling": read_labels.LABELS_KEYS,
    "looks": read_drawings.DRAWINGS_KEYS,
    "phase": read_phases._PHASE_KEYS,
    "exception": read_exceptions._KEYS,
    "part": read.PART_KEYS,
    "takesPoe": read_power._TAKES_KEYS,
    "givesPoe": read_power._GIVES_KEYS,
    "mains": read_power._MAINS_KEYS,
    "cable": read_forms._CABLE_KEYS,
    "outside": part.Outside._fields,
    "jack": read_jacks._JACK_KEYS,
    "pass": read_jacks._PASS_KEYS,
    **{
        schema()["$defs"]["part"]["properties"][key]["$ref"].rpartition("/")[2]: tuple(group.keys)
        for key, group in read_groups.GROUPS.items()
    },
}
# Parts of the keys of a part, and of a link.
_WITHIN_OTHERS = {"FORM_KEYS", "_PLAIN_KEYS", "FIGURE_KEYS"}


def _definition(name: str) -> Any:
    return schema()["$defs"][name]


def test_the_schema_describes_no_other_tables() -> None:
    assert {table for table, _ in keys()} == set(READERS)


@pytest.mark.parametrize("table", READERS, ids=lambda table: table or "plan")
def test_keys_are_the_readers(table: str) -> None:
    assert sorted(key for of, key in keys() if of == table) == sorted(READERS[table])


def test_keys_of_a_spread_are_the_readers() -> None:
    for name, each in schema()["$defs"].items():
        if name.endswith("Figure"):
            assert sorted(each["anyOf"][2]["properties"]) == sorted(reading.FIGURE_KEYS)


@pytest.mark.parametrize(
    "package", [firstfix.plan, firstfix.parts, firstfix.offers], ids=lambda package: package.__name__
)
def test_no_list_of_keys_is_forgotten(package: Any) -> None:
    """Whoever gives the language a new table gives it a row above."""
    known = [sorted(each) for each in READERS.values()]
    for info in pkgutil.iter_modules(package.__path__):
        module = importlib.import_module(f"{package.__name__}.{info.name}")
        for name, value in vars(module).items():
            if name.endswith("_KEYS") and name not in _WITHIN_OTHERS and isinstance(value, tuple):
                assert sorted(value) in known, f"{module.__name__}.{name}"


# Where the schema has a closed list, and the reader's.
WORDS: dict[tuple[str, str], Iterable[object]] = {
    ("way", "kind"): read_places.EXPOSURE_OF_KIND,
    ("slot", "face"): read_cabinets._FACES,
    ("device", "poe-priority"): PRIORITIES,
    ("link", "owned"): (True, False, RUNS),
    ("internet", "addresses"): read_internet.MODES,
    ("wish", "aim"): AIMS,
    ("looks", "theme"): read_drawings.THEMES,
    ("looks", "paper"): read_drawings.PAPERS,
    ("labelling", "scheme"): read_labels.SCHEMES,
    ("labelling", "sheets"): read_labels.SHEETS,
    ("houseMains", "plug"): read_circuits._LETTERS,
    ("part", "kind"): part.KINDS,
    ("part", "rails"): part.RAILS,
    ("part", "ears"): (*forms.EARS, "unknown"),
    ("part", "wire"): (*forms.WIRES, "unknown"),
    ("mains", "shape"): (*forms.PLUGS, *forms.COUPLERS, "unknown"),
    ("mains", "sockets"): (*forms.SOCKETS, "unknown"),
    ("mains", "protection"): (*forms.PROTECTIONS, "unknown"),
    ("cable", "family"): (*part.JACK_FAMILIES, "mains"),
    ("cable", "rating"): forms.PLACES,
    ("cable", "medium"): read_forms._USUAL,
    ("cable", "fire-class"): (*forms.FIRE_CLASSES, "unknown"),
    ("jack", "family"): part.JACK_FAMILIES,
    ("exposure", "place"): (*forms.PLACES, "unknown"),
    ("cabinetForm", "mounting"): (*forms.MOUNTINGS, "unknown"),
    ("cabinetForm", "front"): (*forms.FRONTS, "unknown"),
    ("cover", "form"): (*forms.COVERS, "unknown"),
    ("fastener", "form"): (*forms.FASTENERS, "unknown"),
    ("fastener", "head"): (*forms.HEADS, "unknown"),
    ("pathway", "form"): (*forms.PATHWAYS, "unknown"),
}
LISTS: dict[str, Iterable[str]] = {
    "weekday": read_work.DAY_NAMES,
    "stepKind": kinds_of_step(),
    "colour": COLOURS,
    "wallMaterial": read_rooms.WALL_MATERIALS,
    "basis": BASES,
}


def _words(values: Iterable[object]) -> set[object]:
    """1 and true are equal to Python, so each goes with its type."""
    return {(type(each), each) for each in values if each is not None}


@pytest.mark.parametrize(("table", "key"), WORDS)
def test_closed_lists_are_the_readers(table: str, key: str) -> None:
    assert _words(_definition(table)["properties"][key]["enum"]) == _words(WORDS[table, key])


@pytest.mark.parametrize("name", LISTS)
def test_lists_of_words_are_the_readers(name: str) -> None:
    assert _words(_definition(name)["enum"]) == _words(LISTS[name])


def test_kinds_of_defaults_are_the_readers() -> None:
    names = schema()["properties"]["defaults"]["propertyNames"]["anyOf"]
    assert set(names[1]["enum"]) == set(part.KINDS)


QUANTITIES = {
    "length": units.LENGTH, "altitude": units.LENGTH, "temperature": units.TEMPERATURE, "power": units.POWER,
    "apparentPower": units.APPARENT_POWER, "rate": units.RATE, "mass": units.MASS, "duration": units.DURATION,
    "voltage": units.VOLTAGE, "current": units.CURRENT, "energy": units.ENERGY, "area": units.AREA,
    "wavelength": units.WAVELENGTH, "lightLevel": units.LEVEL, "airFlow": units.AIR_FLOW, "rackUnits": units.RACK_HEIGHT,
    "roomSize": units.LENGTH, "ambient": units.TEMPERATURE, "slack": units.LENGTH, "stockLength": units.LENGTH,
}  # fmt: skip
_EVERY_UNIT = sorted({unit for each in units.DIMENSIONS for unit in each.units})


@pytest.mark.parametrize("name", QUANTITIES)
def test_units_are_the_readers(name: str) -> None:
    dimension = QUANTITIES[name]
    before = "3 m x " if name == "roomSize" else ""
    taken = validator().evolve(schema={"$ref": f"#/$defs/{name}", "$defs": schema()["$defs"]})
    for unit in (*_EVERY_UNIT, *(unit.upper() for unit in _EVERY_UNIT), "metres"):
        for text in (f"{before}2 {unit}", f"{before}2{unit}"):
            assert taken.is_valid(text) == (unit in dimension.units), text


def test_every_dimension_is_described() -> None:
    described = {id(each) for each in QUANTITIES.values()}
    assert [each.name for each in units.DIMENSIONS if id(each) not in described] == []


def test_a_colour_follows_a_length_in_stock() -> None:
    taken = validator().evolve(schema=_definition("stockLength"))
    for colour in (*COLOURS, "gren"):
        assert taken.is_valid(f"2 m {colour}") == (colour in COLOURS)


def _needs(condition: Any) -> set[Any]:
    """The facts that the schema asks of a kind, as needed_facts names them."""
    below = condition.get("properties", {})
    plain = {key for key in condition["required"] if key not in below}
    within = {f"{key}.{each}" for key, of in below.items() for each in of["required"]}
    either = {
        tuple(fact for each in one["anyOf"] for fact in _needs(each)) for one in condition.get("allOf", ())
    }
    return plain | within | either


def test_facts_of_kinds_are_the_readers() -> None:
    found: dict[str, set[Any]] = {}
    for each in _definition("part")["allOf"]:
        for kind in each.get("if", {}).get("properties", {}).get("kind", {}).get("enum", ()):
            found[kind] = _needs(each["then"])
    assert found == {kind: set(needs) for kind, needs in needed_facts._OF_KIND.items()}


def test_patterns_are_of_the_kind_that_all_editors_read() -> None:
    """JSON Schema 2020-12, section 6.4: no lookbehind, no named groups, no escapes of one language only."""

    def patterns(value: Any) -> Iterable[str]:
        if isinstance(value, dict):
            if isinstance(value.get("pattern"), str):
                yield value["pattern"]
            yield from value.get("patternProperties", ())
            for each in value.values():
                yield from patterns(each)
        elif isinstance(value, list):
            for each in value:
                yield from patterns(each)

    odd = re.compile(r"\(\?(?![:!=])|\\[AZzGhpP]|\(\?P|[*+?}]\+")
    assert [each for each in patterns(schema()) if odd.search(each)] == []
