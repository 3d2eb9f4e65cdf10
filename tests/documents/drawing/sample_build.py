"""A farm with a second building: what most tests of the drawings look at. Everything in it is invented."""

from documents.drawing.sketch import (
    ACCESS_POINT,
    BRUSH,
    CAMERA,
    GATEWAY,
    HINGED,
    INJECTOR,
    OUTLET,
    SHELF,
    SMALL_COMPUTER,
    STORAGE,
    STRIP,
    SURGE,
    UPS,
    Sketch,
    panel,
    switch,
)  # fmt: skip
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed


def farm() -> Build:
    """Fifteen devices on the network, one cabinet of 12 units, a buried way to the honey house, two sheets at the most."""
    sketch = Sketch()
    office = sketch.room("honey-farm", "farmhouse", "office")
    parlour = sketch.room("honey-farm", "farmhouse", "parlour")
    loft = sketch.room("honey-farm", "farmhouse", "loft")
    yard = sketch.room("honey-farm", "farmhouse", "yard", outdoors=True)
    store = sketch.room("honey-farm", "honey-house", "store")
    riser = sketch.way("riser", office, loft, 7, "riser")
    skirting = sketch.way("skirting", office, parlour, 9, "trunking")
    wall = sketch.way("north-wall", office, yard, 12, "clipped outdoors")
    duct = sketch.way("yard-duct", office, store, 41, "buried duct", joins=True)
    main = sketch.cabinet("main", office, 12)

    shelf = sketch.fitting(SHELF, main, 4, 6)
    sketch.fitting(BRUSH, main, 12)
    sketch.device("gateway", GATEWAY, office, main)
    sketch.device("panel", panel(24), office, main)
    sketch.device("core", switch(16), office, main)
    sketch.device("storage", STORAGE, office, main, shelf)
    sketch.device("injector", INJECTOR, office, main, shelf)
    sketch.device("names-1", SMALL_COMPUTER, office, main, shelf)
    sketch.device("strip", STRIP, office, main)
    sketch.device("ups", UPS, office)
    sketch.mount(main, "device:gateway", 11)
    sketch.mount(main, "device:panel", 9)
    sketch.mount(main, "device:core", 8)
    sketch.mount(main, "device:strip", 1)
    sketch.keep_free(main, 10, 10, "10 Gb/s switch")
    sketch.fitting(HINGED, main, 1, over=True)

    sketch.device("out-parlour", OUTLET, parlour)
    sketch.device("out-loft", OUTLET, loft)
    sketch.device("desk", SMALL_COMPUTER, parlour)
    sketch.device("screen", SMALL_COMPUTER, parlour)
    sketch.device("ap-loft", ACCESS_POINT, loft)
    sketch.device("cam-gate", CAMERA, yard)
    sketch.device("cam-yard", CAMERA, yard)
    sketch.device("surge-house", SURGE, office)
    sketch.device("surge-store", SURGE, store)
    sketch.device("store-switch", switch(8, name="switch-8", title="Switch, 8 jacks, fed by PoE"), store)
    sketch.device("ap-store", ACCESS_POINT, store)
    sketch.device("cam-hives", CAMERA, store)
    sketch.device("scales", SMALL_COMPUTER, store)
    sketch.device("old-printer", SMALL_COMPUTER, parlour)

    sketch.wire("gateway/1", "core/16")
    sketch.wire("names-1", "core/14", lengths=(0.5,))
    sketch.wire("storage", "core/15", lengths=(0.5,))
    sketch.wire("desk", "out-parlour/1", "panel/1", "core/1", lengths=(2, 17.5, 0.5), route=(skirting,))
    sketch.wire("screen", "out-parlour/2", "panel/2", "core/2", lengths=(2, 17.5, 0.5), route=(skirting,))
    sketch.wire(
        "ap-loft", "out-loft/1", "panel/3", "core/3", lengths=(1, 14.2, 0.5), route=(riser,), watts=12.5
    )
    sketch.wire("cam-gate", "panel/4", "core/4", lengths=(22.3, 0.5), route=(wall,), watts=6.1)
    sketch.wire("cam-yard", "panel/5", "core/5", lengths=(0, 0.5), route=(wall,), watts=6.1)
    sketch.wire(
        "store-switch/8", "surge-store", "surge-house", "panel/16", "injector", "core/9",
        lengths=(0.5, 53.4, 1, 0.5, 0.5), route=(duct,), watts=22, part="cat6-outdoor",
    )  # fmt: skip
    sketch.wire("ap-store", "store-switch/1", lengths=(3,), watts=10)
    sketch.wire("cam-hives", "store-switch/2", lengths=(5,), watts=5.4)
    sketch.wire("scales", "store-switch/3", lengths=(2,))
    sketch.feeds += [
        MainsFeed("device:gateway", "device:strip", 1),
        MainsFeed("device:core", "device:strip", 2),
    ]
    sketch.feeds += [
        MainsFeed("device:strip", "device:ups", 1),
        MainsFeed("device:ups", "room:honey-farm/office", 1),
    ]
    return sketch.build()


