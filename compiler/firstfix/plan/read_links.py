"""`links:` and each device's `plugs-into:`: ordered chains of what a run touches."""

import re
from collections.abc import Iterator
from itertools import pairwise

from firstfix.finding.collector import Collector
from firstfix.finding.model import Cure, Edit, Safety
from firstfix.parts.numbering import jack_names
from firstfix.plan.colours import read_colour
from firstfix.plan.model import ALL, RUNS, DeviceSpec, HopSpec, LinkSpec, Written
from firstfix.plan.series import SeriesReader
from firstfix.source import kinds
from firstfix.source.doubt import leave_out
from firstfix.source.fields import NAME, Fields
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.units import LENGTH, RATE

_LINK_KEYS = (
    "run", "lanes", "spare-for", "along", "tagged", "untagged", "cable", "cord", "colour", "length", "owned", "rate", "phase",
    "note",
)  # fmt: skip
_PLAIN_KEYS = {"run", "note"}
MOST_HOPS = 40
# A device and a range of jacks, with room to spare: longer ones are no names, and would fill the messages.
_LONGEST_HOP = 200


class _HasRange(Exception):
    """A hop has a range, so the link stands for several. Found where each hop is looked at anyway: most links have none."""

    def __init__(self, hop: Scalar) -> None:
        super().__init__()
        self.hop = hop


def read_links(
    fields: Fields, devices: tuple[DeviceSpec, ...], series: SeriesReader, faults: Collector
) -> Iterator[LinkSpec]:
    """Links as written, one for each step of a series, then those that devices say of themselves."""
    node = fields.value("links")
    if node is not None and not isinstance(node, Sequence):
        fields.wrong(
            node,
            f"'links' is a list of runs such as '- {{run: [desk, panel/3, core]}}', not {describe(node)}",
        )
    elif node is not None:
        for item in node.items:
            try:
                link = _read_link(item, faults)
            except _HasRange:
                yield from _each_step(item, series, faults)
                continue
            if link is not None:
                yield link
            else:
                leave_out(item, faults)
    for device in devices:
        link = _plugs_into(device, faults)
        if link is not None:
            yield link


def _each_step(item: Node, series: SeriesReader, faults: Collector) -> Iterator[LinkSpec]:
    for each in series.steps(item, "run"):
        try:
            link = _read_link(each, faults)
        except _HasRange as left:
            message = f"'{clip(left.hop.text)}' is no range; it has a number on both sides, such as '1..4'"
            faults.add(kinds.NAME_FORM, message, left.hop.span, clip(left.hop.text))
            return
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
        read_colour(fields, "colour"),
        _owned(fields),
        fields.quantity("length", LENGTH, 0.05, 20_000),
    )


def _owned(fields: Fields) -> str:
    """`true`, or `runs` where the cable in the walls is there and its cords are to be bought."""
    node = fields.value("owned")
    if isinstance(node, Scalar) and node.text == RUNS:
        return RUNS
    if node is not None and not (isinstance(node, Scalar) and node.text.lower() in ("true", "false")):
        fields.wrong(node, f"'owned' of a link is true, false or '{RUNS}', not {describe(node)}")
        return ""
    return ALL if fields.flag("owned") else ""


def _plugs_into(device: DeviceSpec, faults: Collector) -> LinkSpec | None:
    node = device.written.node
    if not isinstance(node, Mapping) or "plugs-into" not in node.entries:
        return None
    fields = Fields(node, faults, "", node.entries)
    value = fields.value("plugs-into")
    if value is None:
        return None
    try:
        onward = _read_run(fields, fields.items("plugs-into"), faults, least=1)
    except _HasRange:
        message = f"a range counts with a series, and '{clip(device.name)}' is none; name one device"
        fields.wrong(value, message)
        return None
    if onward is None or device.written.key is None:
        leave_out(value, faults)
        faults.in_doubt.add(device.name)
        return None
    if onward[0].device == device.name:
        message = f"'{clip(device.name)}' cannot be plugged into itself; name what it is plugged into"
        fields.wrong(onward[0].node, message)
        return None
    hops = (HopSpec(device.name, "", device.name, device.written.key), *onward)
    cable, cord = device.cable, device.cord
    return LinkSpec(hops, 1, "", (), None, None, cable, cord, None, device.phase, Written(None, value))


