"""A workshop that grows in two phases: an office with an outlet and a strip for its desks, then a camera outdoors. Nothing goes down."""

from copy import deepcopy

from changeover.networks import Plan

_ROOMS = {
    "store": {"mains": 8},
    "studio": {"mains": 4},
    "yard": {"outdoors": True, "drop": "1 m"},
}
_WAYS = {
    "floor-riser": {"between": ["store", "studio"], "length": "6 m", "kind": "riser"},
    "yard-wall": {"between": ["store", "yard"], "length": "4 m", "kind": "wall"},
}


def small() -> Plan:
    return {
        "sites": {"works": {"rooms": deepcopy(_ROOMS)}},
        "ways": deepcopy(_WAYS),
        "devices": {
            "gateway": {"part": "gateway-1u", "room": "store"},
            "main": {"part": "switch-24-poe", "room": "store"},
            "panel": {"part": "keystone-panel-24-1u", "room": "store"},
            "out-1": {"part": "wall-outlet-2", "room": "studio"},
            "first-desk": {"part": "computer-desktop", "room": "studio", "power": "wall"},
        },
        "links": [{"run": ["gateway/1", "main/1"]}, {"run": ["first-desk", "out-1/1", "panel/1", "main/2"]}],
        "phases": {"office": {}, "eyes": {}},
    }


def grown() -> Plan:
    """Names are such that the order of the alphabet is the wrong one nearly everywhere."""
    plan = small()
    office, eyes = {"phase": "office"}, {"phase": "eyes"}
    plan["devices"] |= {
        "a-camera": {"part": "camera-outdoor", "room": "yard", **eyes},
        "a-desk": {"part": "computer-desktop", "room": "studio", "power": "d-strip", **office},
        "b-desk": {"part": "computer-desktop", "room": "studio", "power": "d-strip", **office},
        "c-outlet": {"part": "wall-outlet-4", "room": "studio", **office},
        "a-laptop": {"part": "computer-desktop", "room": "studio", "power": "d-strip", **office},
        "d-phone": {"part": "phone-poe", "room": "studio", **office},
        "d-strip": {"part": "power-strip-desk-4", "room": "studio", **office},
    }
    plan["links"] += [
        {"run": ["a-camera", "panel/4", "main/5"], **eyes},
        {"run": ["a-desk", "c-outlet/1", "panel/2", "main/3"], **office},
        {"run": ["a-laptop", "d-phone"], **office},
        {"run": ["d-phone", "c-outlet/3", "panel/5", "main/6"], **office},
        {"run": ["b-desk", "c-outlet/2", "panel/3", "main/4"], **office},
    ]
    return plan
