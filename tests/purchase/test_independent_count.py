"""A count of what two plans need, made by hand from drawings, wiring tables and checklist alone, against the shopping list.

Each figure says how it was counted. Both ways: nothing that was counted is missing, and the list holds nothing that was not.
"""

from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan
from firstfix.purchase.needs import needs

_PLANS = Path(__file__).parents[2] / "plans"

# The farm. Runs of the drawing, 9: panel/1 to /4 (workroom, parlour, ap-house, names-1), surge-barn to surge-house,
# barn-switch/1 to /4 (ap-barn, two cameras, hive-scale). Cords of the wiring table, 13.
HONEY_FARM = {
    # One each by name, from the front of both cabinets and the network drawing; desk, parlour-set, line-box are there.
    "storage-2-bay": 1, "gateway-1u": 1, "injector-class-6": 1, "switch-16-poe": 1, "sensor-poe": 1, "barn-access-point": 1,
    "small-computer-poe": 1, "small-computer": 1, "switch-8-poe-fed": 1, "access-point": 1, "yard-camera": 2,
    "surge-protector": 2, "blank-panel-1u": 1, "keystone-panel-24-1u": 1, "power-strip-1u-8": 1, "wall-cabinet-6u": 1,
    "wall-cabinet-12u": 1,
    # Unit 12 of main and 6 of barn; the shelves at units 3 of main and 2 of barn.
    "brush-panel-1u": 2, "shelf-1u": 2,
    # Four corners of whatever has weight (gateway, core, strip, two shelves), 2 of each panel and cover (two brushes, panel, cover).
    "cage-nut-set-m6": 5 * 4 + 4 * 2,
    # Four for each cabinet.
    "wall-fixing": 8,
    # Metres, each run: ways + 2 m drop at each end (1 m at the hive stand; 0 for none) + rise to its unit at 44.45 mm + 3 m slack.
    # out-workroom 13.5+4+0.4+3, out-parlour 9+4+0.4+3, ap-house and names-1 6+4+0.4+3 each, ap-barn 5+4+0.133+3.
    "cat6-indoor": 76.23,
    # Both cameras: 5+8+4+0.133+3.
    "cat6-outdoor": 40.27,
    # surge-barn to surge-house: 38+4+0.133+3; hive-scale 14+2+1+0.133+3.
    "cat6-buried": 65.27,
    # Within a cabinet: gateway, store, names-2, injector and four panel jacks to core; surge-barn to barn-switch.
    "cord-cat6/1 m": 9,
    # In the room: line-box to gateway, desk and parlour-set to their outlets, surge-house to injector.
    "cord-cat6/2 m": 4,
    # Two outlets, each with its box in the wall.
    "wall-outlet-2": 2, "wall-box": 2,
    # A module at each end at the panel (4) and the outlets (2); as many labels for jacks.
    "jack-cat6": 6, "label-jack": 6,
    # Openings that no run comes to: 20 of the panel, one of each outlet.
    "opening-cover": 22,
    # Ends that are neither: ap-house, names-1, both ends between the surge protectors, both ends of four runs in the barn.
    "plug-cat6": 1 + 1 + 2 + 8,
    # Both protectors.
    "earth-kit": 2,
    # 22 pieces have 44 ends; three of them are outdoors (two cameras, hive-scale).
    "label-cable": 41, "label-outdoor": 3,
    # Indoors and bought, by name: the two cabinets; gateway, core, panel, strip, store, names-2, injector; surge-house, names-1,
    # ap-house; barn-switch, surge-barn, ap-barn.
    "label-cabinet": 2 + 7 + 3 + 3,
    # Two where a run comes into a cabinet: 4 at the panel, 1 at surge-barn, 4 at barn-switch. One for two cords: 10 cords in main,
    # 1 in barn.
    "tie-hook-and-loop": 2 * 9 + 5 + 1,
    # Holes between rooms indoors: skirting, stair-void, landing-run, barn-wall.
    "fire-stop-sealant": 4,
    # Ends of ducts in buildings: two of yard-duct, one of hive-path.
    "duct-seal": 3,
    # Where the two cameras' cables leave the barn.
    "gland-m16": 2,
    # 8 m, one each 0.3 m and one more: 28, for two cables.
    "cable-clip-outdoor-7": 56,
    # Trunking of 2 m: 5 for 9 m, 4 for 7.5 m, with four screws each. 14 m of duct in one coil of 25 m, with tape above.
    "trunking-40x25": 9, "wall-fixing-small": 36, "duct-32": 1, "warning-tape": 1,
}  # fmt: skip

