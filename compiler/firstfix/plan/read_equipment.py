"""`devices:` and `defaults:`: everything a link can reach, and what it says where its own entry is silent."""

import re
from collections.abc import Iterator, Mapping

from firstfix.finding.collector import Collector
from firstfix.parts.part import KINDS, Library
from firstfix.plan.model import DeviceSpec, Written
from firstfix.plan.overlay import overlaid
from firstfix.plan.read_labels import own_label
from firstfix.plan.series import SeriesReader
from firstfix.source.doubt import leave_out
from firstfix.source.fields import Fields
from firstfix.source.kinds import VALUE_KIND
from firstfix.source.nearest import nearest_word
from firstfix.source.node import Mapping as Table
from firstfix.source.node import Node, Scalar, clip
from firstfix.standards.poe import PRIORITIES
from firstfix.units import LENGTH

DEVICE_KEYS = (
    "part", "room", "vlan", "tagged", "host", "power", "plugs-into", "owned", "phase", "drop", "mac", "note",
    "cable", "cord", "was",
    "poe-priority", "label",
)  # fmt: skip
# Not what makes one device this one: its part, its number, its runs.
DEFAULT_KEYS = tuple(
    key for key in DEVICE_KEYS if key not in ("part", "host", "plugs-into", "mac", "label", "was", "note")
)
_MAC = re.compile(r"[0-9A-Fa-f]{2}(?:[:-][0-9A-Fa-f]{2}){5}")


def read_devices(
    fields: Fields,
    defaults: Mapping[str, Node],
    parts: Library,
    series: SeriesReader,
    faults: Collector,
) -> Iterator[DeviceSpec]:
    """`defaults` are looked up by the kind of the device's part; what the device says itself counts."""
    for name, key, node in series.named(fields, "devices", own_key="part", counts_up="host"):
        what = f"the device '{clip(key.text)}'"
        _only_with_plugs_into(name, node, faults)
        usual = defaults.get(_kind_of(node, parts)) if defaults else None
        if usual is not None:
            Fields(node, faults, what, DEVICE_KEYS)
            node = overlaid(node, usual)
        device = Fields(node, faults, what, DEVICE_KEYS)
        device.require("part")
        if ".." in key.text and "mac" in device:
            message = (
                "one MAC address belongs to one device; write it in an entry of its own: 'NAME: {mac: …}'"
            )
            device.wrong(device.entries["mac"][0], message)
        yield _device(name, device, Written(key, node))


def _only_with_plugs_into(name: str, node: Node, faults: Collector) -> None:
    entries = node.entries if isinstance(node, Table) else {}
    for key in ("cable", "cord"):
        if key in entries and "plugs-into" not in entries:
            message = (
                f"'{key}' goes with 'plugs-into'; for other runs of '{clip(name)}' it is said at the link"
            )
            faults.add(VALUE_KIND, message, entries[key][0].span)


def _kind_of(node: Node, parts: Library) -> str:
    name = node.value("part") if isinstance(node, Table) else None
    part = parts.get(name.text) if isinstance(name, Scalar) else None
    return "" if part is None else part.kind


def _device(name: str, device: Fields, written: Written) -> DeviceSpec:
    return DeviceSpec(
        name,
        device.text("part") or "",
        device.text("room") or "",
        device.text("vlan") or "",
        tuple(text for text, _ in device.texts("tagged")) if "tagged" in device else (),
        device.text("host") or "",
        _power(device),
        device.flag("owned") or False,
        device.text("phase") or "",
        device.quantity("drop", LENGTH, 0, 200) if "drop" in device else None,
        _mac(device),
        (device.text("cable") or "") if "cable" in device else "",
        (device.text("cord") or "") if "cord" in device else "",
        device.text("note") or "",
        written,
        (device.choice("poe-priority", PRIORITIES) or "") if "poe-priority" in device else "",
        own_label(device) if "label" in device else "",
    )


def _power(device: Fields) -> tuple[str, ...]:
    """`ups`, or `[ups, strip]` for a device with two inlets."""
    found: list[str] = []
    for text, node in device.texts("power") if "power" in device else ():
        # The wall has many outlets, so that two of a device's leads may go there.
        if text in found and text not in ("mains", "wall"):
            device.wrong(node, f"'{clip(text)}' stands twice in 'power'; two feeds come from two things")
        else:
            found.append(text)
    return tuple(found)


def _mac(device: Fields) -> str:
    text = device.text("mac") if "mac" in device else None
    if text is None:
        return ""
    if _MAC.fullmatch(text) is None:
        node = device.value("mac")
        assert node is not None
        pairs = re.findall(r"[0-9a-f]{2}", re.sub(r"[^0-9a-f]", "", text.lower()))
        instead = ":".join(pairs) if len(pairs) == 6 and len(re.findall(r"[0-9A-Za-z]", text)) == 12 else ""
        message = f"'{clip(text)}' is no MAC address; it has six pairs of hex digits, such as {instead or '00:00:5e:00:53:0a'}"
        device.wrong(node, message, f'"{instead}"' if instead else "")
        return ""
    return text.lower().replace("-", ":")


def read_defaults(fields: Fields, parts: Library, faults: Collector) -> dict[str, Node]:
    """`defaults: {camera: {vlan: cameras}}`, by kind of part. Values at fault are reported here once, and left out."""
    found: dict[str, Node] = {}
    for kind, key, node in fields.table("defaults"):
        if kind not in KINDS:
            kind = _meant_kind(kind, key, fields, parts, faults)
            if kind in ("", *found):
                leave_out(node, faults)
                continue
        values = Fields(node, faults, f"the defaults of '{kind}'", DEFAULT_KEYS)
        usual = Table(node.file, node.line, node.column)
        for each, entry in values.entries.items():
            if each in DEFAULT_KEYS and _is_sound(each, entry, Written(key, node), faults):
                usual.entries[each] = entry
        found[kind] = usual
    return found


def _meant_kind(text: str, key: Scalar, fields: Fields, parts: Library, faults: Collector) -> str:
    """The kind that is read in place of what is none, or ""; reported either way."""
    part = parts.get(text)
    if part is not None:
        message = f"'{clip(text)}' is a part; defaults go by kind: write '{part.kind}'"
        fields.wrong(key, message, part.kind)
        return part.kind
    near = nearest_word(text, KINDS) if faults.may_hint() else ""
    fields.wrong(
        key, f"'{clip(text)}' is no kind of part" + (f"; did you mean '{near}'?" if near else ""), near
    )
    return near


def _is_sound(key: str, entry: tuple[Scalar, Node], written: Written, faults: Collector) -> bool:
    """Whether a device that says this one thing has no fault."""
    alone = Table(entry[0].file, entry[0].line, entry[0].column)
    alone.entries[key] = entry
    before = len(faults.findings) + faults.dropped
    _device("", Fields(alone, faults, "a device", (key,)), written)
    return len(faults.findings) + faults.dropped == before
