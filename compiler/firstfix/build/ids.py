"""Ids: a kind and the author's own path, stable when lines move. Unnamed things are named by their ends and an ordinal."""

import re


def site(name: str) -> str:
    return f"site:{name}"


def building(site_name: str, name: str) -> str:
    return f"building:{site_name}/{name}"


def room(site_name: str, name: str) -> str:
    return f"room:{site_name}/{name}"


def way(name: str) -> str:
    return f"way:{name}"


def cabinet(name: str) -> str:
    return f"cabinet:{name}"


def device(name: str) -> str:
    return f"device:{name}"


def jack(device_name: str, jack_name: str, face: str = "front") -> str:
    """A panel's or an outlet's jack has a front, for the cord, and a rear, for the installed run."""
    return f"jack:{device_name}/{jack_name}" + ("" if face == "front" else "@rear")


def link(first: str, last: str, ordinal: int) -> str:
    """Written either way round, a link has the same id. `first` and `last` are the ends as written, `core` or `core/3`."""
    low, high = (first, last) if first <= last else (last, first)
    return f"link:{low}--{high}" + (f"#{ordinal}" if ordinal > 1 else "")


def mount(cabinet_id: str, low: int, high: int, face: str = "front", side: str = "") -> str:
    """What is mounted in these units; at the rear, or at the right of two side by side, it says so."""
    where = "".join(f"-{each}" for each in (face, side) if each not in ("front", "", "left"))
    return f"mount:{path(cabinet_id)}/{low}-{high}{where}"


def piece(link_id: str, hop: int, lane: int) -> str:
    return f"piece:{path(link_id)}/{hop}" + (f".{lane}" if lane > 1 else "")


def vlan(name: str) -> str:
    return f"vlan:{name}"


def circuit(name: str) -> str:
    return f"circuit:{name}"


def own_step(name: str) -> str:
    return f"step:{name}"


def path(id_: str) -> str:
    """The author's own words for an id: `device:core` is `core`."""
    return id_.partition(":")[2]


def kind(id_: str) -> str:
    return id_.partition(":")[0]


NaturalKey = tuple[tuple[bool, int, str], ...]


def natural(text: str) -> NaturalKey:
    """A sort key by which cam-2 comes before cam-10, and panel/2 before panel/10."""
    # Not isdigit(), which takes "²" for a digit; and Python reads no number of more than 4,300 of them.
    parts = re.split(r"([0-9]+)", text)
    return tuple(
        (False, int(each[:4000]), each) if at % 2 else (True, 0, each) for at, each in enumerate(parts)
    )