def _read_run(
    fields: Fields, items: tuple[Node, ...], faults: Collector, least: int = 2
) -> tuple[HopSpec, ...] | None:
    hops = [hop for item in items if (hop := read_hop(item, faults)) is not None]
    if len(hops) < len(items):
        return None
    if not least <= len(hops) <= MOST_HOPS:
        wanted = "what it goes to" if least == 1 else "at least its two ends"
        message = f"a run names {wanted}, and at most {MOST_HOPS} places; this one names {len(hops)}"
        places = _places_in(hops[0].shown) if len(hops) == 1 else []
        instead = f"[{', '.join(places)}]" if len(places) > 1 else ""
        node = hops[0].node if instead and not isinstance(fields.value("run"), Sequence) else fields.node
        fields.wrong(node, f"{message}; write {instead}" if instead else message, instead)
        return None
    for one, other in pairwise(hops):
        if one.device == other.device and (one.jacks == other.jacks or not one.jacks or not other.jacks):
            fields.wrong(
                other.node,
                f"the run goes from '{clip(one.device)}' to itself; name what lies at its other end",
            )
            return None
    return tuple(hops)


def _places_in(text: str) -> list[str]:
    """The places of a run that is written as one text: `store -> core/3`, `store to core`."""
    return [
        each for each in re.split(r"[^a-z0-9/-]+|\s-+\s|-+>|\bto\b", text[:_LONGEST_HOP]) if each.strip("-/")
    ]


def read_hop(node: Node, faults: Collector) -> HopSpec | None:
    """`core`, `core/3`, `core/1-8`."""
    if not isinstance(node, Scalar) or is_null(node):
        message = f"a run is a list of devices and jacks such as 'core/3', not {describe(node)}"
        faults.add(kinds.VALUE_KIND, message, node.span)
        return None
    if ".." in node.text:
        raise _HasRange(node)
    device, slash, jacks = node.text.partition("/")
    if (slash and jack_names(jacks) is None) or not device or len(node.text) > _LONGEST_HOP:
        instead = _better_hop(device, jacks)
        written = f"'{instead}'" if instead else "a device, or a device and a jack such as 'core/3'"
        message = f"'{clip(node.text)}' is no place on a run; write {written}"
        cures = (
            (Cure(f"write '{instead}'", (Edit(node.span, instead),), Safety.NEEDS_REVIEW),) if instead else ()
        )
        faults.add(kinds.VALUE_KIND, message, node.span, clip(node.text), cures=cures)
        leave_out(node, faults)
        return None
    return HopSpec(device, jacks, node.text, node)


def _better_hop(device: str, jacks: str) -> str:
    """What was probably meant: `core/SFP1` is core/sfp1, `core/port 12` core/12, `main/panel/3` panel/3, `core/12-3` core/3-12."""
    if NAME.fullmatch(device) is None or len(jacks) > _LONGEST_HOP:
        return ""
    thing, slash, further = jacks.partition("/")
    numbers = re.findall(r"[0-9]{1,4}", jacks)
    if len(numbers) == 2 and (f"{device}/" in jacks or re.fullmatch(r"[0-9]+\W+[0-9]+", jacks)):
        low, high = sorted(map(int, numbers))
        return f"{device}/{low}-{high}"
    if slash and NAME.fullmatch(thing) and jack_names(further) is not None:
        return f"{thing}/{further}"
    plain = jacks.lower().strip()
    if jack_names(plain) is not None:
        return f"{device}/{plain}"
    return f"{device}/{numbers[0]}" if len(numbers) == 1 else "" if jacks else device
