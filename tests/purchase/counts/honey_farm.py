"""The honey farm, counted from drawings, wiring tables and checklist."""

# Runs of the drawing, 9: panel/1 to /4 (workroom, parlour, ap-house, names-1), surge-barn to surge-house,
# barn-switch/1 to /4 (ap-barn, two cameras, hive-scale). Cords of the wiring table, 13.
COUNT: dict[str, float] = {
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
    # The metal of both cabinets; added when the list got them, the count had not thought of it.
    "earth-kit-cabinet": 2,
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
