"""`vlans:`, `wifi:` and `names:`."""

import re
from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.colours import read_colour
from firstfix.plan.model import NamesSpec, VlanSpec, WifiSpec, Written
from firstfix.plan.series import SeriesReader
from firstfix.source import kinds
from firstfix.source.fields import Fields, check_name
from firstfix.source.node import Scalar, Sequence, clip, describe

_VLAN_KEYS = ("id", "subnet", "gateway", "dhcp", "reaches", "colour", "was", "note")
_WIFI_KEYS = ("ssid", "vlan", "was", "note")
_NAMES_KEYS = ("domain", "servers")
# What the words of `reaches` stand for, which are no VLANs.
_WORDS_OF_REACHES = {"internet": "what lies beyond the router", "names": "the name servers"}
_MOST_OCTETS = 32
_LABEL = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9-]{0,61}[A-Za-z0-9])?")
_SECRETS = ("passphrase", "pass-phrase", "password", "key", "psk", "pre-shared-key", "secret")


def read_vlans(fields: Fields, faults: Collector) -> Iterator[VlanSpec]:
    for name, key, node in fields.table("vlans"):
        if check_name(name, key, faults) and name in _WORDS_OF_REACHES:
            message = (
                f"a VLAN cannot be called '{name}': in 'reaches' the word means {_WORDS_OF_REACHES[name]}"
            )
            faults.add(kinds.NAME_FORM, message, key.span, name)
        vlan = Fields(node, faults, f"the VLAN '{clip(name)}'", _VLAN_KEYS)
        vlan.require("id")
        yield VlanSpec(
            name,
            # IEEE 802.1Q, table 9-2: 0 and 4095 are reserved. The reader takes any number; a rule names the limits.
            vlan.integer("id", 0, 65_535) or 0,
            vlan.text("subnet") or "",
            vlan.text("gateway") or "",
            _leases(vlan),
            tuple(text for text, _ in vlan.texts("reaches")),
            Written(key, node),
            read_colour(vlan, "colour"),
        )


def _leases(vlan: Fields) -> str:
    node = vlan.value("dhcp")
    if isinstance(node, Scalar):
        return vlan.text("dhcp") or ""
    if node is not None:
        first_and_last = (
            [each.text for each in node.items if isinstance(each, Scalar)]
            if isinstance(node, Sequence)
            else []
        )
        written = "-".join(first_and_last) if len(first_and_last) == 2 else "100-199"
        message = f"'dhcp' is a range of host numbers such as {clip(written)}, not {describe(node)}"
        vlan.wrong(node, message, written if len(first_and_last) == 2 else "")
    return ""


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
            yield WifiSpec(name, _ssid(network), network.text("vlan") or "", Written(key, node))


def read_names(fields: Fields, series: SeriesReader) -> NamesSpec:
    names = fields.below("names", "'names'", _NAMES_KEYS)
    if names is None:
        return NamesSpec("", ())
    servers = tuple(text for text, _ in series.spread(names.texts("servers")))
    return NamesSpec(_domain(names), servers, Written(None, names.node))


def _ssid(network: Fields) -> str:
    """At most 32 octets (IEEE 802.11-2020, 9.4.2.2). It may hold any; one that can't be shown can't be keyed in either."""
    text, node = network.text("ssid") or "", network.value("ssid")
    octets = len(text.encode("utf-8", "replace"))
    if node is not None and octets > _MOST_OCTETS:
        network.wrong(node, f"an SSID has at most {_MOST_OCTETS} bytes of UTF-8; this one has {octets:,}")
    elif node is not None and not text.isprintable():
        network.wrong(node, f"'{clip(text)}' holds a character that nobody can see or key in")
    else:
        return text
    return ""


def _domain(names: Fields) -> str:
    text, node = names.text("domain") or "", names.value("domain")
    if text and node is not None and not _is_domain(text):
        names.wrong(node, f"'{clip(text)}' is no domain name; write it such as 'house.home.arpa'")
        return ""
    return text


def _is_domain(text: str) -> bool:
    """Letters, digits and dashes between dots (RFC 1123, 2.1); labels of at most 63 and 253 in all (RFC 1035, 2.3.4, without the
    length bytes and the root)."""
    return len(text) <= 253 and all(_LABEL.fullmatch(label) for label in text.removesuffix(".").split("."))
