"""Every rule, in one explicit table of families. A test fails if a rule isn't in it.

A family is what somebody looks for together: `explain` and the page of rules list by it, and each has one plan in plans/bad/.
"""

from typing import NamedTuple

from firstfix.rules import (
    addresses,
    air,
    air_rooms,
    air_space,
    backup,
    between_earths,
    cabinets,
    cable_choice,
    channels,
    exposure,
    feeds,
    internet,
    kept,
    labels,
    layer2,
    link_rate,
    mains_loads,
    mains_outlets,
    mains_plugs,
    membership,
    orphans,
    outdoor_jackets,
    phase_order,
    phase_support,
    poe,
    poe_budget,
    poe_bundles,
    poe_in_line,
    shops,
    sold_out,
    spare_links,
    unpowered,
    unsettled,
    vlans,
)
from firstfix.rules.rule import Rule


class Family(NamedTuple):
    title: str
    rules: tuple[Rule, ...]


FAMILIES: tuple[Family, ...] = (
    Family("what cannot be settled", unsettled.RULES),
    Family("loose ends", (*orphans.RULES, *phase_order.RULES, *phase_support.RULES, *labels.RULES)),
    Family("cabinets", cabinets.RULES),
    Family("air and heat", (*air.RULES, *air_rooms.RULES, *air_space.RULES)),
    Family("loops", (*layer2.RULES, *spare_links.RULES)),
    Family("VLANs", (*vlans.RULES, *membership.RULES)),
    Family("addresses", (*addresses.RULES, *internet.RULES)),
    Family("power over Ethernet", (*poe.RULES, *poe_budget.RULES, *poe_bundles.RULES, *poe_in_line.RULES)),
    Family(
        "power from the mains",
        (
            *unpowered.RULES,
            *feeds.RULES,
            *mains_loads.RULES,
            *mains_outlets.RULES,
            *mains_plugs.RULES,
            *backup.RULES,
        ),
    ),
    Family(
        "cables and channels",
        (*channels.RULES, *link_rate.RULES, *cable_choice.RULES, *exposure.RULES, *outdoor_jackets.RULES),
    ),
    Family("between buildings", between_earths.RULES),
    Family("kept choices", kept.RULES),
    Family("shops", (*shops.RULES, *sold_out.RULES)),
)

ALL_RULES: tuple[Rule, ...] = tuple(each for family in FAMILIES for each in family.rules)
