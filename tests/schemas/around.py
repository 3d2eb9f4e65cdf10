"""A small plan around one key: where each table of the schema lies in a plan, and what else that table needs there."""

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from schemas.judging import schema


class Place(NamedTuple):
    """The way from the plan's root to a table, and keys that it must have besides the one that is tried."""

    way: tuple[str, ...]
    besides: Mapping[str, Any]


_HOUSE = ("sites", "home", "buildings", "house")
_LAYOUT = ("cabinets", "main", "layout", "9")
_PART = ("parts", "p")

PLACES: dict[str, Place] = {
    "site": Place(_HOUSE[:2], {}),
    "building": Place(_HOUSE, {}),
    "room": Place((*_HOUSE, "rooms", "study"), {}),
    "walls": Place((*_HOUSE, "rooms", "study", "walls"), {}),
    "way": Place(("ways", "riser"), {"between": ["a", "b"]}),
    "cabinet": Place(("cabinets", "main"), {"part": "wall-cabinet-12u"}),
    "cooling": Place(("cabinets", "main", "cooling"), {"fan": "3 m3/h"}),
    "faces": Place(_LAYOUT, {"front": "core"}),
    "slot": Place(_LAYOUT, {"fit": "shelf-1u"}),
    "device": Place(("devices", "d"), {"part": "camera"}),
    "usual": Place(("defaults", "camera"), {}),
    "link": Place(("links", "[]"), {"run": ["a", "b"]}),
    "vlan": Place(("vlans", "guests"), {"id": 30}),
    "wifiNetwork": Place(("wifi", "inside"), {"ssid": "My house", "vlan": "home"}),
    "nameService": Place(("names",), {}),
    "internet": Place(("internet",), {"through": "line-box"}),
    "cabling": Place(("cabling",), {}),
    "cordColours": Place(("cabling", "colours"), {}),
    "houseMains": Place(("mains",), {}),
    "shop": Place(("shops", "north"), {}),
    "offer": Place(("shops", "north", "offers", "jack-cat6"), {"price": 10}),
    "work": Place(("work",), {}),
    "ownStep": Place(("work", "own", "plaster"), {"does": "wait", "takes": "1 h"}),
    "looks": Place(("drawings",), {}),
    "labelling": Place(("labels",), {}),
    "wish": Place(("purchase",), {}),
    "circuit": Place(("circuits", "ring-1"), {"rating": "16 A"}),
    "phase": Place(("phases", "spring"), {}),
    "exception": Place(("exceptions", "[]"), {"rule": "a", "subject": "b", "reason": "c"}),
    "part": Place(_PART, {"like": "camera"}),
    "takesPoe": Place((*_PART, "takes-poe"), {}),
    "givesPoe": Place((*_PART, "gives-poe"), {}),
    "mains": Place((*_PART, "mains"), {}),
    "cable": Place((*_PART, "cable"), {}),
    "outside": Place((*_PART, "outside"), {}),
    "jack": Place((*_PART, "jacks", "1"), {"family": "rj45"}),
    "pass": Place((*_PART, "passes", "line"), {"to": "device", "power": "passes"}),
    "exposure": Place((*_PART, "exposure"), {}),
    "partCooling": Place((*_PART, "cooling"), {}),
    "size": Place((*_PART, "size"), {}),
    "cabinetForm": Place((*_PART, "cabinet"), {}),
    "shelfForm": Place((*_PART, "shelf"), {}),
    "cover": Place((*_PART, "cover"), {}),
    "fastener": Place((*_PART, "fastener"), {}),
    "optics": Place((*_PART, "optics"), {}),
    "battery": Place((*_PART, "battery"), {}),
    "surge": Place((*_PART, "surge"), {}),
    "lowVoltage": Place((*_PART, "low-voltage"), {}),
    "pathway": Place((*_PART, "pathway"), {}),
    "earthLead": Place((*_PART, "earth"), {}),
}
# What a key of a table needs beside it, where that is not what the table needs anyway.
_BESIDES: dict[tuple[str, str], Mapping[str, Any]] = {
    ("slot", "device"): {},
    ("slot", "keep-free"): {},
    ("slot", "heat"): {"keep-free": "more"},
    ("device", "cable"): {"part": "camera", "plugs-into": "core"},
    ("device", "cord"): {"part": "camera", "plugs-into": "core"},
    ("internet", "address"): {"through": "line-box", "addresses": "fixed"},
    ("exposure", "place"): {"uv": True, "ingress": "IP66"},
    ("mains", "inlet"): {"shape": "C14", "leakage": "1 mA"},
    ("pathway", "form"): {"inside": "21 mm", "outside": "25 mm", "length": "3 m"},
    ("cover", "form"): {"clear-under": "40 mm", "swing": "90 mm"},
    ("cabinetForm", "front"): {"before-rails": "60 mm", "swing": "560 mm"},
}
# Parts of the library that have the facts in question, for tables and keys that don't suit a camera.
_LIKE = {
    "givesPoe": "switch-16-poe", "gives-poe": "switch-16-poe", "cable": "cat6-indoor",
    "cabinetForm": "wall-cabinet-12u", "outside": "wall-cabinet-12u", "usable-depth": "wall-cabinet-12u",
    "cabinet": "wall-cabinet-12u", "surge": "surge-protector", "pass": "surge-protector", "passes": "surge-protector",
    "fastener": "cage-nut-set-m6", "pathway": "conduit-25", "mains": "power-strip-1u-8", "battery": "ups-1u",
    "mains.inlet": "camera", "kind": "switch-8", "height": "switch-16-poe", "low-voltage": "splitter",
    "lowVoltage": "splitter", "optics": "sfp-lx", "earth": "earth-kit", "earthLead": "earth-kit",
    "cover": "hinged-panel-1u", "shelf": "shelf-1u", "shelfForm": "shelf-1u",
}  # fmt: skip


def keys() -> Iterator[tuple[str, str]]:
    """Each key of each table that the schema describes: the table's name ("" for the plan) and the key."""
    yield from (("", key) for key in schema()["properties"])
    for name, definition in schema()["$defs"].items():
        if "title" in definition:
            yield from ((name, key) for key in definition.get("properties", ()))


def key_schema(table: str, key: str) -> Any:
    holder = schema()["$defs"][table] if table else schema()
    return holder["properties"][key]


def plan_with(table: str, key: str, value: Any) -> dict[str, Any]:
    """A plan that says this one thing, and what it cannot be said without."""
    if not table:
        return {key: value}
    place = PLACES[table]
    made: Any = {**_BESIDES.get((table, key), place.besides), key: value}
    for step in reversed(place.way[1:]):
        made = [made] if step == "[]" else {step: made}
    plan = {place.way[0]: made}
    if place.way[0] == "cabinets":
        plan["cabinets"]["main"] = {"part": "wall-cabinet-12u", **plan["cabinets"]["main"]}
    if place.way[0] in ("shops", "work"):
        plan["start"] = "2027-03-01"
    if place.way[0] == "parts" and (table, key) != ("part", "like"):
        of_table = _LIKE.get(key if table == "part" else table, "camera")
        plan["parts"]["p"]["like"] = _LIKE.get(f"{table}.{key}", of_table)
    return plan
