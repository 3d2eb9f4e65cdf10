"""The file of kept choices, from bytes to typed choices. Every fault is a finding at its place, and what is faulty is not kept."""

import re

from firstfix.allocations.choices import (
    LABELLED_KINDS,
    NO_CHOICES,
    Choices,
    KeptFeed,
    KeptHost,
    KeptLabel,
    KeptRoute,
    KeptRouter,
    KeptRun,
    KeptStop,
)
from firstfix.allocations.kinds import KEPT_MERGE
from firstfix.allocations.markers import both_sides
from firstfix.finding.collector import Collector
from firstfix.source import kinds
from firstfix.source.fields import Fields, as_text
from firstfix.source.load import holds_nothing
from firstfix.source.node import Mapping, Node, Sequence, describe
from firstfix.source.reader import MOST_BYTES, parse
from firstfix.span import Span

# A host number of the widest subnet that numbers its hosts: IPv6 has 64 bits of them (RFC 4291, section 2.5.4).
MOST_HOST = 2**64
_MOST_OUTLETS = 100_000
_MOST_INLETS = 100
# As many as a run of a plan has.
_MOST_STOPS = 40
_LABEL = re.compile("[A-Z0-9]{1,100}")


def read_choices(data: bytes, shown_as: str, faults: Collector) -> Choices:
    """The choices in `data`. Identical lines count once: a merge may hold a line of both sides twice."""
    text, mark = both_sides(data)
    if mark:
        message = "a merge was left unfinished here; the lines of both sides are kept"
        faults.add(KEPT_MERGE, message, Span(shown_as, mark, 1, mark, 8))
    if len(text) <= MOST_BYTES and holds_nothing(text):
        return NO_CHOICES
    root = parse(text, shown_as, faults)
    if root is None:
        return NO_CHOICES
    if not isinstance(root, Sequence):
        message = f"kept choices are a list, one choice to a line, not {describe(root)}"
        faults.add(kinds.VALUE_KIND, message, root.span)
        return NO_CHOICES
    return _Reading(faults).all(root)


