"""A plan of about as many devices as one likes: an invented boarding school of many houses, each like the others and none the same.

Houses differ as real ones do: more or fewer bedrooms, a second floor or a third, a music room here, a laundry there, a longer way
from the main house. Nothing is random: the same count gives the same text. Sound: no rule finds an error or a warning in it.
Takes the number of devices; gives the plan's text.
"""

from collections.abc import Iterator
from typing import NamedTuple

# The houses are named for trees; there are no more of them than trees.
_TREES = (
    "alder", "ash", "beech", "birch", "cedar", "cherry", "elder", "elm", "fir", "hazel", "holly", "larch", "lime", "maple", "oak",
    "pear", "pine", "plum", "rowan", "spruce", "walnut", "willow", "yew",
)  # fmt: skip
# Devices in the main house, and on average in one of the others.
_IN_MAIN, _IN_HOUSE = 19, 64
_EXTRAS = ("music", "laundry", "games", "workshop")

_HEAD = """# An invented plan, written by a program: a boarding school of {count} houses.
name: Boarding school
start: 2027-07-05
currency: EUR
mains: {{plug: F, volts: 230 V}}
vlans:
  staff:    {{id: 10, subnet: 10.96.0.0/23, dhcp: 100-500, reaches: [internet, names]}}
  pupils:   {{id: 20, subnet: 10.97.0.0/20, dhcp: 100-4000, reaches: [internet, names]}}
  phones:   {{id: 30, subnet: 10.98.0.0/23, reaches: [internet, names]}}
  cameras:  {{id: 40, subnet: 10.98.2.0/23, reaches: [names]}}
  building: {{id: 50, subnet: 10.98.4.0/23, reaches: [names]}}
  manage:   {{id: 99, subnet: 10.98.6.0/23, reaches: [internet, names, phones, cameras, building]}}
names: {{domain: school.home.arpa, servers: [names-1, names-2]}}
wifi:
  staff:  {{ssid: Houses staff, vlan: staff}}
  pupils: {{ssid: Houses pupils, vlan: pupils}}
defaults:
  access-point: {{vlan: manage, tagged: [staff, pupils]}}
  switch:       {{vlan: manage}}
  camera:       {{vlan: cameras}}
  phone:        {{vlan: phones}}
parts:
  core-switch:
    like: switch-8-10g
    title: Switch, 1 unit, 24 cages at 10 Gb/s, with VLANs
    jacks: {{sfp1-sfp24: {{family: sfp-plus, rate: 10 Gb/s}}}}
  house-cabinet: {{like: wall-cabinet-15u, title: Wall cabinet with a meshed door, cabinet: {{front: meshed door}}, price: 190}}
  main-cabinet:  {{like: floor-cabinet-24u, title: Standing cabinet with a meshed door, cabinet: {{front: meshed door}}, price: 420}}
"""

_MAIN = """  net-room: {floor: 0, mains: 8}
  office:   {floor: 0, mains: 8}
  hall:     {floor: 0, mains: 4}
"""

_MAIN_DEVICES = """  line-box:     {part: line-box, room: net-room, owned: true}
  gateway:      {part: gateway-1u-10g, vlan: manage}
  core:         {part: core-switch, host: 2}
  main-1:       {part: switch-48-poe, host: 3}
  panel-main:   {part: keystone-panel-24-1u}
  fibre-main-1..2: {part: fibre-panel-12-1u}
  strip-main:   {part: power-strip-1u-8}
  names-1..2:   {part: small-computer, vlan: manage, host: 53}
  out-office-1..2: {part: wall-outlet-2, room: office}
  desk-office-1..4: {part: computer-desktop, room: office, vlan: staff, owned: true}
  ap-office:    {part: access-point, room: office, plugs-into: [panel-main, main-1]}
  ap-hall:      {part: access-point, room: hall, plugs-into: [panel-main, main-1]}
"""

_MAIN_LINKS = """  - {run: [line-box, gateway/wan]}
  - {run: [gateway/sfp1, core/sfp24]}
  - {run: [main-1/sfp1, core/sfp23]}
  - {run: [names-1..2, main-1]}
  - {run: [desk-office-1..2, out-office-1/1..2, panel-main, main-1]}
  - {run: [desk-office-3..4, out-office-2/1..2, panel-main, main-1]}
"""


