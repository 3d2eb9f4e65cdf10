"""A part out of a table of a YAML file: the library's own and a plan's `parts:` are read by the same rules."""

from dataclasses import replace
from typing import Any

from firstfix.finding.collector import Collector
from firstfix.parts.facts import BASES, NOT_SAID, Fact, Figure, Unknown, exactly
from firstfix.parts.numbering import jack_names
from firstfix.parts.part import (
    JACK_FAMILIES, KINDS, CableForm, GivesPoe, JackSpec, Library, Mains, Part, Pass, RackForm, TakesPoe, YesNo,
)  # fmt: skip
from firstfix.source.fields import Fields, as_integer, as_quantity, as_text
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, Scalar, clip, describe
from firstfix.units import LENGTH, MASS, POWER, RACK_HEIGHT, RATE, Dimension

PART_KEYS = (
    "kind", "title", "like", "basis", "note", "height", "width", "depth", "weight", "draw", "price", "jacks", "openings", "passes",
    "takes-poe", "gives-poe", "mains", "bridges", "spanning-tree", "vlan-aware", "routes", "cable", "fits", "category",
    "usable-depth", "rails", "thread", "fixings", "pack", "in-box", "needs",
)  # fmt: skip
_FIGURE_KEYS = ("least", "typical", "most", "basis")
_UNKNOWN = "unknown"


def read_parts(table: Node, known: Library, faults: Collector, basis: str) -> dict[str, Part]:
    """The parts of one `parts:` table. `like` may name a part of `known` or one above in the same table."""
    found: dict[str, Part] = {}
    holder = Fields(table, faults, "'parts'", table.entries if isinstance(table, Mapping) else ())
    for name, (key, value) in holder.entries.items():
        if name.startswith("x-"):
            continue
        part = _PartReader(name, key, value, faults, basis).part({**known, **found} if "like" in _keys(value) else known)
        if part is not None:
            found[name] = part
    return found


def _keys(node: Node) -> tuple[str, ...]:
    return tuple(node.entries) if isinstance(node, Mapping) else ()


