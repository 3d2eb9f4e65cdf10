"""Whether it fits: all rules on cabinets, shelves, pipes and cords of a stated length, in the order in which they are told."""

from firstfix.rules.cabinet_depth import cabinet_depth
from firstfix.rules.cabinet_doors import cabinet_front
from firstfix.rules.cabinet_fasteners import fastener_suits, screw_head, wall_fixings
from firstfix.rules.cabinet_fronts import door_opens, hinged_front
from firstfix.rules.cabinet_units import cabinet_height, cabinet_overlap, half_width
from firstfix.rules.cabinet_weight import cabinet_load, top_heavy
from firstfix.rules.cord_reach import cord_reach
from firstfix.rules.rule import Rule
from firstfix.rules.shelves import shelf_carries, shelf_load, shelf_space, shelf_ties
from firstfix.rules.way_fill import plug_in_way, way_fill

RULES: tuple[Rule, ...] = (
    cabinet_overlap,
    cabinet_height,
    half_width,
    cabinet_depth,
    cabinet_front,
    hinged_front,
    door_opens,
    fastener_suits,
    screw_head,
    wall_fixings,
    cabinet_load,
    top_heavy,
    shelf_carries,
    shelf_load,
    shelf_space,
    shelf_ties,
    way_fill,
    plug_in_way,
    cord_reach,
)
