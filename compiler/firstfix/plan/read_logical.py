"""`vlans:`, `wifi:`, `names:` and `cabling:`."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.model import CablingSpec, NamesSpec, VlanSpec, WifiSpec, Written
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import clip
from firstfix.units import LENGTH

_VLAN_KEYS = ("id", "subnet", "gateway", "dhcp", "reaches", "note")
_WIFI_KEYS = ("ssid", "vlan", "note")
_NAMES_KEYS = ("domain", "servers")
_CABLING_KEYS = (
    "indoor", "outdoor", "buried", "cords", "jacks", "plugs", "fibre", "direct-attach", "slack", "drop", "dressing", "desk-cord",
)  # fmt: skip
_SECRETS = ("passphrase", "password", "key", "psk", "secret")

# Allowances used where a plan has none of its own; common practice, no source, and said in each length's terms.
SLACK_EACH_END = 1.5
DROP = 2.0
DRESSING_EACH_END = 0.15
DESK_CORD = 2.0


def read_vlans(fields: Fields, faults: Collector) -> Iterator[VlanSpec]:
    for name, key, node in fields.table("vlans"):
        check_name(name, key, faults)
        vlan = Fields(node, faults, f"the VLAN '{clip(name)}'", _VLAN_KEYS)
        vlan.require("id")
        yield VlanSpec(
            name,
            # IEEE 802.1Q, table 9-2: 0 and 4095 are reserved. The reader takes any number; a rule names the limits.
            vlan.integer("id", 0, 65_535) or 0,
            vlan.text("subnet") or "",
            vlan.text("gateway") or "",
            vlan.text("dhcp") or "",
            tuple(text for text, _ in vlan.texts("reaches")),
            Written(key, node),
        )


def read_wifi(fields: Fields, faults: Collector) -> Iterator[WifiSpec]:
    for name, key, node in fields.table("wifi"):
        check_name(name, key, faults)
        network = Fields(node, faults, f"the wireless network '{clip(name)}'", (*_WIFI_KEYS, *_SECRETS))
        for secret in _SECRETS:
            value = network.value(secret)
            if value is not None:
                network.wrong(
                    value, "a plan holds no passphrase: it is shown to others; key it in at the device"
                )
        if network.require("ssid") and network.require("vlan"):
            yield WifiSpec(name, network.text("ssid") or "", network.text("vlan") or "", Written(key, node))


def read_names(fields: Fields) -> NamesSpec:
    names = fields.below("names", "'names'", _NAMES_KEYS)
    if names is None:
        return NamesSpec("", ())
    servers = tuple(text for text, _ in names.texts("servers"))
    return NamesSpec(names.text("domain") or "", servers, Written(None, names.node))


def read_cabling(fields: Fields, faults: Collector) -> CablingSpec:
    cabling = fields.below("cabling", "'cabling'", _CABLING_KEYS)
    if cabling is None:
        cabling = Fields(fields.node, faults, "'cabling'", fields.entries)
        cabling.entries = {}
    return CablingSpec(
        cabling.text("indoor") or "cat6-indoor",
        cabling.text("outdoor") or "cat6-outdoor",
        cabling.text("buried") or "cat6-buried",
        cabling.text("cords") or "cord-cat6",
        cabling.text("jacks") or "jack-cat6",
        cabling.text("plugs") or "plug-cat6",
        cabling.text("fibre") or "fibre-os2-indoor",
        cabling.text("direct-attach") or "direct-attach-sfp-plus",
        _length(cabling, "slack", SLACK_EACH_END),
        _length(cabling, "drop", DROP),
        _length(cabling, "dressing", DRESSING_EACH_END),
        _length(cabling, "desk-cord", DESK_CORD),
        Written(None, cabling.node) if "cabling" in fields else None,
    )


def _length(cabling: Fields, key: str, otherwise: float) -> float:
    value = cabling.quantity(key, LENGTH, 0, 100)
    return otherwise if value is None else value
