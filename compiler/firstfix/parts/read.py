"""A part out of a table of a YAML file: the library and a plan's `parts:` are read by the same rules."""

from collections import ChainMap
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from firstfix.finding.collector import Collector
from firstfix.finding.model import Cure, Label
from firstfix.parts import read_forms, read_jacks, read_power
from firstfix.parts.consistency import inconsistencies
from firstfix.parts.facts import BASES
from firstfix.parts.forms import WIRES
from firstfix.parts.needed_facts import missing_facts, said
from firstfix.parts.part import KINDS, RAILS, Library, Part, RackForm
from firstfix.parts.read_groups import GROUPS, read_groups
from firstfix.parts.reading import Reading
from firstfix.source.doubt import leave_out
from firstfix.source.fields import Fields, as_integer, check_name
from firstfix.source.kinds import KEY_MISSING
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Mapping, Node, Scalar, clip, is_null
from firstfix.units import LENGTH, MASS, POWER

# Parts come from strangers too, and a range of jacks is short to write. 4,000 kinds of switch have fewer.
MOST_JACKS_IN_ALL = 200_000
# A line for people holds about so many.
_NAMED_TOGETHER = 5
_STATE_THEM = Cure("state each, 'unknown' where nobody knows it, or make the part 'like' one that states it")


def read_parts(table: Node, known: Library, faults: Collector, basis: str) -> dict[str, Part]:
    """The parts of one `parts:` table. `like` may name a part of `known` or another one in the same table."""
    found: dict[str, Part] = {}
    so_far = ChainMap(found, known)  # type: ignore[arg-type]  # It is only read.
    jacks = 0
    holder = Fields(table, faults, "'parts'", table.entries if isinstance(table, Mapping) else ())
    for name in _models_first(holder.entries):
        key, value = holder.entries[name]
        if name.startswith("x-") or not check_name(name, key, faults):
            continue
        part = _part(name, key, value, so_far, faults, basis)
        if part is None:
            leave_out(key, faults)
            continue
        found[name] = part
        jacks += len(part.jacks) if _has_own_jacks(value) else 0
        if jacks > MOST_JACKS_IN_ALL:
            message = (
                f"with this one, the parts have more than {MOST_JACKS_IN_ALL:,} jacks; the rest is not read"
            )
            holder.wrong(key, message)
            break
    return found


def _models_first(entries: dict[str, tuple[Scalar, Node]]) -> Iterator[str]:
    """In an order in which each name comes after the one that it is like; in a ring of them, one is told that there is none."""
    met: set[str] = set()
    for name in entries:
        chain: list[str] = []
        while name in entries and name not in met:
            met.add(name)
            chain.append(name)
            name = _like(entries[name][1])
        yield from reversed(chain)


def _like(node: Node) -> str:
    model = node.value("like") if isinstance(node, Mapping) else None
    return model.text if isinstance(model, Scalar) else ""


def _fields(name: str, node: Node, faults: Collector) -> Fields:
    return Fields(node, faults, f"the part '{clip(name)}'", PART_KEYS)


def _has_own_jacks(node: Node) -> bool:
    return isinstance(node, Mapping) and ("jacks" in node.entries or "openings" in node.entries)


def _part(name: str, key: Scalar, node: Node, known: Library, faults: Collector, basis: str) -> Part | None:
    faults_before = _fault_count(faults)
    reading = Reading(_fields(name, node, faults), faults, basis)
    if not isinstance(node, Mapping) and not is_null(node):
        return None
    reading.basis = reading.fields.choice("basis", BASES) or reading.basis
    base = _base(name, known, reading)
    if base is None:
        return None
    changes: dict[str, Any] = {}
    for part_key, (attribute, read) in _READERS.items():
        # A key without a value leaves what the part is like.
        value = read(reading, part_key) if reading.fields.value(part_key) is not None else None
        if value is not None:
            changes[attribute] = value
    for part_key, (attribute, read_over) in _OVER.items():
        if reading.fields.value(part_key) is not None:
            value = read_over(reading, part_key, getattr(base, attribute))
            changes.update({} if value is None else {attribute: value})
    changes.update(read_forms.rack(reading, base))
    if _is_between_rails(changes.get("rack", base.rack)) and not _is_between_rails(base.rack):
        # What the part is like stands by itself, and this one does not.
        changes["size"] = None
    changes.update(read_groups(reading, base))
    part = replace(base, **changes)
    part = replace(part, said=said(base, part, node))
    # After a fault the whole may disagree only because a piece of it was left out.
    if _fault_count(faults) == faults_before:
        _report_inconsistencies(part, key, reading.fields)
    if _fault_count(faults) == faults_before:
        _report_missing(part, known.get(part.like), key, faults)
    return part


def _is_between_rails(rack: RackForm | None) -> bool:
    return rack is not None and rack.height > 0


def _fault_count(faults: Collector) -> int:
    return len(faults.findings) + faults.dropped


def _report_inconsistencies(part: Part, name: Scalar, fields: Fields) -> None:
    if fields.value("jacks") is not None and fields.value("openings") is not None:
        fields.wrong(
            fields.entries["openings"][0], f"the part '{part.name}' has 'jacks' or 'openings', not both"
        )
    for key, message in inconsistencies(part):
        fields.wrong(fields.value(key) or name, message)


