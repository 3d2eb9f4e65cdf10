"""Ids across a rename: an id as it would be if things bore the names that another plan gives them.

Takes an id and a table of ids of things (from `Build.renames`, one way or the other); gives the id with every name in it exchanged.
"""

from collections.abc import Mapping

from firstfix.build import ids

# Whose name it is that a path of this kind begins with.
_OWNER = {"jack": "device", "fitting": "cabinet", "mount": "cabinet", "units": "cabinet"}
_OF_TWO = frozenset({"link", "channel", "piece"})


def renamed(id_: str, names: Mapping[str, str]) -> str:
    """`id_` under other names.

    >>> names = {"device:core": "device:hub"}
    >>> renamed("jack:core/3", names), renamed("link:core--desk", names)
    ('jack:hub/3', 'link:desk--hub')
    """
    if not names:
        return id_
    direct = names.get(id_)
    if direct is not None:
        return direct
    kind, path = ids.kind(id_), ids.path(id_)
    if kind in _OF_TWO:
        return f"{kind}:{_between_two(kind, path, names)}"
    owner = _OWNER.get(kind)
    return f"{kind}:{_end(path, owner, names)}" if owner else id_


def backwards(names: Mapping[str, str]) -> dict[str, str]:
    return {old: new for new, old in names.items()}


def _end(path: str, owner: str, names: Mapping[str, str]) -> str:
    """`core/3`: the owner's name, and what of it."""
    name, slash, rest = path.partition("/")
    whole = f"{owner}:{name}"
    return ids.path(names.get(whole, whole)) + slash + rest


def _between_two(kind: str, path: str, names: Mapping[str, str]) -> str:
    """Two ends in the order of their names, as build.ids.link has them, then the ordinal; of a piece also its place in the chain."""
    path, slash, hop = path.rpartition("/") if kind == "piece" else (path, "", "")
    path, mark, ordinal = path.partition("#")
    low, high = sorted(_end(each, "device", names) for each in path.split("--"))
    return f"{low}--{high}{mark}{ordinal}{slash}{hop}"