class _PartReader:
    def __init__(self, name: str, key: Scalar, node: Node, faults: Collector, basis: str) -> None:
        self._name = name
        self._key = key
        self._faults = faults
        self._fields = Fields(node, faults, f"the part '{clip(name)}'", PART_KEYS)
        self._basis = self._fields.choice("basis", BASES) or basis

    def part(self, known: Library) -> Part | None:
        base = self._base(known)
        if base is None:
            return None
        changes: dict[str, Any] = {}
        for key, read in _READERS.items():
            if key in self._fields:
                value = read(self, key)
                if value is not None:
                    changes[_ATTRIBUTES.get(key, key.replace("-", "_"))] = value
        changes.update(self._rack(base))
        return replace(base, **changes)

    def _base(self, known: Library) -> Part | None:
        like = self._fields.text("like")
        title = self._name.replace("-", " ")
        if like is not None:
            node = self._fields.value("like")
            assert node is not None
            if like not in known:
                self._fields.wrong(node, f"there is no part '{clip(like)}' to be like{did_you_mean(like, known)}")
                return None
            kind = self._fields.choice("kind", KINDS) or known[like].kind
            return replace(known[like], name=self._name, title=title, basis=self._basis, like=like, kind=kind)
        if not self._fields.require("kind"):
            return None
        kind_word = self._fields.choice("kind", KINDS)
        return None if kind_word is None else Part(self._name, kind_word, title, self._basis)

    # One method for each shape of value. Each gives None where the value is faulty and reported.

    def text(self, key: str) -> str | None:
        return self._fields.text(key)

    def count(self, key: str) -> int | None:
        return self._fields.integer(key, 0, 100_000)

    def yes_no(self, key: str) -> YesNo | None:
        node = self._fields.value(key)
        if isinstance(node, Scalar) and node.text == _UNKNOWN:
            return NOT_SAID
        return self._fields.flag(key)

    def mass(self, key: str) -> Figure | None:
        return self._figure(self._fields, key, MASS)

    def power(self, key: str) -> Figure | None:
        return self._figure(self._fields, key, POWER)

    def length(self, key: str) -> Figure | None:
        return self._figure(self._fields, key, LENGTH)

    def money(self, key: str) -> Figure | None:
        value = self._fields.number(key)
        return None if value is None else exactly(value, self._basis)

    def _figure(self, fields: Fields, key: str, dimension: Dimension) -> Figure | None:
        node = fields.value(key)
        if node is None:
            return None
        if isinstance(node, Scalar):
            if node.text == _UNKNOWN:
                return NOT_SAID
            value = as_quantity(node, self._faults, dimension, f"'{key}'")
            return None if value is None else exactly(value, self._basis)
        spread = Fields(node, self._faults, f"'{key}'", _FIGURE_KEYS)
        basis = spread.choice("basis", BASES) or self._basis
        figures = [spread.quantity(each, dimension) for each in ("least", "typical", "most")]
        given = [each for each in figures if each is not None]
        if not given or given != sorted(given):
            spread.wrong(node, f"'{key}' has 'least', 'typical' and 'most' in rising order, or some of them")
            return None
        low = given[0]
        high = given[-1]
        return Fact(low, figures[1] if figures[1] is not None else high, high, basis)

    def _rack(self, base: Part) -> dict[str, Any]:
        """Height makes a part rack-mounted (or says how many units a cabinet has); width and depth belong to it."""
        fields = self._fields
        height = fields.quantity("height", RACK_HEIGHT, 1, 60)
        if base.kind == "cabinet":
            return {} if height is None else {"units": int(height)}
        if height is not None and height != int(height):
            node = fields.value("height")
            assert node is not None
            fields.wrong(node, f"'height' is a whole number of units such as '2U', not {describe(node)}")
            height = None
        if height is None and base.rack is None and "depth" not in fields:
            return {}
        rack = base.rack or RackForm(0, "none", NOT_SAID)
        width = fields.choice("width", ("full", "half", "none")) or (rack.width if rack.width != "none" else "full")
        depth = self._figure(fields, "depth", LENGTH) or rack.depth
        units = int(height) if height is not None else rack.height
        return {"rack": RackForm(units, width if units else "none", depth)}

    def jacks(self, key: str) -> tuple[JackSpec, ...] | None:
        """`{1-8: {family: rj45, rate: 1 Gb/s}}`; with one word after the colon, a passive jack of that family."""
        found: list[JackSpec] = []
        for text, key_node, value in self._fields.table(key):
            names = jack_names(text)
            if names is None:
                self._fields.wrong(key_node, f"'{clip(text)}' is no jack and no range of jacks such as '1-8' or 'sfp1-sfp2'")
                continue
            if isinstance(value, Scalar):
                spec = Fields(Mapping(value.file, value.line, value.column), self._faults, "a jack", ())
                family: str | None = as_text(value, self._faults, "a jack's family")
                if family is not None and family not in JACK_FAMILIES:
                    spec.wrong(value, f"'{clip(family)}' is no family of jacks{did_you_mean(family, JACK_FAMILIES)}")
                    family = None
                rate: Figure = Unknown("a passive jack has no rate of its own")
                side = "inside"
            else:
                spec = Fields(value, self._faults, "a jack", ("family", "rate", "side"))
                side = spec.choice("side", ("inside", "outside")) or "inside"
                family = spec.choice("family", JACK_FAMILIES)
                rate = self._figure(spec, "rate", RATE) or NOT_SAID
            if family is not None:
                found.extend(JackSpec(name, family, rate, "", side) for name in names)
        return tuple(found)

    def openings(self, key: str) -> tuple[JackSpec, ...] | None:
        """`{1-24: keystone}`: openings that jack modules fill."""
        found: list[JackSpec] = []
        passive = Unknown("a passive jack has no rate of its own")
        for text, key_node, value in self._fields.table(key):
            names = jack_names(text)
            opening = as_text(value, self._faults, "an opening")
            if names is None:
                self._fields.wrong(key_node, f"'{clip(text)}' is no range of jacks such as '1-24'")
            elif opening is not None:
                found.extend(JackSpec(name, "rj45", passive, opening) for name in names)
        return tuple(found)

    def passes(self, key: str) -> tuple[Pass, ...] | None:
        """`{line: {to: device, power: passes}}`"""
        found: list[Pass] = []
        for near, _, value in self._fields.table(key):
            spec = Fields(value, self._faults, "a pass", ("to", "power"))
            far = spec.text("to")
            power = spec.choice("power", ("passes", "blocks", "injects"))
            if far is not None and power is not None:
                found.append(Pass(near, far, power))
        return tuple(found)

    def _jack_list(self, fields: Fields) -> tuple[str, ...]:
        names: list[str] = []
        for text, node in fields.texts("jacks"):
            some = jack_names(text)
            if some is None:
                fields.wrong(node, f"'{clip(text)}' is no jack and no range of jacks such as '1-8'")
            else:
                names.extend(some)
        return tuple(names)

    def _poe_class(self, fields: Fields) -> Figure:
        node = fields.value("class")
        if node is None or (isinstance(node, Scalar) and node.text == _UNKNOWN):
            return NOT_SAID
        value = as_integer(node, self._faults, "'class'", 0, 8)
        return NOT_SAID if value is None else exactly(value, self._basis)

    def takes_poe(self, key: str) -> TakesPoe | None:
        fields = self._fields.below(key, "'takes-poe'", ("jacks", "class"))
        if fields is None:
            return None
        return TakesPoe(self._jack_list(fields) or ("1",), self._poe_class(fields))

    def gives_poe(self, key: str) -> GivesPoe | None:
        keys = ("jacks", "class", "budget", "counts", "when-fed", "efficiency")
        fields = self._fields.below(key, "'gives-poe'", keys)
        if fields is None or not fields.require("jacks"):
            return None
        return GivesPoe(
            self._jack_list(fields),
            self._poe_class(fields),
            self._figure(fields, "budget", POWER) or NOT_SAID,
            self._when_fed(fields),
            fields.choice("counts", ("class", "draw")) or NOT_SAID,
            NOT_SAID if (ratio := fields.number("efficiency", 0.1, 1.0)) is None else exactly(ratio, self._basis),
        )

    def _when_fed(self, fields: Fields) -> tuple[tuple[int, float], ...]:
        found: list[tuple[int, float]] = []
        for text, key_node, value in fields.table("when-fed"):
            granted = as_integer(key_node, self._faults, "the class that feeds it", 0, 8)
            power = as_quantity(value, self._faults, POWER, f"what it gives when fed by class {clip(text)}")
            if granted is not None and power is not None:
                found.append((granted, power))
        return tuple(sorted(found))

    def mains(self, key: str) -> Mains | None:
        fields = self._fields.below(key, "'mains'", ("inlet", "outlets"))
        if fields is None:
            return None
        inlet = fields.choice("inlet", ("none", "plug", "coupler", "adaptor")) or "none"
        return Mains("" if inlet == "none" else inlet, fields.integer("outlets", 0, 100) or 0)

    def cable(self, key: str) -> CableForm | None:
        keys = ("medium", "category", "gauge", "stranded", "screened", "conductor", "rating", "lengths", "family")
        fields = self._fields.below(key, "'cable'", keys)
        if fields is None or not fields.require("medium"):
            return None
        gauge = fields.integer("gauge", 10, 40)
        return CableForm(
            fields.choice("medium", ("copper", "fibre", "twinax", "mains")) or "copper",
            fields.text("category") or "",
            NOT_SAID if gauge is None else exactly(gauge, self._basis),
            fields.flag("stranded") or False,
            fields.flag("screened") or False,
            fields.choice("conductor", ("copper", "copper-clad-aluminium", "glass")) or "copper",
            fields.choice("rating", ("indoor", "outdoor", "buried")) or "indoor",
            self._lengths(fields),
            fields.choice("family", (*JACK_FAMILIES, "mains")) or "rj45",
        )

    def _lengths(self, fields: Fields) -> tuple[float, ...]:
        read = (as_quantity(node, self._faults, LENGTH, "'lengths'", 0.05, 5000) for node in fields.items("lengths"))
        return tuple(sorted(each for each in read if each is not None))

    def counts(self, key: str) -> tuple[tuple[str, int], ...] | None:
        """`{cage-nut-set-m6: 4}`"""
        found: list[tuple[str, int]] = []
        for name, _, value in self._fields.table(key):
            count = as_integer(value, self._faults, f"how many of '{clip(name)}'", 0, 100_000)
            if count:
                found.append((name, count))
        return tuple(found)


_READERS: dict[str, Any] = {
    "title": _PartReader.text,
    "note": _PartReader.text,
    "weight": _PartReader.mass,
    "draw": _PartReader.power,
    "price": _PartReader.money,
    "jacks": _PartReader.jacks,
    "openings": _PartReader.openings,
    "passes": _PartReader.passes,
    "takes-poe": _PartReader.takes_poe,
    "gives-poe": _PartReader.gives_poe,
    "mains": _PartReader.mains,
    "bridges": _PartReader.yes_no,
    "spanning-tree": _PartReader.yes_no,
    "vlan-aware": _PartReader.yes_no,
    "routes": _PartReader.yes_no,
    "cable": _PartReader.cable,
    "fits": _PartReader.text,
    "category": _PartReader.text,
    "usable-depth": _PartReader.length,
    "rails": _PartReader.text,
    "thread": _PartReader.text,
    "fixings": _PartReader.count,
    "pack": _PartReader.count,
    "in-box": _PartReader.counts,
    "needs": _PartReader.counts,
}
_ATTRIBUTES = {"openings": "jacks"}
