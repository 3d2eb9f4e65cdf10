"""The sections of a shopping list, in their order, and the section that each kind of part belongs to."""

from firstfix.parts.part import (
    ACTIVE_KINDS, CABLE_KINDS, FITTING_KINDS, INLINE_KINDS, MAINS_KINDS, MATERIAL_KINDS, TERMINATION_KINDS,
)  # fmt: skip

EQUIPMENT = "equipment"
CABINET = "cabinet and fittings"
CABLE = "cable and cords"
SMALL_PARTS = "jacks and small parts"
MAINS = "mains and earthing"
CONSUMABLES = "labels and consumables"
NOT_IN_LIBRARY = "not in the part library"
SECTIONS = (EQUIPMENT, CABINET, CABLE, SMALL_PARTS, MAINS, CONSUMABLES, NOT_IN_LIBRARY)

_EXCEPTIONS = {
    "panel": CABINET, "fastener": CABINET, "coupler": SMALL_PARTS, "splitter": SMALL_PARTS, "power-cord": MAINS,
    "earth-kit": MAINS, "transceiver": EQUIPMENT, "pathway-material": CABLE, "label": CONSUMABLES, "tie": CONSUMABLES,
    "consumable": CONSUMABLES, "tool": CONSUMABLES,
}  # fmt: skip
_FAMILIES = (
    (ACTIVE_KINDS, EQUIPMENT), (INLINE_KINDS, EQUIPMENT), (FITTING_KINDS, CABINET), (CABLE_KINDS, CABLE),
    (MAINS_KINDS, MAINS), (TERMINATION_KINDS, SMALL_PARTS), (MATERIAL_KINDS, SMALL_PARTS),
)  # fmt: skip


def section_of(kind: str) -> str:
    """The section of a part of `kind`; "" stands for a part that the library does not hold."""
    if kind in _EXCEPTIONS:
        return _EXCEPTIONS[kind]
    return next((section for kinds, section in _FAMILIES if kind in kinds), NOT_IN_LIBRARY)