class House(NamedTuple):
    """One of them: its number from 1, and what it has."""

    number: int
    name: str
    floors: int
    bedrooms: int
    extra: str

    def floor_of(self, bedroom: int) -> int:
        return bedroom % self.floors

    @property
    def duct(self) -> int:
        """Metres from the main house."""
        return 45 + 23 * self.number % 170


def houses(devices: int) -> tuple[House, ...]:
    """So many that there are about `devices`."""
    count = max(1, round((devices - _IN_MAIN) / _IN_HOUSE))
    if count > len(_TREES):
        raise ValueError(f"at most {len(_TREES)} houses")
    return tuple(
        House(number, name, 2 + number % 2, 12 + 2 * (number % 3), _EXTRAS[number % len(_EXTRAS)])
        for number, name in enumerate(_TREES[:count], 1)
    )


def boarding_school(devices: int) -> str:
    """The plan's text."""
    every = houses(devices)
    sections = {
        "sites": ["  school:", "    buildings:", "      main:", "        rooms:", *_indented(_MAIN, 8)],
        "ways": [
            "  office-way: {between: [net-room, office], length: 9 m}",
            "  hall-way:   {between: [net-room, hall], length: 14 m}",
        ],
        "cabinets": list(_main_cabinet()),
        "devices": _MAIN_DEVICES.splitlines(),
        "links": _MAIN_LINKS.splitlines(),
    }
    for house in every:
        sections["sites"] += _rooms(house)
        sections["ways"] += _ways(house)
        sections["cabinets"] += _cabinet(house)
        sections["devices"] += _devices(house)
        sections["links"] += _links(house)
    body = [line for name, lines in sections.items() for line in (f"{name}:", *lines)]
    return _HEAD.format(count=len(every)) + "\n".join(body) + "\n"


def _indented(text: str, by: int) -> list[str]:
    return [" " * by + line for line in text.splitlines()]


def _main_cabinet() -> Iterator[str]:
    yield "  main: {room: net-room, part: main-cabinet, layout: {24: {fit: brush-panel-1u}, 23: fibre-main-1, 22: fibre-main-2, 21: gateway,"
    yield "    20: core, 19: main-1, 18: panel-main, 14-16: {fit: shelf-1u, carries: names-1..2}, 1: strip-main}}"


def _rooms(house: House) -> Iterator[str]:
    name = house.name
    yield f"      {name}:"
    yield "        rooms:"
    yield f"          {name}-closet: {{floor: 0, mains: 4}}"
    for floor in range(house.floors):
        yield f"          {name}-hall-{floor}: {{floor: {floor}, mains: 2}}"
    for bedroom in range(1, house.bedrooms + 1):
        yield f"          {name}-bed-{bedroom}: {{floor: {house.floor_of(bedroom)}, mains: 4}}"
    yield f"          {name}-common: {{floor: 0, mains: 8}}"
    yield f"          {name}-warden: {{floor: 0, mains: 6}}"
    yield f"          {name}-{house.extra}: {{floor: 0, mains: 6}}"
    yield f"          {name}-porch: {{floor: 0, outdoors: true, drop: 1 m}}"


def _ways(house: House) -> Iterator[str]:
    name = house.name
    yield f"  {name}-duct: {{between: [net-room, {name}-closet], length: {house.duct} m, kind: buried-duct, bore: 75 mm}}"
    for floor in range(house.floors):
        kind, length = ("riser", 3 + 3 * floor) if floor else ("ceiling", 4)
        yield f"  {name}-up-{floor}: {{between: [{name}-closet, {name}-hall-{floor}], length: {length} m, kind: {kind}}}"
    for bedroom in range(1, house.bedrooms + 1):
        hall = f"{name}-hall-{house.floor_of(bedroom)}"
        yield f"  to-{name}-bed-{bedroom}: {{between: [{hall}, {name}-bed-{bedroom}], length: {4 + 3 * (bedroom // house.floors)} m}}"
    for room, length in (("common", 12), ("warden", 7), (house.extra, 10 + house.number % 5)):
        yield f"  to-{name}-{room}: {{between: [{name}-hall-0, {name}-{room}], length: {length} m}}"
    yield f"  {name}-porch-wall: {{between: [{name}-hall-0, {name}-porch], length: 5 m, kind: wall}}"


