"""The rowing club, counted from drawings, wiring tables and checklist."""

# Runs, 25: panel-club/1 to /14, panel-boats/1 to /10, one fibre. Cords, 39: 37 of copper, 2 of fibre.
COUNT: dict[str, float] = {
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
    # The metal of both cabinets; added when the list got them, the count had not thought of it.
    "earth-kit-cabinet": 2,
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
