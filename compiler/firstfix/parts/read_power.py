"""How a part is powered and what it powers: PoE taken and given, mains inlet and outlets."""

from firstfix.parts.facts import NOT_SAID, Figure, exactly
from firstfix.parts.forms import COUPLERS, PLUGS, PROTECTIONS, SOCKETS
from firstfix.parts.part import GivesPoe, Mains, TakesPoe
from firstfix.parts.read_jacks import jack_list
from firstfix.parts.reading import Reading
from firstfix.source.fields import as_integer, as_quantity
from firstfix.source.node import clip
from firstfix.units import CURRENT, POWER

# The classes of IEEE 802.3 Clauses 33 and 145.
LOWEST_CLASS, HIGHEST_CLASS = 0, 8

_TAKES_KEYS = ("jacks", "class", "pairs", "least-class", "negotiates")


def takes_poe(reading: Reading, key: str, base: TakesPoe | None) -> TakesPoe | None:
    """`{class: 3}`, at jack 1 unless `jacks` says otherwise; laid over what `base` takes."""
    table = reading.below(key, _TAKES_KEYS)
    if table is None:
        return None
    form = base or TakesPoe(("1",), NOT_SAID)
    at = jack_list(table, "jacks") if table.fields.value("jacks") is not None else form.jacks
    return TakesPoe(
        at,
        _poe_class(table) or form.poe_class,
        _pairs(table) or form.pairs,
        table.count("least-class", LOWEST_CLASS, HIGHEST_CLASS) or form.least_class,
        form.negotiates if (negotiates := table.yes_no("negotiates")) is None else negotiates,
    )


_GIVES_KEYS = (
    "jacks", "class", "type", "pairs", "budget", "jack-limit", "counts", "when-fed", "efficiency",
    "negotiates",
)  # fmt: skip


def gives_poe(reading: Reading, key: str, base: GivesPoe | None) -> GivesPoe | None:
    """`{jacks: 1-8, class: 4, budget: 120 W}`, laid over what `base` gives."""
    table = reading.below(key, _GIVES_KEYS)
    if table is None or (base is None and not table.fields.require("jacks")):
        return None
    form = base or GivesPoe((), NOT_SAID, NOT_SAID, (), NOT_SAID, NOT_SAID)
    power_class = _poe_class(table) or form.poe_class
    if base is not None and power_class[:3] != form.poe_class[:3]:
        # Another class is another supply: what the base says of its Type, its pairs and one jack's watts is no longer true.
        form = form._replace(poe_type=NOT_SAID, pairs=NOT_SAID, jack_limit=NOT_SAID)
    return GivesPoe(
        jack_list(table, "jacks") if table.fields.value("jacks") is not None else form.jacks,
        power_class,
        table.figure("budget", POWER) or form.budget,
        _when_fed(table) if table.fields.value("when-fed") is not None else form.when_fed,
        table.word("counts", ("class", "draw")) or form.counts,
        table.ratio("efficiency") or form.efficiency,
        table.count("type", 1, 4) or form.poe_type,
        _pairs(table) or form.pairs,
        table.figure("jack-limit", POWER) or form.jack_limit,
        form.negotiates if (negotiates := table.yes_no("negotiates")) is None else negotiates,
    )


def _poe_class(table: Reading) -> Figure | None:
    return table.count("class", LOWEST_CLASS, HIGHEST_CLASS)


def _pairs(table: Reading) -> Figure | None:
    """Power goes over two pairs or over all four (IEEE 802.3, Clause 145)."""
    if table.says_unknown("pairs"):
        return NOT_SAID
    word = table.fields.choice("pairs", ("2", "4"))
    return None if word is None else exactly(int(word), table.basis)


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


_MAINS_KEYS = (
    "inlet", "inlets", "shape", "leakage", "blocks", "outlets", "sockets", "rating", "current", "protection",
    "surge",
)  # fmt: skip


def mains(reading: Reading, key: str, base: Mains) -> Mains | None:
    """`{inlet: plug, outlets: 8, rating: 2300 W}`, `{inlet: coupler, inlets: 2}`, `{inlet: unknown}`.

    Laid over what `base` says, unless it is another inlet: that is another supply.
    """
    table = reading.below(key, _MAINS_KEYS)
    if table is None:
        return None
    # Nobody knows how it is fed: neither here nor by PoE, and the rules say that they cannot tell.
    unknown = table.says_unknown("inlet")
    chosen = "none" if unknown else table.fields.choice("inlet", ("none", "plug", "coupler", "adaptor"))
    inlet = base.inlet if chosen is None else chosen.removeprefix("none")
    form = base if inlet == base.inlet else Mains(inlet, 0)
    outlets = table.fields.integer("outlets", 0, 100)
    # Two or more inlets, each with a supply of its own behind it; more than four nobody makes (from memory).
    inlets = table.fields.integer("inlets", 1, 4)
    return Mains(
        inlet,
        form.outlets if outlets is None else outlets,
        table.figure("rating", POWER) or form.rating,
        inlets or form.inlets,
        table.word("shape", COUPLERS if inlet == "coupler" else PLUGS) or form.shape,
        table.word("sockets", SOCKETS) or form.sockets,
        table.figure("current", CURRENT) or form.current,
        table.word("protection", PROTECTIONS) or form.protection,
        table.figure("leakage", CURRENT) or form.leakage,
        table.count("blocks", 0, 4) or form.blocks,
        form.surge if (surge := table.yes_no("surge")) is None else surge,
    )
