"""`cabinets:`: where each stands, how it is cooled, and what is mounted in which unit, top down as one would sketch it."""

import re
from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import CabinetSpec, SlotSpec, Written
from firstfix.plan.read_labels import own_label
from firstfix.plan.series import SeriesReader
from firstfix.source import kinds
from firstfix.source.doubt import leave_out
from firstfix.source.fields import Fields, as_name
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip, describe, is_null
from firstfix.units import AIR_FLOW, LENGTH, POWER

CABINET_KEYS = (
    "room", "part", "layout", "owned", "phase", "cooling", "above-floor", "clear-in-front", "label", "was", "note",
)  # fmt: skip
_SLOT_KEYS = (
    "fit", "device", "keep-free", "carries", "over", "face", "heat", "owned", "phase", "note",
)  # fmt: skip
_FACES = ("front", "rear")
_SIDES = ("left", "right")
_COOLINGS = ("closed", "meshed")
_COOLING_KEYS = ("fan",)
_UNITS = re.compile(r"([0-9]{1,2})(?:-([0-9]{1,2}))?")


_LOOSE_UNITS = re.compile(
    r"[uU]?\s*([0-9]{1,2})\s*[uU]?(?:\s*(?:-|\u2013|\.\.|to)\s*[uU]?([0-9]{1,2})\s*[uU]?)?"
)


def read_cabinets(fields: Fields, series: SeriesReader, faults: Collector) -> Iterator[CabinetSpec]:
    for name, key, node in series.named(fields, "cabinets", own_key="part"):
        cabinet = Fields(node, faults, f"the cabinet '{clip(key.text)}'", CABINET_KEYS)
        cabinet.require("part")
        yield CabinetSpec(
            name,
            cabinet.text("part") or "",
            cabinet.text("room") or "",
            cabinet.flag("owned") or False,
            cabinet.text("phase") or "",
            *_cooling(cabinet),
            cabinet.quantity("above-floor", LENGTH, 0, 20),
            cabinet.quantity("clear-in-front", LENGTH, 0, 20),
            tuple(_read_layout(cabinet, series, faults)),
            Written(key, node),
            own_label(cabinet),
        )


def _cooling(cabinet: Fields) -> tuple[str, float | None]:
    """`closed`, `meshed`, or `{fan: 100 m3/h}`."""
    node = cabinet.value("cooling")
    if isinstance(node, Mapping):
        fan = cabinet.below("cooling", "'cooling'", _COOLING_KEYS)
        assert fan is not None
        return ("fan", fan.quantity("fan", AIR_FLOW, 0, 100_000)) if fan.require("fan") else ("", None)
    if isinstance(node, Scalar) and node.text in _COOLINGS:
        return node.text, None
    if node is not None:
        cabinet.wrong(node, f"'cooling' is closed, meshed or {{fan: 100 m3/h}}, not {describe(node)}")
    return "", None


def _read_layout(cabinet: Fields, series: SeriesReader, faults: Collector) -> Iterator[SlotSpec]:
    for text, key, node in cabinet.table("layout"):
        units = _UNITS.fullmatch(text)
        if units is None:
            loose = _LOOSE_UNITS.fullmatch(text)
            instead = "-".join(each for each in loose.groups() if each) if loose is not None else ""
            hint = f"; write '{instead}'" if instead else " such as '8' or '4-6'"
            cabinet.wrong(key, f"'{clip(text)}' is no unit and no range of units{hint}", instead)
            # What stands there is in this cabinet all the same.
            units = _UNITS.fullmatch(instead)
            if units is None:
                leave_out(node, faults)
                continue
        numbers = sorted(int(each) for each in units.groups() if each is not None)
        yield from _Units(key, numbers[0], numbers[-1], series, faults).read(node)


class _Units:
    """One entry of a layout: the units it speaks of, and what stands there."""

    def __init__(self, key: Scalar, low: int, high: int, series: SeriesReader, faults: Collector) -> None:
        self._key = key
        self._low = low
        self._high = high
        self._series = series
        self._faults = faults
        self._what = f"unit {clip(key.text)} of the layout"

    def read(self, node: Node) -> Iterator[SlotSpec]:
        """What is at the front, or `{front: …, rear: …}`."""
        if isinstance(node, Mapping) and any(face in node.entries for face in _FACES):
            faces = Fields(node, self._faults, self._what, _FACES)
            for face in _FACES:
                at_face = faces.value(face)
                if at_face is not None:
                    yield from self._side_by_side(at_face, face)
        else:
            yield from self._side_by_side(node, "front")

    def _side_by_side(self, node: Node, face: str) -> Iterator[SlotSpec]:
        """One thing across the whole width, or `[left, right]` as one stands before the cabinet."""
        if not isinstance(node, Sequence):
            slot = self._slot(node, face, "")
            if slot is not None:
                yield slot
            return
        if len(node.items) != len(_SIDES):
            message = f"{self._what} lists {len(node.items)} things; two of half the width stand side by side, [LEFT, RIGHT]"
            self._wrong(node, message)
            return
        for item, side in zip(node.items, _SIDES, strict=True):
            slot = self._slot(item, face, side)
            if slot is not None:
                yield slot

    def _slot(self, node: Node, face: str, side: str) -> SlotSpec | None:
        written = Written(self._key if not side else None, node)
        low, high = self._low, self._high
        if isinstance(node, Scalar) and not is_null(node):
            name = as_name(node, self._faults, "what is mounted here")
            if name is None:
                return None
            return SlotSpec(low, high, "device", name, face, side, "", (), None, False, "", written)
        slot = Fields(node, self._faults, self._what, _SLOT_KEYS)
        said = [word for word in ("device", "fit", "keep-free") if slot.value(word) is not None]
        if len(said) != 1:
            self._wrong(
                node,
                f"unit {clip(self._key.text)} says one of 'device', 'fit' and 'keep-free', or just a device's name",
            )
            return None
        carried = self._series.spread(slot.texts("carries")) if "carries" in slot else ()
        return SlotSpec(
            low,
            high,
            said[0],
            slot.text(said[0]) or "",
            slot.choice("face", _FACES) or face,
            side,
            slot.text("over") or "",
            tuple(name for name, _ in carried),
            self._heat(slot, said[0]),
            (slot.flag("owned") or False) if self._may_say(slot, "owned", said[0]) else False,
            (slot.text("phase") or "") if self._may_say(slot, "phase", said[0]) else "",
            written,
        )

    def _heat(self, slot: Fields, what: str) -> float | None:
        node = slot.value("heat")
        if node is not None and what != "keep-free":
            self._wrong(node, "'heat' goes with 'keep-free'; a part brings its own, as 'draw'")
            return None
        return slot.quantity("heat", POWER, 0, 20_000)

    def _may_say(self, slot: Fields, key: str, what: str) -> bool:
        """Of a device, these are said in `devices:`, once."""
        node = slot.value(key)
        if node is None or what == "fit" or (what == "keep-free" and key == "phase"):
            return node is not None
        self._wrong(node, f"'{key}' goes with 'fit' here; a device says it in 'devices'")
        return False

    def _wrong(self, node: Node, message: str) -> None:
        self._faults.add(kinds.VALUE_KIND, message, node.span)
