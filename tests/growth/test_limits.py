"""Each kind of limit has a plan in which it is the first; the number is reckoned by hand beside it."""

from collections.abc import Callable
from pathlib import Path

import pytest

from growth.networks import Data, clean, grown, home, unchanged

Change = Callable[[Data], None]


def _poe(**facts: object) -> Change:
    return lambda plan: plan["parts"]["by-class"]["gives-poe"].update(facts)


def _box(**facts: object) -> Change:
    return lambda plan: plan["parts"]["box"].update(facts)


def _vlan(name: str, **facts: object) -> Change:
    return lambda plan: plan["vlans"][name].update(facts)


def _part(device: str, part: str) -> Change:
    return lambda plan: plan["devices"][device].update(part=part)


def _bore(width: str) -> Change:
    return lambda plan: plan["ways"]["duct"].update(bore=width)


def _kept_free(plan: Data) -> None:
    plan["cabinets"]["main"]["layout"] |= {
        "13": {"keep-free": "a router"},
        "3-7": {"keep-free": "a second shelf"},
    }


def _weak_strip(plan: Data) -> None:
    plan["parts"]["weak"] = {"like": "power-strip-1u-8", "mains": {"rating": "65 W"}}
    plan["devices"]["strip"]["part"] = "weak"
    plan["devices"]["core"]["power"] = "wall"


def _weak_circuit(plan: Data) -> None:
    plan["circuits"] = {"lights": {"rating": "2 A", "volts": "230 V"}}
    plan["mains"] = {"volts": "230 V", "plug": "F"}
    plan["sites"]["home"]["rooms"]["study"]["circuit"] = "lights"
    plan["parts"]["box"]["draw"] = "100 W"
    plan["devices"]["core"]["part"] = "switch-24-managed"
    plan["devices"] = {name: each for name, each in plan["devices"].items() if name not in ("cam", "ap")}
    plan["links"] = [each for each in plan["links"] if each["run"][0] not in ("cam", "ap")]


def _at_the_wall(plan: Data) -> None:
    plan["parts"]["box"] |= {"mains": {"inlet": "plug", "shape": "local", "leakage": "0.1 mA"}}
    plan["devices"]["store"]["power"] = "wall"


def _warm(plan: Data) -> None:
    plan["cabinets"]["main"]["cooling"] = "closed"
    plan["parts"]["box"]["draw"] = "60 W"


CASES = {
    # 100 W by class: 15.4 W of the camera and 30 W of the access point are given; three more are 91.6 W, four 107 W.
    "PoE budget": (_poe(budget="100 W"), "cameras", 3, "poe-budget"),
    # Of four jacks that give PoE the camera and the access point have two.
    "jacks giving PoE": (_poe(jacks="1-4"), "cameras", 2, "unpowered"),
    # Of 24 jacks, gateway, store, camera, access point and desk have five.
    "jacks of the switch": (unchanged, "wired-places", 19, "jacks-exhausted"),
    # Of twelve openings, three are wired.
    "openings of the panel": (_part("panel", "keystone-panel-12-1u"), "wired-places", 9, "jacks-exhausted"),
    # A cable of 6.1 mm takes 9.3 % of a bore of 20 mm, and 40 % may be filled: four cables, of which one is there.
    "bore": (_bore("20 mm"), "cameras", 3, "way-fill"),
    # Unit 2 is the only one that is neither used nor kept free.
    "units": (_kept_free, "cabinet-height", 1, "cabinet-overlap"),
    # Each store takes 20 W at its most: three are 60 W of 65 W, four 80 W.
    "load of the strip": (_weak_strip, "storage", 2, "strip-load"),
    # Eight outlets hold the switch's plug and three adaptors that cover one outlet each; a fourth covers what is beyond the row.
    "outlets of the strip": (unchanged, "storage", 3, "outlets-covered"),
    # Of six outlets of the room, the strip, the gateway and the store have three.
    "outlets of the room": (_at_the_wall, "storage", 3, "mains-outlets"),
    # 20 °C in the room, 29.3 °C inside with one store of 60 W: 10.7 K to 40 °C, and each further one adds half of that.
    "warmth": (_warm, "storage", 1, "cabinet-heat"),
    # Of fourteen hosts of a /28 the gateway's, the switch's, the store's, the desk's and the access point's are taken.
    "addresses": (_vlan("home", subnet="10.9.10.0/28"), "access-points", 9, "addresses-exhausted"),
    # Three are lent, and the camera borrows one.
    "leases": (_vlan("eyes", dhcp="100-102"), "cameras", 2, "leases"),
    # 430 mm between the rails hold two of 150 mm with the air that they want beside them, not three.
    "width of the shelf": (_box(size={"width": "150 mm", "height": "80 mm"}), "storage", 1, "shelf-space"),
    # The shelf bears 12 kg.
    "load of the shelf": (_box(weight="4 kg"), "storage", 2, "shelf-load"),
    # 80 % of 2 A at 230 V are 368 W for hours: switch 14 W, gateway 8 W and three stores of 100 W are 322 W.
    "load of the circuit": (_weak_circuit, "storage", 2, "circuit-load"),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_first_limit(case: str, tmp_path: Path) -> None:
    change, what, more, rule = CASES[case]
    found = grown(clean(tmp_path, home(change)), what)
    assert (found.more, found.first[0].rule) == (more, rule), found
    assert found.is_exact
    assert not found.is_least
