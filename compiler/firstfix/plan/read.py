"""The tree to a typed plan, section by section. Every fault of the run is reported; what is faulty is left out."""

import datetime
import re

from firstfix.finding.collector import Collector
from firstfix.parts.facts import AUTHOR
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.plan.model import Plan, Written
from firstfix.plan.read_equipment import read_cabinets, read_defaults, read_devices
from firstfix.plan.read_links import read_links
from firstfix.plan.read_logical import read_cabling, read_names, read_vlans, read_wifi
from firstfix.plan.read_places import read_sites, read_ways
from firstfix.source.fields import Fields
from firstfix.source.node import Mapping, clip

PLAN_KEYS = (
    "name", "start", "currency", "include", "sites", "ways", "cabinets", "devices", "links", "vlans", "wifi", "names", "cabling",
    "parts", "defaults", "note",
)  # fmt: skip


def read_plan(tree: Mapping, library: Library, faults: Collector) -> Plan:
    """The plan that `tree` says, with its own parts laid over the library's by name."""
    fields = Fields(tree, faults, "a plan", PLAN_KEYS)
    own_parts = _own_parts(fields, library, faults)
    kind_of_part = {name: part.kind for name, part in {**library, **own_parts}.items()}
    defaults = read_defaults(fields, faults)
    devices = tuple(read_devices(fields, defaults, kind_of_part, faults))
    return Plan(
        name=fields.text("name") or "",
        start=_start(fields),
        currency=_currency(fields),
        sites=tuple(read_sites(fields, faults)),
        ways=tuple(read_ways(fields, faults)),
        cabinets=tuple(read_cabinets(fields, faults)),
        devices=devices,
        links=tuple(read_links(fields, devices, faults)),
        vlans=tuple(read_vlans(fields, faults)),
        wifi=tuple(read_wifi(fields, faults)),
        names=read_names(fields),
        cabling=read_cabling(fields, faults),
        parts=own_parts,
        defaults=defaults,
        written=Written(None, tree),
    )


def _own_parts(fields: Fields, library: Library, faults: Collector) -> dict[str, Part]:
    node = fields.value("parts")
    return {} if node is None else read_parts(node, library, faults, AUTHOR)


def _start(fields: Fields) -> str:
    text = fields.text("start")
    if text is None:
        return ""
    try:
        return datetime.date.fromisoformat(text).isoformat()
    except ValueError:
        node = fields.value("start")
        assert node is not None
        fields.wrong(node, f"'start' is a date such as 2027-03-01 (year-month-day), not '{clip(text)}'")
        return ""


def _currency(fields: Fields) -> str:
    text = fields.text("currency")
    if text is None:
        return "EUR"
    if re.fullmatch(r"[A-Z]{3}", text) is None:
        node = fields.value("currency")
        assert node is not None
        fields.wrong(
            node, f"'currency' is a code of three letters of ISO 4217 such as EUR, not '{clip(text)}'"
        )
        return "EUR"
    return text
