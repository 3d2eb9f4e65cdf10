"""`internet:`: how the provider's line comes in, as far as the router's outside must be set up for it."""

import ipaddress

from firstfix.plan.model import InternetSpec, Written
from firstfix.source.fields import Fields
from firstfix.source.node import Mapping, clip

_KEYS = ("through", "addresses", "address", "router", "translates", "note")
# How a router's outside gets its address: RFC 2131, by hand, or RFC 2516 with RFC 1332.
MODES = ("dhcp", "fixed", "pppoe")
_SECRETS = ("passphrase", "password", "user", "login", "secret")


def read_internet(fields: Fields) -> InternetSpec | None:
    """`{through: line-box, addresses: fixed, address: 192.0.2.10/30, router: 192.0.2.9, translates: false}`"""
    line = fields.below("internet", "'internet'", (*_KEYS, *_SECRETS))
    if line is None or not isinstance(line.node, Mapping):
        return None
    for secret in _SECRETS:
        value = line.value(secret)
        if value is not None:
            line.wrong(value, "a plan holds no access data: it is shown to others; key them in at the router")
    line.require("through")
    mode = line.choice("addresses", MODES) or "dhcp"
    if mode == "fixed":
        line.require("address")
    elif line.value("address") is not None:
        line.wrong(line.entries["address"][0], f"'address' goes with 'addresses: fixed', not with {mode}")
    return InternetSpec(
        line.text("through") or "",
        mode,
        _address(line) if mode == "fixed" else "",
        _router(line),
        line.flag("translates"),
        Written(None, line.node),
    )


def _address(line: Fields) -> str:
    text = line.text("address")
    if text is None:
        return ""
    try:
        given = ipaddress.ip_interface(text)
    except ValueError:
        given = None
    if given is None or "/" not in text:
        value = line.value("address")
        assert value is not None
        line.wrong(
            value, f"'address' is an address with its prefix, such as 192.0.2.10/30, not '{clip(text)}'"
        )
        return ""
    return str(given)


def _router(line: Fields) -> str:
    text = line.text("router")
    if text is None:
        return ""
    try:
        return str(ipaddress.ip_address(text))
    except ValueError:
        value = line.value("router")
        assert value is not None
        line.wrong(
            value, f"'router' is the address of the provider's router, such as 192.0.2.9, not '{clip(text)}'"
        )
        return ""
