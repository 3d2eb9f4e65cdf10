"""A device taken away from a plan's tree, with what is nothing without it: the runs that end in it, and its place in a cabinet.

What else names it stays, and becomes a finding: a run that only passes through it, a strip that others are fed by.
"""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.series import SeriesReader, members
from firstfix.source.node import Mapping, Node, Scalar, Sequence


def without_device(tree: Mapping, name: str) -> Mapping:
    """`tree`, in which `devices` has lost the entry `name` already."""
    entries = dict(tree.entries)
    for key, change in (("links", _links), ("cabinets", _cabinets)):
        if key in entries:
            at, value = entries[key]
            entries[key] = (at, change(value, name))
    return tree.holding(entries)


def _links(node: Node, name: str) -> Node:
    if not isinstance(node, Sequence):
        return node
    return node.holding([kept for item in node.items for kept in _kept(item, name)])


def _kept(item: Node, name: str) -> Iterator[Node]:
    """A link that does not end in the device; one for several devices is written out if it does for one of them."""
    ends = list(_ends(item))
    if not any(".." in end for end in ends):
        if name not in map(_device, ends):
            yield item
    elif not any(_stands_for(_device(end), name) for end in ends):
        yield item
    else:
        for single in SeriesReader(Collector()).steps(item, "run"):
            if name not in map(_device, _ends(single)):
                yield single


def _ends(item: Node) -> Iterator[str]:
    run = item.value("run") if isinstance(item, Mapping) else None
    hops = run.items if isinstance(run, Sequence) else []
    for hop in hops[:1] + hops[1:][-1:]:
        if isinstance(hop, Scalar):
            yield hop.text


def _device(place: str) -> str:
    return place.partition("/")[0]


def _stands_for(text: str, name: str) -> bool:
    return name in members(text) if ".." in text else text == name


def _cabinets(node: Node, name: str) -> Node:
    if not isinstance(node, Mapping):
        return node
    entries = dict(node.entries)
    for key, (at, cabinet) in entries.items():
        layout = cabinet.value("layout") if isinstance(cabinet, Mapping) else None
        if isinstance(cabinet, Mapping) and isinstance(layout, Mapping):
            units = {
                unit: (place, left)
                for unit, (place, value) in layout.entries.items()
                if (left := _mounted(value, name)) is not None
            }
            own = cabinet.entries["layout"][0]
            entries[key] = (
                at,
                cabinet.holding({**cabinet.entries, "layout": (own, layout.holding(units))}),
            )
    return node.holding(entries)


def _mounted(node: Node, name: str) -> Node | None:
    """What is left of some units without the device; None for nothing."""
    if isinstance(node, Scalar):
        return None if node.text == name else node
    if isinstance(node, Sequence):
        items = [left for each in node.items if (left := _mounted(each, name)) is not None]
        return node.holding(items) if items else None
    assert isinstance(node, Mapping)
    device = node.value("device")
    if isinstance(device, Scalar) and device.text == name:
        return None
    entries = dict(node.entries)
    for key in ("carries", "over", "front", "rear"):
        if key in entries:
            at, value = entries.pop(key)
            left = _mounted(value, name)
            if left is not None:
                entries[key] = (at, left)
    return node.holding(entries) if entries else None
