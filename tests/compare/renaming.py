"""Every name of a plan exchanged, mechanically: sites, buildings, rooms, ways, cabinets, devices, VLANs, wireless networks.

`renamed` takes a plan as data and gives it with other names, its keys in another order; `with_was` says the old name on each of them.
"""

import random
from typing import Any, NamedTuple

_SECTIONS = ("sites", "buildings", "rooms", "ways", "cabinets", "vlans", "wifi", "devices")
# What in a plan names such a thing, by its key. A hop goes on with "/jack", a room may begin with "site/".
_NAMES = {
    "room", "between", "run", "plugs-into", "power", "carries", "over", "servers", "through", "spare-for", "along",
    "vlan", "tagged", "untagged", "reaches", "subject", "rooms", "earth", "device",
}  # fmt: skip
# Words of the plan language in those places.
_RESERVED = {"internet", "names", "own", "none"}


class Exchange(NamedTuple):
    """Old name to new one; one table for all kinds, so that what had one name before has one after."""

    names: dict[str, str]


def exchange(plan: Any, chance: random.Random) -> Exchange:
    """New names in no relation to the old ones, so that they sort otherwise."""
    found = sorted(set(_named(plan)))
    numbers = chance.sample(range(100, 100 + 3 * len(found)), len(found))
    return Exchange({name: f"thing-{number}-x" for name, number in zip(found, numbers, strict=True)})


def _named(node: Any) -> list[str]:
    if not isinstance(node, dict):
        return []
    found = []
    for key, value in node.items():
        if key in _SECTIONS and isinstance(value, dict):
            found += [str(name) for name in value]
        found += _named(value) if key in _SECTIONS or not isinstance(value, list) else []
    return found


def renamed(plan: Any, names: Exchange, chance: random.Random, *, with_was: bool) -> Any:
    """The plan with other names and its tables in another order."""
    return _renamed(plan, names.names, chance, "", with_was)


def _renamed(node: Any, names: dict[str, str], chance: random.Random, at: str, with_was: bool) -> Any:
    if isinstance(node, dict):
        holds_names = at in _SECTIONS
        entries = [
            (
                names[key] if holds_names else key,
                _with_was(_renamed(value, names, chance, "layout" if at == "layout" else key, with_was), key, with_was and holds_names),
            )
            for key, value in node.items()
        ]  # fmt: skip
        if at not in ("phases",):
            chance.shuffle(entries)
        return dict(entries)
    if isinstance(node, list):
        return [_renamed(each, names, chance, at, with_was) for each in node]
    return _called(node, names) if isinstance(node, str) and (at in _NAMES or at == "layout") else node


def _with_was(value: Any, old: str, is_said: bool) -> Any:
    return {**value, "was": old} if is_said and isinstance(value, dict) else value


def _called(text: str, names: dict[str, str]) -> str:
    """`core/3`, `farm/study`, `core/1-8`; and a piece, `barn-switch--core/2`, whose ends stand in the order of their names."""
    if text in _RESERVED:
        return text
    if "--" in text:
        path, slash, hop = text.partition("/")
        return "--".join(sorted(names.get(end, end) for end in path.split("--"))) + slash + hop
    return "/".join(names.get(part, part) for part in text.split("/"))
