"""`vlans:`, `wifi:` and `names:`."""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.colours import read_colour
from firstfix.plan.model import NamesSpec, VlanSpec, WifiSpec, Written
from firstfix.plan.series import SeriesReader
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import clip

_VLAN_KEYS = ("id", "subnet", "gateway", "dhcp", "reaches", "colour", "was", "note")
_WIFI_KEYS = ("ssid", "vlan", "was", "note")
_NAMES_KEYS = ("domain", "servers")
_SECRETS = ("passphrase", "pass-phrase", "password", "key", "psk", "pre-shared-key", "secret")


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
            read_colour(vlan, "colour"),
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


def read_names(fields: Fields, series: SeriesReader) -> NamesSpec:
    names = fields.below("names", "'names'", _NAMES_KEYS)
    if names is None:
        return NamesSpec("", ())
    servers = tuple(text for text, _ in series.spread(names.texts("servers")))
    return NamesSpec(names.text("domain") or "", servers, Written(None, names.node))