def _cabinet(house: House) -> Iterator[str]:
    name = house.name
    yield f"  {name}: {{room: {name}-closet, part: house-cabinet, layout: {{15: {{fit: brush-panel-1u}}, 14: {name}-fibre,"
    yield f"    13: {name}-panel-1, 12: {name}-switch, 11: {name}-panel-2, 2: {name}-ups}}}}"


def _devices(house: House) -> Iterator[str]:
    name, beds = house.name, house.bedrooms
    wired = f"plugs-into: [{name}-panel-1, {name}-switch]"
    yield f"  {name}-switch: {{part: switch-48-poe, host: {10 + house.number}, power: {name}-ups}}"
    yield f"  {name}-panel-1..2: {{part: keystone-panel-24-1u}}"
    yield f"  {name}-fibre: {{part: fibre-panel-12-1u}}"
    yield f"  {name}-ups: {{part: ups-1u, power: wall}}"
    yield f"  {name}-out-1..{beds}: {{part: wall-outlet-2, room: {name}-bed-1..{beds}}}"
    yield f"  {name}-desk-1..{beds}: {{part: computer-desktop, room: {name}-bed-1..{beds}, vlan: pupils, owned: true}}"
    yield f"  {name}-heat-1..{beds}: {{part: sensor-hub-poe, room: {name}-bed-1..{beds}, vlan: building}}"
    for floor in range(house.floors):
        yield f"  {name}-ap-{floor}: {{part: access-point, room: {name}-hall-{floor}, {wired}}}"
        yield f"  {name}-clock-{floor}: {{part: clock-poe, room: {name}-hall-{floor}, vlan: building, {wired}}}"
        yield f"  {name}-cam-{floor}: {{part: camera, room: {name}-hall-{floor}, {wired}}}"
    yield f"  {name}-cam-porch: {{part: camera-outdoor, room: {name}-porch, {wired}}}"
    yield f"  {name}-door: {{part: door-reader-poe, room: {name}-porch, vlan: building, {wired}}}"
    yield f"  {name}-out-common: {{part: wall-outlet-4, room: {name}-common}}"
    yield f"  {name}-screen: {{part: screen-large, room: {name}-common, vlan: pupils}}"
    yield f"  {name}-look-up: {{part: computer-desktop, room: {name}-common, vlan: pupils, owned: true}}"
    yield f"  {name}-out-warden: {{part: wall-outlet-2, room: {name}-warden}}"
    yield f"  {name}-warden-desk: {{part: computer-desktop, room: {name}-warden, vlan: staff, owned: true}}"
    yield f"  {name}-phone: {{part: phone-poe, room: {name}-warden}}"
    yield f"  {name}-ap-{house.extra}: {{part: access-point-small, room: {name}-{house.extra}, {wired}}}"


def _links(house: House) -> Iterator[str]:
    name, beds = house.name, house.bedrooms
    jack = 1 + (house.number - 1) // 12, 1 + (house.number - 1) % 12
    rest = f"{name}-panel-2, {name}-switch"
    yield f"  - {{run: [core/sfp{house.number}, fibre-main-{jack[0]}/{jack[1]}, {name}-fibre/1, {name}-switch/sfp1]}}"
    half = beds // 2
    first, second = f"{name}-panel-1, {name}-switch", rest
    for low, high, panel in ((1, half, first), (half + 1, beds, second)):
        yield f"  - {{run: [{name}-desk-{low}..{high}, {name}-out-{low}..{high}/1, {panel}]}}"
    yield f"  - {{run: [{name}-heat-1..{beds}, {name}-out-1..{beds}/2, {rest}]}}"
    yield f"  - {{run: [{name}-screen, {name}-out-common/1, {first}]}}"
    yield f"  - {{run: [{name}-look-up, {name}-out-common/2, {first}]}}"
    yield f"  - {{run: [{name}-warden-desk, {name}-out-warden/1, {first}]}}"
    yield f"  - {{run: [{name}-phone, {name}-out-warden/2, {first}]}}"