def estate(sites: int = 3, devices_each: int = 14) -> Build:
    """Some sites of three buildings each, a switch in each building: enough that one sheet can't hold it."""
    sketch = Sketch("estate")
    for site in (f"farm-{index}" for index in range(1, sites + 1)):
        rooms = [sketch.room(site, name, f"{site}-{name}") for name in ("house", "barn", "shop")]
        for room, name in zip(rooms, ("house", "barn", "shop"), strict=True):
            sketch.device(f"{site}-{name}-switch", switch(24), room)
            for index in range(1, devices_each + 1):
                part = CAMERA if index % 3 else SMALL_COMPUTER
                sketch.device(f"{site}-{name}-{index}", part, room)
                watts = 6.5 if index % 3 else 0
                sketch.wire(
                    f"{site}-{name}-{index}", f"{site}-{name}-switch/{index}", lengths=(12.5,), watts=watts
                )
        sketch.device(f"{site}-gateway", GATEWAY, rooms[0])
        sketch.wire(f"{site}-gateway/1", f"{site}-house-switch/24")
        for room, name, jack in zip(rooms[1:], ("barn", "shop"), (1, 2), strict=True):
            duct = sketch.way(f"{site}-{name}-duct", rooms[0], room, 60, "buried duct", joins=True)
            sketch.wire(
                f"{site}-house-switch/sfp{jack}", f"{site}-{name}-switch/sfp1",
                lengths=(71.5,), route=(duct,), part="fibre-buried",
            )  # fmt: skip
        sketch.wire(
            f"{site}-barn-switch/sfp2", f"{site}-shop-switch/sfp2", lengths=(90,), part="fibre-buried",
            spare_for=f"{site}-house-switch/sfp1", lanes=1,
        )  # fmt: skip
    return sketch.build()


def school() -> Build:
    """One building, a ring of four 48-jack switches with every jack wired through panels, one tall cabinet with faults in it."""
    sketch = Sketch("school")
    server_room = sketch.room("school", "main", "server-room")
    hall = sketch.room("school", "main", "hall")
    sketch.way("tray", server_room, hall, 30, "ceiling")
    tall = sketch.cabinet("tall", server_room, 42)
    for number in range(1, 5):
        sketch.device(f"switch-{number}", switch(48), server_room, tall)
        sketch.device(f"panel-{number}", panel(48), server_room, tall)
        sketch.mount(tall, f"device:switch-{number}", 40 - 3 * number)
        sketch.mount(tall, f"device:panel-{number}", 41 - 3 * number)
        for jack in range(1, 47):
            sketch.device(f"place-{number}-{jack}", SMALL_COMPUTER if jack % 2 else CAMERA, hall)
            sketch.wire(
                f"place-{number}-{jack}", f"panel-{number}/{jack}", f"switch-{number}/{jack}",
                lengths=(33, 0.5), route=("way:tray",), watts=0 if jack % 2 else 6,
            )  # fmt: skip
    sketch.device("gateway", GATEWAY, server_room, tall)
    sketch.mount(tall, "device:gateway", 42)
    sketch.wire("gateway/1", "switch-1/47")
    for number in range(1, 5):
        following = number % 4 + 1
        spare = "switch-1/sfp1" if number == 4 else ""
        sketch.wire(f"switch-{number}/sfp1", f"switch-{following}/sfp2", part="fibre-buried", spare_for=spare)
    sketch.device("strip-front", STRIP, server_room, tall)
    sketch.device("strip-rear", STRIP, server_room, tall)
    sketch.mount(tall, "device:strip-front", 3)
    sketch.mount(tall, "device:strip-rear", 3, face="rear")
    sketch.device("first", STORAGE, server_room, tall)
    sketch.device("second", STORAGE, server_room, tall)
    sketch.mount(tall, "device:first", 5, 6)
    sketch.mount(tall, "device:second", 6, 7)
    sketch.keep_free(tall, 9, 12, "a server that is promised for the autumn")
    return sketch.build()
