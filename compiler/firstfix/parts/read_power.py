"""How a part is powered and what it powers: PoE taken and given, mains inlet and outlets."""

from firstfix.parts.facts import NOT_SAID, Figure, exactly
from firstfix.parts.part import GivesPoe, Mains, TakesPoe
from firstfix.parts.read_jacks import jack_list
from firstfix.parts.reading import Reading
from firstfix.source.fields import as_integer, as_quantity
from firstfix.source.node import clip
from firstfix.units import POWER

# The classes of IEEE 802.3 Clauses 33 and 145.
LOWEST_CLASS, HIGHEST_CLASS = 0, 8


def takes_poe(reading: Reading, key: str) -> TakesPoe | None:
    """`{class: 3}`, at jack 1 unless `jacks` says otherwise."""
    table = reading.below(key, ("jacks", "class"))
    if table is None:
        return None
    at = jack_list(table, "jacks") if table.fields.value("jacks") is not None else ("1",)
    return TakesPoe(at, _poe_class(table))


def gives_poe(reading: Reading, key: str) -> GivesPoe | None:
    """`{jacks: 1-8, class: 4, budget: 120 W}`"""
    table = reading.below(key, ("jacks", "class", "budget", "counts", "when-fed", "efficiency"))
    if table is None or not table.fields.require("jacks"):
        return None
    return GivesPoe(
        jack_list(table, "jacks"),
        _poe_class(table),
        table.figure_or_unknown("budget", POWER),
        _when_fed(table),
        table.fields.choice("counts", ("class", "draw")) or NOT_SAID,
        table.ratio("efficiency") or NOT_SAID,
    )


def _poe_class(table: Reading) -> Figure:
    if table.says_unknown("class"):
        return NOT_SAID
    value = table.fields.integer("class", LOWEST_CLASS, HIGHEST_CLASS)
    return NOT_SAID if value is None else exactly(value, table.basis)


def _when_fed(table: Reading) -> tuple[tuple[int, float], ...]:
    """`{4: 15 W, 6: 40 W}`"""
    found: list[tuple[int, float]] = []
    for text, key_node, value in table.fields.table("when-fed"):
        what = "the class that feeds it"
        granted = as_integer(key_node, table.faults, what, LOWEST_CLASS, HIGHEST_CLASS)
        power = as_quantity(value, table.faults, POWER, f"what it gives when fed by class {clip(text)}")
        if granted is not None and power is not None:
            found.append((granted, power))
    return tuple(sorted(found))


def mains(reading: Reading, key: str) -> Mains | None:
    """`{inlet: plug, outlets: 8, rating: 2300 W}`"""
    table = reading.below(key, ("inlet", "outlets", "rating"))
    if table is None:
        return None
    inlet = table.fields.choice("inlet", ("none", "plug", "coupler", "adaptor")) or "none"
    outlets = table.fields.integer("outlets", 0, 100) or 0
    return Mains("" if inlet == "none" else inlet, outlets, table.figure_or_unknown("rating", POWER))
