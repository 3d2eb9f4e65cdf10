"""A plan of 10,000 devices and 30,000 links, as text: a made-up campus, for measuring only.

Every workplace is three links: a cord from the computer to an outlet, an installed run to a panel, a cord on to a switch. Each floor has
its own cabinets; each building's switches hang on one building switch, those on a core.
"""

WORKPLACES_PER_FLOOR = 44


def big_plan(devices: int) -> str:
    """A plan with about `devices` devices and three times as many links.

    A floor of 44 computers, of which 18 use both of their jacks, has 62 runs: 16 outlets, 2 panels and 2 switches.
    """
    floors = max(1, round(devices / 64.4))
    lines = ["name: Campus", "vlans:"]
    lines += [f"  net-{number}: {{id: {number + 10}, subnet: 10.{number}.0.0/16}}" for number in range(8)]
    lines += [
        "cabling: {jacks: jack-cat6}",
        "parts:",
        "  two-jack-computer: {like: computer-desktop, jacks: {1-2: {family: rj45, rate: 1 Gb/s}}}",
    ]
    lines += [
        "  floor-switch: {like: switch-24, jacks: {1-48: {family: rj45, rate: 1 Gb/s}}, vlan-aware: true, spanning-tree: true}"
    ]
    lines += ["  hub-switch: {like: floor-switch, jacks: {1-512: {family: rj45, rate: 1 Gb/s}}}"]
    lines += ["  wide-panel: {like: keystone-panel-24-1u, openings: {1-48: keystone}}"]
    lines += ["sites:", "  campus:", "    rooms:", "      hub: {}"]
    lines += [f"      floor-{floor}: {{}}" for floor in range(floors)]
    lines += [f"      closet-{floor}: {{}}" for floor in range(floors)]
    lines += ["ways:"]
    for floor in range(floors):
        lines.append(
            f"  trunking-{floor}: {{between: [floor-{floor}, closet-{floor}], length: {20 + floor % 40} m, kind: trunking}}"
        )
        lines.append(
            f"  riser-{floor}: {{between: [closet-{floor}, hub], length: {10 + floor % 60} m, kind: riser}}"
        )
    lines += [
        "devices:",
        "  core: {part: hub-switch, room: hub, vlan: net-0}",
        "  router: {part: gateway-1u, room: hub, vlan: net-0}",
    ]
    links = ["links:", "  - {run: [router/1, core/512]}"]
    for floor in range(floors):
        _floor(floor, lines, links)
    return "\n".join(lines + links) + "\n"


def _floor(floor: int, lines: list[str], links: list[str]) -> None:
    for number in range(2):
        lines.append(f"  switch-{floor}-{number}: {{part: floor-switch, room: closet-{floor}, vlan: net-0}}")
        lines.append(f"  panel-{floor}-{number}: {{part: wide-panel, room: closet-{floor}}}")
        links.append(f"  - {{run: [switch-{floor}-{number}/48, core/{2 * floor + number + 1}]}}")
    for number in range(16):
        lines.append(f"  outlet-{floor}-{number}: {{part: floor-outlet-4, room: floor-{floor}}}")
    run = 0
    for number in range(WORKPLACES_PER_FLOOR):
        computer = f"computer-{floor}-{number}"
        address = f"02:00:5e:{floor // 256:02x}:{floor % 256:02x}:{number:02x}"
        lines.append(
            f"  {computer}: {{part: two-jack-computer, room: floor-{floor}, vlan: net-{1 + number % 7}, "
            f"mac: '{address}', phase: move-{floor % 4}, note: desk {number + 1} at window {number // 4 + 1}}}"
        )
        for jack in (1, 2) if number < 18 else (1,):
            outlet = f"outlet-{floor}-{run // 4}/{run % 4 + 1}"
            panel = f"panel-{floor}-{run // 31}/{run % 31 + 1}"
            links.append(f"  - {{run: [{computer}/{jack}, {outlet}]}}")
            links.append(
                f"  - {{run: [{outlet}, {panel}], note: tested on day {floor % 20 + 1} as {floor}.{run + 1}}}"
            )
            links.append(f"  - {{run: [{panel}, switch-{floor}-{run // 31}/{run % 31 + 1}]}}")
            run += 1
