"""The sections of a shopping list, in their order, and the section that each kind of part belongs to."""

from firstfix.parts import part as kinds

EQUIPMENT = "equipment"
CABINET = "cabinet and fittings"
CABLE = "cable and cords"
WAYS = "ducts, clips and glands"
SMALL_PARTS = "jacks and small parts"
MAINS = "mains and earthing"
CONSUMABLES = "labels and consumables"
NOT_IN_LIBRARY = "not in the part library"
SECTIONS = (EQUIPMENT, CABINET, CABLE, WAYS, SMALL_PARTS, MAINS, CONSUMABLES, NOT_IN_LIBRARY)

_FAMILIES = {
    **dict.fromkeys(kinds.ACTIVE_KINDS, EQUIPMENT),
    **dict.fromkeys(kinds.INLINE_KINDS, EQUIPMENT),
    **dict.fromkeys(kinds.TERMINATION_KINDS, SMALL_PARTS),
    **dict.fromkeys(kinds.MAINS_KINDS, MAINS),
    **dict.fromkeys(kinds.FITTING_KINDS, CABINET),
    **dict.fromkeys(kinds.CABLE_KINDS, CABLE),
    **dict.fromkeys(kinds.MATERIAL_KINDS, SMALL_PARTS),
}
# Where a shop keeps a kind elsewhere than the rest of its family.
_EXCEPTIONS = {
    **dict.fromkeys(("panel", "fastener"), CABINET),
    **dict.fromkeys(("coupler", "splitter"), SMALL_PARTS),
    **dict.fromkeys(("power-cord", "earth-kit"), MAINS),
    **dict.fromkeys(("label", "tie", "consumable", "tool"), CONSUMABLES),
    "transceiver": EQUIPMENT,
    "pathway-material": WAYS,
}
_SECTION_OF = {**_FAMILIES, **_EXCEPTIONS}


def section_of(kind: str) -> str:
    """The section of a part of `kind`; "" stands for a part that the library does not hold."""
    return _SECTION_OF.get(kind, NOT_IN_LIBRARY)
