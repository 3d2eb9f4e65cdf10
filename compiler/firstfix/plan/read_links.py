"""`links:` and each device's `plugs-into:`: ordered chains of what a run touches."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.parts.numbering import jack_names
from firstfix.plan.model import DeviceSpec, HopSpec, LinkSpec, Written
from firstfix.source import kinds
from firstfix.source.fields import Fields
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe
from firstfix.units import RATE

_LINK_KEYS = (
    "run", "lanes", "spare-for", "along", "tagged", "untagged", "cable", "cord", "rate", "phase", "note",
)  # fmt: skip
_PLAIN_KEYS = {"run", "note"}
MOST_HOPS = 40
# A device and a range of jacks, with room to spare: longer ones are no names, and would fill the messages.
_LONGEST_HOP = 200


def read_links(fields: Fields, devices: tuple[DeviceSpec, ...], faults: Collector) -> Iterator[LinkSpec]:
    node = fields.value("links")
    if node is not None and not isinstance(node, Sequence):
        fields.wrong(
            node,
            f"'links' is a list of runs such as '- {{run: [desk, panel/3, core]}}', not {describe(node)}",
        )
    elif node is not None:
        for item in node.items:
            link = _read_link(item, faults)
            if link is not None:
                yield link
    for device in devices:
        link = _plugs_into(device, faults)
        if link is not None:
            yield link


def _read_link(node: Node, faults: Collector) -> LinkSpec | None:
    fields = Fields(node, faults, "a link", _LINK_KEYS)
    if not fields.require("run"):
        return None
    hops = _read_run(fields, fields.items("run"), faults)
    if hops is None:
        return None
    if fields.entries.keys() <= _PLAIN_KEYS:
        return LinkSpec(hops, 1, "", (), None, None, "", "", None, "", Written(None, node))
    return LinkSpec(
        hops,
        fields.integer("lanes", 1, 8) or 1,
        fields.text("spare-for") or "",
        tuple(text for text, _ in fields.texts("along")),
        tuple(text for text, _ in fields.texts("tagged")) if "tagged" in fields else None,
        fields.text("untagged"),
        fields.text("cable") or "",
        fields.text("cord") or "",
        fields.quantity("rate", RATE, 1, 800_000),
        fields.text("phase") or "",
        Written(None, node),
    )


def _plugs_into(device: DeviceSpec, faults: Collector) -> LinkSpec | None:
    node = device.written.node
    if not isinstance(node, Mapping) or "plugs-into" not in node.entries:
        return None
    fields = Fields(node, faults, "", node.entries)
    onward = _read_run(fields, fields.items("plugs-into"), faults, least=1)
    if onward is None or device.written.key is None:
        return None
    value = fields.value("plugs-into")
    assert value is not None
    hops = (HopSpec(device.name, "", device.name, device.written.key), *onward)
    return LinkSpec(hops, 1, "", (), None, None, "", "", None, device.phase, Written(None, value))


def _read_run(
    fields: Fields, items: tuple[Node, ...], faults: Collector, least: int = 2
) -> tuple[HopSpec, ...] | None:
    hops = [hop for item in items if (hop := read_hop(item, faults)) is not None]
    if len(hops) < len(items):
        return None
    if not least <= len(hops) <= MOST_HOPS:
        wanted = "what it goes to" if least == 1 else "at least its two ends"
        fields.wrong(
            fields.node, f"a run names {wanted}, and at most {MOST_HOPS} places; this one names {len(hops)}"
        )
        return None
    return tuple(hops)


def read_hop(node: Node, faults: Collector) -> HopSpec | None:
    """`core`, `core/3`, `core/1-8`."""
    if not isinstance(node, Scalar):
        message = f"a run is a list of devices and jacks such as 'core/3', not {describe(node)}"
        faults.add(kinds.VALUE_KIND, message, node.span)
        return None
    device, slash, jacks = node.text.partition("/")
    if (slash and jack_names(jacks) is None) or not device or len(node.text) > _LONGEST_HOP:
        message = f"'{clip(node.text)}' is no place on a run; write a device, or a device and a jack such as 'core/3'"
        faults.add(kinds.VALUE_KIND, message, node.span, clip(node.text))
        return None
    return HopSpec(device, jacks, node.text, node)
