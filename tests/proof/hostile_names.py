"""Texts that somebody's plan could hold, and plans that hold them wherever a plan may say a text of its own."""

import copy
from typing import Any

from repo.editing import HONEY_FARM, read

TEXTS = {
    "markup": "<script>alert(1)</script>",
    "quotes": "\"it's\" & 'so' <b>bold</b> ]]> &#0; &lt;",
    "right to left": "דבורים · קומה 2",
    "right to left and joined": "بيت النحل والعسل",
    "combining marks": "Z\u0334\u031b\u033a\u032aa\u0335lgo Cafe\u0301 Vie\u0302\u0323t",
    "emoji": "🐝 honey 👍🏽 👨‍👩‍👧",
    "other writings": "蜂蜜 はちみつ 꿀벌 ผึ้ง मधु",
    "turned round": "\u202egnp.exe\u202c \u2066x",
    "200 letters": "W" * 200,
    "200 letters in words": "Wide shed " * 20,
    "control": "bell\u0007 and\u001b[31m red",
}
# IEEE 802.11: an SSID has at most 32 octets.
_LONGEST_SSID = 32
_LONGEST_NAME = 63


def plan_with(text: str) -> Any:
    """The honey farm with `text` as its name, its credit, the title of each part of its own, and what a unit is kept free for."""
    plan = copy.deepcopy(read(HONEY_FARM))
    plan["name"] = text
    plan["drawings"] = {"credit": text}
    for part in plan["parts"].values():
        part["title"] = text
    for slot in (slot for cabinet in plan["cabinets"].values() for slot in cabinet["layout"].values()):
        if isinstance(slot, dict) and "keep-free" in slot:
            slot["keep-free"] = text
    for network in plan["wifi"].values():
        if len(text.encode()) <= _LONGEST_SSID and text.isprintable():
            network["ssid"] = text
    return plan


def _long(word: str) -> str:
    return f"{word}-{'w' * _LONGEST_NAME}"[:_LONGEST_NAME]


def plan_of_long_names() -> Any:
    """Every name as long as a name may be, of wide letters."""
    name = {word: _long(word) for word in ("site", "house", "barn", "office", "store", "duct", "cabinet", "gateway", "core",
                                           "panel", "far", "camera", "till", "outlet", "tills", "cameras")}  # fmt: skip
    return {
        "name": _long("plan"),
        "sites": {
            name["site"]: {
                "buildings": {
                    name["house"]: {"rooms": {name["office"]: {"floor": 0, "mains": 4}}},
                    name["barn"]: {"rooms": {name["store"]: {"floor": 0, "mains": 4}}},
                }
            }
        },
        "ways": {
            name["duct"]: {
                "between": [name["office"], name["store"]],
                "length": "40 m",
                "kind": "buried-duct",
            }
        },
        "cabinets": {
            name["cabinet"]: {
                "room": name["office"],
                "part": "wall-cabinet-9u",
                "layout": {"9": name["gateway"], "8": name["core"], "7": name["panel"]},
            }
        },
        "vlans": {
            name["tills"]: {"id": 20, "subnet": "10.1.20.0/24"},
            name["cameras"]: {"id": 30, "subnet": "10.1.30.0/24"},
        },
        "devices": {
            name["gateway"]: {"part": "gateway-1u"},
            name["core"]: {"part": "switch-16-poe"},
            name["panel"]: {"part": "keystone-panel-24-1u"},
            name["far"]: {"part": "switch-8", "room": name["store"]},
            name["outlet"]: {"part": "wall-outlet-2", "room": name["office"]},
            name["till"]: {"part": "computer-desktop", "room": name["office"], "vlan": name["tills"]},
            name["camera"]: {"part": "camera", "room": name["store"], "vlan": name["cameras"]},
        },
        "links": [
            {"run": [name["gateway"], name["core"]]},
            {"run": [name["till"], f"{name['outlet']}/1", name["panel"], name["core"]]},
            {"run": [name["far"], name["panel"], name["core"]]},
            {"run": [name["camera"], name["far"]]},
        ],
    }