def _report_missing(part: Part, model: Part | None, name: Scalar, faults: Collector) -> None:
    """One fault for all that the part leaves out, so that its author can mend it in one go.

    What the part that it is like leaves out too was told there.
    """
    missing = tuple(missing_facts(part))
    if missing and model is not None:
        told = set(missing_facts(model))
        missing = tuple(each for each in missing if each not in told)
    if missing:
        first, *further = (
            missing[at : at + _NAMED_TOGETHER] for at in range(0, len(missing), _NAMED_TOGETHER)
        )
        more = f" and {len(missing) - len(first)} more facts" if further else ""
        message = f"the part '{part.name}' of kind '{part.kind}' does not say {_listed(first)}{more}"
        faults.add(
            KEY_MISSING,
            message,
            name.span,
            related=tuple(Label(None, f"nor {_listed(each)}") for each in further),
            cures=(_STATE_THEM,),
        )


def _listed(facts: tuple[str, ...]) -> str:
    return ", ".join(f"'{each}'".replace(" or ", "' or '") for each in facts)


def _says_kind(fields: Fields) -> bool:
    if fields.value("kind") is None and "kind" not in fields.tried:
        fields.missing("'like: PART', the part that it is like, or 'kind'")
        return False
    return fields.value("kind") is not None


def _base(name: str, known: Library, reading: Reading) -> Part | None:
    """What the part begins as: like another, or nothing but its kind."""
    fields = reading.fields
    title = name.replace("-", " ")
    like = fields.text("like")
    if like is None:
        if fields.value("like") is not None or not _says_kind(fields):
            return None
        kind = fields.choice("kind", KINDS)
        return None if kind is None else Part(name, kind, title, reading.basis)
    if like not in known:
        _, node = fields.entries["like"]
        hint = did_you_mean(like, known) if reading.faults.may_hint() else ""
        fields.wrong(node, f"there is no part '{clip(like)}' to be like{hint}")
        return None
    model = known[like]
    kind = fields.choice("kind", KINDS) or model.kind
    return replace(model, name=name, title=title, basis=reading.basis, like=like, kind=kind)


def _text(reading: Reading, key: str) -> str | None:
    return reading.fields.text(key)


def _rails(reading: Reading, key: str) -> str | None:
    return reading.fields.choice(key, RAILS)


def _wire(reading: Reading, key: str) -> Any:
    return reading.word(key, WIRES)


def _fixings(reading: Reading, key: str) -> int | None:
    return reading.fields.integer(key, 0, 1000)


def _pack(reading: Reading, key: str) -> int | None:
    return reading.fields.integer(key, 1, 100_000)


def _power(reading: Reading, key: str) -> Any:
    return reading.figure(key, POWER)


def _mass(reading: Reading, key: str) -> Any:
    return reading.figure(key, MASS)


def _length(reading: Reading, key: str) -> Any:
    return reading.figure(key, LENGTH)


def _counts(reading: Reading, key: str) -> tuple[tuple[str, int], ...]:
    """`{cage-nut-set-m6: 4}`"""
    found: list[tuple[str, int]] = []
    for name, _, value in reading.fields.table(key):
        count = as_integer(value, reading.faults, f"how many of '{clip(name)}'", 0, 100_000)
        if count:
            found.append((name, count))
    return tuple(found)


# Key of the table, attribute of the part, and what reads the one into the other.
_READERS: dict[str, tuple[str, Callable[[Reading, str], Any]]] = {
    "title": ("title", _text),
    "note": ("note", _text),
    "weight": ("weight", _mass),
    "draw": ("draw", _power),
    "price": ("price", Reading.price),
    "jacks": ("jacks", read_jacks.jacks),
    "openings": ("jacks", read_jacks.openings),
    "passes": ("passes", read_jacks.passes),
    "bridges": ("bridges", Reading.yes_no),
    "spanning-tree": ("spanning_tree", Reading.yes_no),
    "vlan-aware": ("vlan_aware", Reading.yes_no),
    "routes": ("routes", Reading.yes_no),
    "fits": ("fits", _text),
    "category": ("category", _text),
    "screened": ("screened", Reading.yes_no),
    "wire": ("wire", _wire),
    "spacing": ("spacing", _length),
    "usable-depth": ("usable_depth", _length),
    "outside": ("outside", read_forms.outside),
    "rails": ("rails", _rails),
    "thread": ("thread", _text),
    "fixings": ("fixings", _fixings),
    "pack": ("pack", _pack),
    "in-box": ("in_box", _counts),
    "needs": ("needs", _counts),
}
# The same, for tables that are laid over what the part is like.
_OVER: dict[str, tuple[str, Callable[[Reading, str, Any], Any]]] = {
    "takes-poe": ("takes_poe", read_power.takes_poe),
    "gives-poe": ("gives_poe", read_power.gives_poe),
    "mains": ("mains", read_power.mains),
    "cable": ("cable", read_forms.cable),
}
PART_KEYS = ("kind", "like", "basis", *read_forms.FORM_KEYS, *_READERS, *_OVER, *GROUPS)
