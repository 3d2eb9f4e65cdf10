"""Which facts a part of each kind has to state, and which of them one leaves out.

The rules ask for these; a part that says `unknown` has stated it, and then a rule answers that it cannot tell.
A fact is named by its key, one in a table by both: 'mains.inlet'. A part that is like another states what that states.
"""

from collections.abc import Iterator

from firstfix.parts.facts import Fact
from firstfix.parts.part import ACTIVE_KINDS, CABLE_KINDS, COPPER_FAMILIES, Part
from firstfix.source.node import Mapping, Node, is_null

# Any one of these is enough.
Need = str | tuple[str, ...]

_AIR: tuple[Need, ...] = ("exposure.coldest", "exposure.warmest")
_LIVE: tuple[Need, ...] = ("draw", "weight", "depth", "cooling.by", "exposure.place", *_AIR)
_DEVICE: tuple[Need, ...] = ("jacks", ("mains.inlet", "takes-poe.class"), *_LIVE)
_BETWEEN_RAILS: tuple[Need, ...] = ("height", "depth", "weight", "fixings")
_OUTLETS: tuple[Need, ...] = (
    "mains.inlet", "mains.outlets", "mains.sockets", "mains.rating", "mains.current", "mains.protection",
    "mains.surge", "weight", "depth", "exposure.place",
)  # fmt: skip
_CABLE: tuple[Need, ...] = (
    "cable.medium",
    "cable.lengths",
    "cable.diameter",
    "cable.bend",
    "cable.rating",
    *_AIR,
)

_OF_KIND: dict[str, tuple[Need, ...]] = {
    **dict.fromkeys(ACTIVE_KINDS, _DEVICE),
    "gateway": (*_DEVICE, "routes", "bridges", "vlan-aware", "spanning-tree"),
    "switch": (*_DEVICE, "bridges", "vlan-aware", "spanning-tree"),
    "access-point": (*_DEVICE, "bridges", "vlan-aware", "spanning-tree"),
    "panel": (("jacks", "openings"), *_BETWEEN_RAILS, "front-depth", "plug-space", "exposure.place"),
    "outlet": (("jacks", "openings"), "depth", "weight", "exposure.place"),
    "injector": ("jacks", "passes", "gives-poe.jacks", "mains.inlet", *_LIVE),
    "surge-protector": (
        "jacks", "passes", "category", "screened", "surge.line", "surge.guarded", "surge.earth",
        "surge.poe-class", "depth", "weight", "exposure.place", *_AIR,
    ),
    "coupler": ("jacks", "passes", "exposure.place"),
    "splitter": (
        "jacks", "passes", "takes-poe.class", "low-voltage.voltage", "low-voltage.power",
        "low-voltage.efficiency", *_LIVE,
    ),
    "power-strip": _OUTLETS,
    "ups": (
        *_OUTLETS, "draw", "cooling.by", "battery.apparent", ("battery.energy", "battery.lasts"), *_AIR,
    ),
    "cabinet": (
        "height", "usable-depth", "outside.width", "outside.height", "outside.depth", "rails", "thread",
        "weight", "cabinet.mounting", "cabinet.front", "cabinet.load", "cabinet.clear-width", "exposure.place",
    ),
    "shelf": (*_BETWEEN_RAILS, "shelf.load", "shelf.clear-width", "shelf.tie-slots"),
    "cover-panel": (*_BETWEEN_RAILS, "cover.form", "cover.screw-head"),
    "cable": (*_CABLE, "cable.category", "cable.bend-pulling", "cable.fire-class", "exposure.uv"),
    "cord": (*_CABLE, "cable.category", "cable.plug-length", "exposure.uv"),
    "power-cord": (*_CABLE, "cable.gauge", "cable.plug-length", "cable.ends", "cable.current"),
    "jack-module": ("fits", "category", "screened", "depth", "wire"),
    "plug": ("category", "screened", "wire", "pack"),
    "fibre-end": ("fits", "category"),
    "fastener": ("fastener.form", "fastener.length", "pack"),
    "label": ("pack", "size.width", "size.height"),
    "tie": ("pack", "spacing"),
    "wall-box": ("depth", "exposure.place"),
    "transceiver": ("fits", "jacks", "category", "draw", *_AIR),
    "earth-kit": ("earth.area", "earth.length"),
    "pathway-material": ("pathway.form", "exposure.place"),
}  # fmt: skip

