"""The tree to a typed plan, section by section. Every fault of the run is reported; what is faulty is left out."""

import re

from firstfix.finding.collector import Collector
from firstfix.parts.facts import AUTHOR
from firstfix.parts.layers import laid_over
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.plan.dates import date
from firstfix.plan.model import Plan, Written
from firstfix.plan.read_cabinets import read_cabinets
from firstfix.plan.read_cabling import read_cabling
from firstfix.plan.read_circuits import read_circuits, read_mains
from firstfix.plan.read_drawings import read_drawings
from firstfix.plan.read_equipment import read_defaults, read_devices
from firstfix.plan.read_exceptions import read_exceptions
from firstfix.plan.read_internet import read_internet
from firstfix.plan.read_labels import read_labels
from firstfix.plan.read_links import read_links
from firstfix.plan.read_logical import read_names, read_vlans, read_wifi
from firstfix.plan.read_phases import read_phases
from firstfix.plan.read_places import read_sites, read_ways
from firstfix.plan.read_shops import read_shops, read_wish
from firstfix.plan.read_stock import read_stock
from firstfix.plan.read_was import renames
from firstfix.plan.read_work import read_work
from firstfix.plan.series import SeriesReader
from firstfix.source.fields import Fields
from firstfix.source.node import Mapping, clip

PLAN_KEYS = (
    "name", "start", "currency", "include", "sites", "ways", "cabinets", "devices", "links", "vlans", "wifi", "names", "cabling",
    "parts", "defaults", "exceptions", "note", "circuits", "stock", "internet", "phases", "mains", "shops", "purchase", "work", "labels",
    "drawings",
)  # fmt: skip

# Signs that one currency alone has; a dollar may be of many countries.
_SIGNS = {"€": "EUR", "£": "GBP", "₣": "CHF", "zł": "PLN"}


def read_plan(tree: Mapping, library: Library, faults: Collector) -> Plan:
    """The plan that `tree` says, with its own parts laid over the library's by name."""
    fields = Fields(tree, faults, "a plan", PLAN_KEYS)
    own_parts = _own_parts(fields, library, faults)
    parts = laid_over(own_parts, library)
    defaults = read_defaults(fields, parts, faults)
    series = SeriesReader(faults)
    devices = tuple(read_devices(fields, defaults, parts, series, faults))
    sites = tuple(read_sites(fields, series, faults))
    ways = tuple(read_ways(fields, series, faults))
    cabinets = tuple(read_cabinets(fields, series, faults))
    vlans = tuple(read_vlans(fields, faults))
    wifi = tuple(read_wifi(fields, faults))
    start, currency = date(fields, "start"), _currency(fields)
    kinds = (("device", devices), ("way", ways), ("cabinet", cabinets), ("vlan", vlans), ("wifi", wifi))
    return Plan(
        name=fields.text("name") or "",
        start=start,
        currency=currency,
        sites=sites,
        ways=ways,
        cabinets=cabinets,
        devices=devices,
        links=tuple(read_links(fields, devices, series, faults)),
        vlans=vlans,
        wifi=wifi,
        names=read_names(fields, series),
        cabling=read_cabling(fields, faults),
        circuits=tuple(read_circuits(fields, faults)),
        mains=read_mains(fields),
        stock=tuple(read_stock(fields, parts, faults)),
        shops=tuple(read_shops(fields, currency, start, faults)),
        purchase=read_wish(fields, faults),
        drawings=read_drawings(fields, faults),
        internet=read_internet(fields),
        phases=tuple(read_phases(fields, start, faults)),
        exceptions=tuple(read_exceptions(fields, faults)),
        work=read_work(fields, start, faults),
        labels=read_labels(fields, faults),
        parts=own_parts,
        renames=renames(sites, kinds, faults),
        written=Written(None, tree),
        in_doubt=frozenset(faults.in_doubt),
    )


def _own_parts(fields: Fields, library: Library, faults: Collector) -> dict[str, Part]:
    node = fields.value("parts")
    return {} if node is None else read_parts(node, library, faults, AUTHOR)


def _currency(fields: Fields) -> str:
    text = fields.text("currency")
    if text is None:
        return "EUR"
    if re.fullmatch(r"[A-Z]{3}", text) is None:
        node = fields.value("currency")
        assert node is not None
        better = text.upper() if re.fullmatch(r"[A-Za-z]{3}", text) else _SIGNS.get(text, "")
        hint = f"; write '{better}'" if better else ""
        message = f"'currency' is a code of three letters of ISO 4217 such as EUR, not '{clip(text)}'{hint}"
        fields.wrong(node, message, better)
        return "EUR"
    return text
