"""`cabinets:` and `devices:`: what is mounted where, and everything a link can reach."""

import re
from collections.abc import Iterator, Mapping

from firstfix.finding.collector import Collector
from firstfix.parts.part import KINDS
from firstfix.plan.model import CabinetSpec, DeviceSpec, SlotSpec, Written
from firstfix.source.fields import Fields, as_name, check_name
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import Node, Scalar, clip, is_null
from firstfix.units import LENGTH, POWER

_CABINET_KEYS = ("room", "part", "layout", "owned", "note")
_SLOT_KEYS = ("fit", "device", "keep-free", "carries", "over", "face", "heat", "note")
DEVICE_KEYS = (
    "part", "room", "vlan", "tagged", "host", "power", "plugs-into", "owned", "phase", "drop", "mac", "note",
)  # fmt: skip
_DEFAULT_KEYS = ("vlan", "power", "phase", "room")
_UNITS = re.compile(r"([0-9]{1,2})(?:-([0-9]{1,2}))?")
_MAC = re.compile(r"[0-9A-Fa-f]{2}(?:[:-][0-9A-Fa-f]{2}){5}")


def read_cabinets(fields: Fields, faults: Collector) -> Iterator[CabinetSpec]:
    for name, key, node in fields.table("cabinets"):
        check_name(name, key, faults)
        cabinet = Fields(node, faults, f"the cabinet '{clip(name)}'", _CABINET_KEYS)
        cabinet.require("part")
        yield CabinetSpec(
            name,
            cabinet.text("part") or "",
            cabinet.text("room") or "",
            cabinet.flag("owned") or False,
            tuple(_read_layout(cabinet, faults)),
            Written(key, node),
        )


def _read_layout(cabinet: Fields, faults: Collector) -> Iterator[SlotSpec]:
    for text, key, node in cabinet.table("layout"):
        units = _UNITS.fullmatch(text)
        if units is None:
            cabinet.wrong(key, f"'{clip(text)}' is no unit and no range of units such as '8' or '4-6'")
            continue
        numbers = sorted(int(each) for each in units.groups() if each is not None)
        slot = _read_slot(key, node, faults, numbers[0], numbers[-1])
        if slot is not None:
            yield slot


def _read_slot(key: Scalar, node: Node, faults: Collector, low: int, high: int) -> SlotSpec | None:
    written = Written(key, node)
    if isinstance(node, Scalar) and not is_null(node):
        name = as_name(node, faults, "what is mounted here")
        return None if name is None else SlotSpec(low, high, "device", name, "front", "", (), written)
    slot = Fields(node, faults, f"unit {key.text} of the layout", _SLOT_KEYS)
    said = [word for word in ("device", "fit", "keep-free") if word in slot]
    if len(said) != 1:
        slot.wrong(
            node,
            f"unit {clip(key.text)} says one of 'device', 'fit' and 'keep-free', or just a device's name",
        )
        return None
    # Read for their form only: nothing reckons with heat yet.
    slot.quantity("heat", POWER, 0, 20_000)
    return SlotSpec(
        low,
        high,
        said[0],
        slot.text(said[0]) or "",
        slot.choice("face", ("front", "rear")) or "front",
        slot.text("over") or "",
        tuple(name for name, _ in slot.names("carries")),
        written,
    )


def read_devices(
    fields: Fields,
    defaults: Mapping[str, Mapping[str, str]],
    kind_of_part: Mapping[str, str],
    faults: Collector,
) -> Iterator[DeviceSpec]:
    """`defaults` are looked up by the kind of the device's part."""
    for name, key, node in fields.table("devices"):
        check_name(name, key, faults)
        device = Fields(node, faults, f"the device '{clip(name)}'", DEVICE_KEYS)
        device.require("part")
        part = device.text("part") or ""
        usual = defaults.get(kind_of_part.get(part, ""), {})
        yield DeviceSpec(
            name,
            part,
            device.text("room") or usual.get("room", ""),
            device.text("vlan") or usual.get("vlan", ""),
            tuple(text for text, _ in device.texts("tagged")) if "tagged" in device else (),
            device.text("host") or "",
            device.text("power") or usual.get("power", ""),
            device.flag("owned") or False,
            device.text("phase") or usual.get("phase", ""),
            device.quantity("drop", LENGTH, 0, 200) if "drop" in device else None,
            _mac(device),
            device.text("note") or "",
            Written(key, node),
        )


def _mac(device: Fields) -> str:
    text = device.text("mac") if "mac" in device else None
    if text is None:
        return ""
    if _MAC.fullmatch(text) is None:
        node = device.value("mac")
        assert node is not None
        device.wrong(
            node,
            f"'{clip(text)}' is no MAC address; it has six pairs of hex digits, such as 00:00:5e:00:53:0a",
        )
        return ""
    return text.lower().replace("-", ":")


def read_defaults(fields: Fields, faults: Collector) -> dict[str, dict[str, str]]:
    """`defaults: {camera: {vlan: cameras}}`, by kind of part."""
    found: dict[str, dict[str, str]] = {}
    for kind, key, node in fields.table("defaults"):
        if kind not in KINDS:
            hint = did_you_mean(kind, KINDS) if faults.may_hint() else ""
            fields.wrong(key, f"'{clip(kind)}' is no kind of part{hint}")
            continue
        values = Fields(node, faults, f"the defaults of '{kind}'", _DEFAULT_KEYS)
        found[kind] = {each: text for each in _DEFAULT_KEYS if (text := values.text(each)) is not None}
    return found
