"""The functions that answer questions, by their names. None of them looks at a drawing: they take a build and words out of the plan."""

from collections.abc import Callable, Mapping

from reader import cabinets, cabling, logical, power

TRUTHS: Mapping[str, Callable[..., str]] = {
    function.__name__: function
    for function in (
        cabinets.depth_left,
        cabinets.kept_free,
        cabinets.under,
        cabinets.unit_of,
        cabling.behind,
        cabling.both_ends,
        cabling.cables_in,
        cabling.cord_at,
        cabling.cord_colour,
        cabling.device_at,
        cabling.fill,
        cabling.free_jacks,
        cabling.in_line,
        cabling.jack_feeding,
        cabling.jack_feeding_farthest,
        cabling.kind_in,
        cabling.ways_behind,
        cabling.ways_to,
        cabling.whole_length,
        logical.address_of,
        logical.cost_to_root,
        logical.holder_of,
        logical.lent,
        logical.may_reach,
        logical.root,
        logical.standing_by,
        logical.vlan_number_of,
        logical.vlan_of_wireless,
        power.circuit_of,
        power.fed_at,
        power.holds_at_the_most,
        power.least_poe_left,
        power.left_of,
        power.outlet_of,
        power.poe_left,
        power.poe_source_of,
        power.thirstiest,
        power.untold_draws,
    )
}