class _Reading:
    def __init__(self, faults: Collector) -> None:
        self._faults = faults
        self._runs: dict[KeptRun, KeptRun] = {}
        self._hosts: dict[KeptHost, KeptHost] = {}
        self._feeds: dict[KeptFeed, KeptFeed] = {}
        self._routes: dict[KeptRoute, KeptRoute] = {}
        self._routers: dict[KeptRouter, KeptRouter] = {}
        self._labels: dict[KeptLabel, KeptLabel] = {}

    def all(self, root: Sequence) -> Choices:
        for item in root.items:
            self._one(item)
        return Choices(
            tuple(self._runs.values()),
            tuple(self._hosts.values()),
            tuple(self._feeds.values()),
            tuple(self._routes.values()),
            tuple(self._routers.values()),
            tuple(self._labels.values()),
        )

    def _one(self, node: Node) -> None:
        entries = node.entries if isinstance(node, Mapping) else {}
        if "run" in entries:
            self._run(Fields(node, self._faults, "a kept run", ("run", "jacks", "says")))
        elif "fed-by" in entries:
            self._feed(
                Fields(node, self._faults, "a kept mains feed", ("device", "inlet", "fed-by", "outlet"))
            )
        elif "device" in entries:
            self._host(Fields(node, self._faults, "a kept host number", ("device", "vlan", "host")))
        elif "rooms" in entries:
            self._route(Fields(node, self._faults, "a kept route", ("rooms", "ways")))
        elif "router" in entries:
            self._router(Fields(node, self._faults, "a kept router", ("router",)))
        elif "label" in entries:
            self._label(Fields(node, self._faults, "a kept label", ("label", *LABELLED_KINDS)))
        else:
            message = (
                "a kept choice is a table about a 'run', a 'device', two 'rooms', the 'router' or a 'label'"
            )
            self._faults.add(kinds.VALUE_KIND, message, node.span)

    def _run(self, fields: Fields) -> None:
        name, says = fields.text("run"), fields.text("says") or ""
        if not fields.require("jacks") or name is None:
            return
        stops = [self._stop(item) for item in fields.items("jacks")]
        found = [stop for stop in stops if stop is not None]
        if len(found) < len(stops):
            return
        if not 2 <= len(found) <= _MOST_STOPS:
            fields.wrong(
                fields.node, f"a kept run has a jack at each of its places, 2 to {_MOST_STOPS} of them"
            )
        else:
            bare = KeptRun(name, tuple(found), says)
            self._runs.setdefault(bare, bare._replace(at=fields.node.span))

    def _stop(self, node: Node) -> KeptStop | None:
        """`core/3`, or a list of such for several jacks of one device."""
        items = node.items if isinstance(node, Sequence) else [node]
        texts = [as_text(item, self._faults, "a jack") for item in items]
        named = [text.partition("/") for text in texts if text is not None]
        if len(named) < len(items):
            return None
        if not named or any(not device or not jack or device != named[0][0] for device, _, jack in named):
            message = "a place of a kept run is a jack such as core/3, or a list of jacks of one device"
            self._faults.add(kinds.VALUE_KIND, message, node.span)
            return None
        return KeptStop(named[0][0], tuple(jack for _, _, jack in named))

    def _host(self, fields: Fields) -> None:
        device, vlan = fields.text("device"), fields.text("vlan")
        host = _number(fields, "host", MOST_HOST)
        if fields.require("vlan") and fields.require("host") and None not in (device, vlan, host):
            bare = KeptHost(device or "", vlan or "", host or 0)
            self._hosts.setdefault(bare, bare._replace(at=fields.node.span))

    def _feed(self, fields: Fields) -> None:
        device, source = fields.text("device"), fields.text("fed-by")
        outlet = _number(fields, "outlet", _MOST_OUTLETS)
        inlet = _number(fields, "inlet", _MOST_INLETS) if "inlet" in fields else 1
        if (
            fields.require("device")
            and fields.require("outlet")
            and None not in (device, source, outlet, inlet)
        ):
            bare = KeptFeed(device or "", inlet or 1, source or "", outlet or 1)
            self._feeds.setdefault(bare, bare._replace(at=fields.node.span))

    def _route(self, fields: Fields) -> None:
        rooms = [text for text, _ in fields.texts("rooms")]
        ways = [text for text, _ in fields.texts("ways")]
        if not fields.require("ways"):
            return
        if len(rooms) != 2 or rooms != sorted(rooms):
            fields.wrong(fields.node, "a kept route names its two 'rooms', the one that sorts first in front")
            return
        bare = KeptRoute((rooms[0], rooms[1]), tuple(ways))
        self._routes.setdefault(bare, bare._replace(at=fields.node.span))

    def _router(self, fields: Fields) -> None:
        device = fields.text("router")
        if device is not None:
            bare = KeptRouter(device)
            self._routers.setdefault(bare, bare._replace(at=fields.node.span))

    def _label(self, fields: Fields) -> None:
        """Upper-case letters and digits, as we choose them."""
        label = fields.text("label")
        named = [kind for kind in LABELLED_KINDS if fields.value(kind) is not None]
        name = fields.text(named[0]) if len(named) == 1 else None
        if len(named) != 1:
            fields.wrong(fields.node, f"a kept label is that of one thing: a {', '.join(LABELLED_KINDS)}")
        elif label is not None and _LABEL.fullmatch(label) is None:
            fields.wrong(
                fields.node,
                f"a kept label has capitals and digits, unlike {describe(fields.entries['label'][1])}",
            )
        elif label is not None and name is not None:
            bare = KeptLabel(named[0], name, label)
            self._labels.setdefault(bare, bare._replace(at=fields.node.span))


def _number(fields: Fields, key: str, most: int) -> int | None:
    """A whole number from 1 up, of more digits than a plan's own numbers have."""
    text = fields.text(key)
    if text is None:
        return None
    # Not isdigit(), which takes the digits of every script.
    if text.isascii() and text.isdigit() and len(text) <= 20 and 1 <= int(text) <= most:
        return int(text)
    node = fields.value(key)
    assert node is not None
    fields.wrong(node, f"'{key}' is a whole number from 1 to {most:,}, not {describe(node)}")
    return None
