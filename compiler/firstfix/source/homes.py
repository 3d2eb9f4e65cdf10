"""Where a key belongs that stands in the wrong table, and which key of ours a common word stands for.

Both are hints for messages only. A test holds the places against the readers' own lists of keys.
"""

from collections.abc import Collection, Mapping

# Key by place, in the order in which places are offered. NAME stands for a name of the author's own.
PLACES: Mapping[str, tuple[str, ...]] = {
    "devices: NAME": ("host", "mac", "plugs-into", "poe-priority", "power", "vlan"),
    "an entry of 'links'": ("run", "lanes", "spare-for", "along", "untagged", "rate", "cord"),
    "vlans: NAME": ("id", "subnet", "gateway", "dhcp", "reaches"),
    "ways: NAME": ("between", "bore"),
    "sites: NAME": ("rooms", "buildings", "earth", "altitude"),
    "rooms: NAME": ("floor", "outdoors", "mains", "circuit", "size", "position", "walls", "ambient"),
    "cabinets: NAME": ("layout", "above-floor", "clear-in-front"),
    "a unit of a cabinet's 'layout'": ("fit", "carries", "keep-free", "over", "heat", "face"),
    "wifi: NAME": ("ssid",),
    "names": ("domain", "servers"),
    "cabling": ("slack", "dressing", "desk-cord", "cords", "spares", "direct-attach", "colours"),
    "phases: NAME": ("by", "budget"),
    "circuits: NAME": ("rating", "volts"),
    "internet": ("through", "addresses", "translates"),
    "an entry of 'exceptions'": ("rule", "subject", "reason"),
    "parts: NAME": (
        "like", "title", "price", "draw", "depth", "weight", "jacks", "gives-poe", "takes-poe", "basis", "height",
    ),
}  # fmt: skip

# Words that people write, and the keys that they may mean; the first that the table has counts.
_MEANT: Mapping[str, tuple[str, ...]] = {
    "address": ("host",), "ip": ("host",), "ip-address": ("host",), "addr": ("host",), "network": ("subnet",), "net": ("subnet",),
    "cidr": ("subnet",), "vid": ("id",), "tag": ("id", "tagged"), "number": ("id", "host"), "lease": ("dhcp",), "leases": ("dhcp",),
    "model": ("part",), "type": ("part", "kind"), "product": ("part",), "where": ("room",), "location": ("room",), "in": ("room",),
    "from": ("run", "between"), "to": ("run", "between"), "ends": ("run", "between"), "path": ("run", "along"), "hops": ("run",),
    "connects": ("run", "between"), "plug": ("plugs-into",), "plugs": ("plugs-into",), "connected-to": ("plugs-into",),
    "port": ("plugs-into",), "uplink": ("plugs-into",), "vlans": ("tagged", "reaches"), "max": ("most",), "maximum": ("most",),
    "min": ("least",), "minimum": ("least",), "usual": ("typical",), "average": ("typical",), "have": ("owned",), "own": ("owned",),
    "color": ("colour",), "colors": ("colours",), "metres": ("length",), "distance": ("length",), "level": ("floor",),
    "storey": ("floor",), "sockets": ("mains",), "outlets": ("mains",), "allows": ("reaches",), "comment": ("note",),
    "notes": ("note",), "description": ("note",), "cost": ("price",), "why": ("reason",), "name": ("ssid", "title"),
    "pass": ("passphrase",), "router": ("gateway",), "units": ("layout",), "slots": ("layout",), "supply": ("power",),
    "fed-by": ("power",), "date": ("by", "start"), "until": ("by",), "category": ("indoor", "cable"), "watts": ("draw",),
}  # fmt: skip

# Words for what is said in another way altogether.
_SAID_OTHERWISE: Mapping[str, str] = {
    "poe": "a part says what it gives and takes ('gives-poe', 'takes-poe'); a device has none to set",
    "unit": "the unit is said in the 'layout' of its cabinet",
    "u": "the unit is said in the 'layout' of its cabinet",
    "cabinet": "a device is put into a cabinet by that cabinet's 'layout'",
    "rack": "a device is put into a cabinet by that cabinet's 'layout'",
    "cable": "parts of cables are said by use: 'indoor', 'outdoor', 'buried', 'fibre', and 'cords'",
    "wpa-key": "a plan holds no passphrase; key it in at the device",
}


def meant_key(key: str, keys: Collection[str]) -> str:
    """The key of this table that a common word stands for, or nothing.

    >>> meant_key("ip", ("part", "host")), meant_key("ip", ("part",))
    ('host', '')
    """
    return next((each for each in _MEANT.get(_plain(key), ()) if each in keys), "")


def said_otherwise(key: str) -> str:
    """A clause on how else that is said, or nothing."""
    told = _SAID_OTHERWISE.get(_plain(key), "")
    return f"; {told}" if told else ""


def elsewhere(key: str) -> str:
    """A clause on where the key belongs, or nothing.

    >>> elsewhere("subnet"), elsewhere("frobnicate")
    ("; it belongs under 'vlans: NAME'", '')
    """
    word = _plain(key)
    places = [place for place, keys in PLACES.items() if word in keys]
    if not places:
        return ""
    place = places[0] if "'" in places[0] else f"'{places[0]}'"
    return f"; it belongs {'in' if 'entry' in place or 'unit' in place else 'under'} {place}"


def _plain(key: str) -> str:
    return key.lower().replace("_", "-").replace(" ", "-")