_OF_PATHWAY: dict[str, tuple[Need, ...]] = {
    "conduit": ("pathway.inside", "pathway.outside", "pathway.length"),
    "duct": ("pathway.inside", "pathway.outside", "pathway.length"),
    "bend": ("pathway.inside", "pathway.outside"),
    "trunking": ("pathway.inside", "pathway.length"),
    "clip": ("pathway.clamps", "spacing"),
    "gland": ("pathway.clamps",),
}


def needed_facts(part: Part) -> Iterator[Need]:
    """What a part of this kind states, and what follows from what it says: PoE it gives, a hinge, an outdoor place."""
    yield "price"
    yield from _OF_KIND.get(part.kind, ())
    yield from _of_its_shape(part)
    yield from _of_its_power(part)
    yield from _of_its_material(part)


def _of_its_shape(part: Part) -> Iterator[Need]:
    stands = part.rack is None or part.rack.height == 0
    if part.kind in (*ACTIVE_KINDS, "injector", "splitter", "power-strip", "ups"):
        yield from (
            ("size.width", "size.height") if stands else ("fixings", "ears", "front-depth", "plug-space")
        )
    if part.exposure.place in ("outdoor", "buried") and part.kind not in CABLE_KINDS:
        yield from ("exposure.uv", "exposure.ingress")
    if part.cover is not None and part.cover.form == "hinged":
        yield from ("cover.clear-under", "cover.swing")
    if part.cabinet is not None and part.cabinet.front != "open":
        yield from ("cabinet.before-rails", "cabinet.swing")
    if part.cabinet is not None and part.cabinet.mounting == "wall":
        yield "needs"


def _of_its_power(part: Part) -> Iterator[Need]:
    if part.mains.inlet:
        yield from ("mains.shape", "mains.leakage")
    if part.mains.inlet == "adaptor":
        yield "mains.blocks"
    if part.takes_poe is not None:
        yield from ("takes-poe.class", "takes-poe.pairs")
    if part.gives_poe is not None:
        yield from ("gives-poe.class", "gives-poe.type", "gives-poe.pairs", "gives-poe.jack-limit")
        yield from ("gives-poe.counts", ("gives-poe.budget", "gives-poe.when-fed"))
        if isinstance(part.gives_poe.budget, Fact):
            yield "gives-poe.efficiency"


def _of_its_material(part: Part) -> Iterator[Need]:
    if part.cable is not None and part.cable.medium == "copper":
        yield from ("cable.gauge", "cable.stranded", "cable.screened", "cable.conductor")
    if part.cable is not None and part.cable.medium == "fibre":
        yield from ("cable.fibres", "cable.family")
    if part.kind in ("panel", "coupler") and _is_copper(part) and "openings" not in part.said:
        yield from ("category", "screened")
    if part.kind == "transceiver" and not _is_copper(part):
        yield from ("optics.wavelength", "optics.sends", "optics.reads")
    if part.fastener is not None and part.fastener.form != "wall plug":
        yield from ("rails", "thread", "fastener.head", "fastener.head-height")
    if part.pathway is not None:
        yield from _OF_PATHWAY.get(str(part.pathway.form), ())


def _is_copper(part: Part) -> bool:
    return any(jack.family in COPPER_FAMILIES for jack in part.jacks)


def missing_facts(part: Part) -> Iterator[str]:
    """The keys that `part` does not state, each once, in the order of `needed_facts`."""
    for need in dict.fromkeys(needed_facts(part)):
        keys = (need,) if isinstance(need, str) else need
        if part.said.isdisjoint(keys):
            yield " or ".join(keys)


def said(base: Part, part: Part, node: Node) -> frozenset[str]:
    """Keys that `node`, the table of `part`, has values for, beside those of `base`, which it is like."""
    forgotten = tuple(_begun_anew(base, part))
    kept = (key for key in base.said if key.partition(".")[0] not in forgotten)
    return frozenset((*kept, *_keys(node)))


def _begun_anew(base: Part, part: Part) -> Iterator[str]:
    """Tables that were not laid over those of `base`; see read_power.mains, read_forms.cable and read.py."""
    if part.mains.inlet != base.mains.inlet:
        yield "mains"
    if base.cable is not None and part.cable is not None and part.cable.medium != base.cable.medium:
        yield "cable"
    if part.size is None:
        yield "size"


def _keys(node: Node) -> Iterator[str]:
    if not isinstance(node, Mapping):
        return
    for key, (_, value) in node.entries.items():
        if is_null(value):
            continue
        yield key
        if isinstance(value, Mapping):
            yield from (f"{key}.{each}" for each, (_, below) in value.entries.items() if not is_null(below))