# The club. Runs, 25: panel-club/1 to /14, panel-boats/1 to /10, one fibre. Cords, 39: 37 of copper, 2 of fibre.
ROWING_CLUB = {
    "end-device": 1, "camera": 3, "camera-pan-tilt": 1, "camera-outdoor": 2, "phone-poe": 1, "door-station": 2,
    "storage-4-bay": 1, "gateway-1u-10g": 1, "switch-24-poe": 2, "sensor-poe": 1, "small-computer": 2, "access-point-small": 1,
    "access-point": 4, "access-point-outdoor": 2, "blank-panel-1u": 1, "fibre-panel-12-1u": 2, "keystone-panel-12-1u": 1,
    "keystone-panel-24-1u": 1, "brush-panel-1u": 2, "cord-guide-panel-1u": 1, "shelf-1u": 1, "shelf-2u": 1, "wall-cabinet-9u": 1,
    "cabinet-club": 1, "power-strip-1u-8": 2,
    # core/sfp1 and boat-switch/sfp1.
    "sfp-lx": 2,
    # Four each: gateway, core, boat-switch, two fibre panels, two shelves, two strips. Two each: two brushes, two panels, cord guide,
    # cover.
    "cage-nut-set-m6": 9 * 4 + 6 * 2,
    "wall-fixing": 8,
    # Each way + 4 + 0.533 (unit 12) or 0.356 (unit 8) + 3: office 0 twice, bar 12 four times, hall 9 twice, committee 6, training 20
    # twice; workshop 0, boat-bay 11 three times, sail-loft 7: 11 x 7.533 + 5 x 7.356 + 112 + 40.
    "cat6-indoor": 271.64,
    # Three at the terrace (9+5+2+1+0.533+3), three at the slip (11+4+2+1+0.356+3).
    "cat6-outdoor": 125.67,
    # Two at the gate: 22+2+1+0.356+3.
    "cat6-buried": 56.71,
    # 64+4+0.4+0.267+3.
    "fibre-os2-buried": 71.67,
    # panel-club to core 14, panel-boats to boat-switch 10, gateway to core, names-2 to boat-switch.
    "cord-cat6/1 m": 26,
    # From the shelf at units 3 to 7 up to core.
    "cord-cat6/1.5 m": 2,
    # line-box to gateway, eight things at outlets.
    "cord-cat6/2 m": 9,
    "cord-lc-os2/1 m": 2,
    # 2-fold outlets in office, committee, training, workshop; the 4-fold one in the bar; a box for each.
    "wall-outlet-2": 4, "wall-outlet-4": 1, "wall-box": 5,
    # 14 and 10 at the panels, 8 at outlets.
    "jack-cat6": 32,
    # As many, and one at each fibre panel.
    "label-jack": 34,
    # 10 of 24, 2 of 12, and one in bar, committee, training, workshop.
    "opening-cover": 16,
    # 7 devices at panel-club and 9 at panel-boats have their run end in a plug.
    "plug-cat6": 16,
    # Two fibres at each end of the one run.
    "pigtail-lc-os2": 4, "splice-protector": 4,
    # 64 pieces, 128 ends, 8 of them outdoors: 3 on the terrace, 3 at the slip, 2 at the gate.
    "label-cable": 120, "label-outdoor": 8,
    # Two cabinets; main: gateway, core, two panels, strip, store, names-1; boats: switch, two panels, strip, names-2; about the house:
    # till-2, bar-phone, three access points, cam-hall; in the boathouse two access points, two cameras.
    "label-cabinet": 2 + 7 + 5 + 6 + 4,
    # Two at each of 14 + 10 + 2 ends in cabinets. Cords in main: 14 + 4 + 1 of fibre; in boats: 10 + 1 + 1 of fibre.
    "tie-hook-and-loop": 2 * 26 + 10 + 6,
    # bar-trunking, hall-trunking, club-riser, upper-run, bay-trunking, loft-riser.
    "fire-stop-sealant": 6,
    # slipway-duct at both ends, gate-duct at the workshop.
    "duct-seal": 3,
    # Three cables through the terrace wall, three through the front wall.
    "gland-m16": 6,
}  # fmt: skip


@pytest.mark.parametrize(("plan", "counted"), [("honey-farm", HONEY_FARM), ("rowing-club", ROWING_CLUB)])
def test_the_list_is_what_was_counted(plan: str, counted: dict[str, float]) -> None:
    build = compile_plan(_PLANS / f"{plan}.yaml", f"{plan}.yaml").build
    assert build is not None
    listed = {each.id.partition(":")[2]: round(each.amount.needed, 2) for each in needs(build)}
    assert listed == counted
