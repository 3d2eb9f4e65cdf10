"""A comparison as JSON, as `schemas/changes.schema.json` describes it. Keys keep their meaning within a `format_version`."""

import json
from typing import Any

from firstfix.compare.changes import Quantity, State
from firstfix.compare.room_left import RoomLeft
from firstfix.compare.verdicts import Verdict, VerdictChange
from firstfix.documents.changes import ComparedPlans
from firstfix.graphs.headroom import Headroom
from firstfix.purchase.difference import Difference
from firstfix.purchase.money import plain
from firstfix.purchase.needs import Pack
from firstfix.purchase.order import Order
from firstfix.purchase.used_again import Freed

FORMAT = "firstfix changes"
FORMAT_VERSION = 1
# No figure of ours is truer than this.
_DIGITS = 6


def changes_json(compared: ComparedPlans) -> str:
    # All but ASCII is escaped: no control character reaches a terminal, and any locale can write it.
    return json.dumps(changes_data(compared), indent=2, ensure_ascii=True, allow_nan=False) + "\n"


def changes_data(compared: ComparedPlans) -> dict[str, Any]:
    """Ids as they are in build.json, units in the names."""
    changes, bought = compared.changes, compared.purchases
    currency = bought.currency
    return {
        "format": FORMAT,
        "format_version": FORMAT_VERSION,
        "old_plan": compared.old,
        "new_plan": compared.new,
        "notes": list(compared.notes),
        "renamed": [each._asdict() for each in changes.renamed],
        "unknown_old_names": [{"old": each.old, "new": each.new} for each in changes.strangers],
        "added": list(changes.added),
        "removed": list(changes.removed),
        "changed": [each._asdict() for each in changes.changed],
        "states": [_state(each) for each in changes.states],
        "findings": [_verdict_change(each) for each in compared.verdicts],
        "headroom": [_room(each) for each in compared.room],
        "needed_more": [_quantity(each) for each in changes.to_buy],
        "needed_no_longer": [_quantity(each) for each in changes.no_longer_needed],
        "to_buy": [_line(each, currency) for each in bought.to_buy],
        "left_over": [_line(each, currency) for each in bought.left_over],
        "used_again": [_freed(each) for each in bought.free.again],
        "to_stock": [_freed(each) for each in bought.free.stock],
        "cable_given_up": [{"part": part, "metres": length} for part, length in bought.free.given_up],
        "order": None if bought.order is None else _order(bought.order, currency),
        "currency": currency,
    }


def _state(each: State) -> dict[str, Any]:
    return {
        "old": each.old or None,
        "new": each.new or None,
        "state": each.state,
        "categories": list(each.categories),
    }


def _verdict_change(each: VerdictChange) -> dict[str, Any]:
    return {
        "how": each.how,
        "rule": each.verdict.rule,
        "subject": each.verdict.subject,
        "old": None if each.old is None else _verdict(each.old),
        "new": None if each.new is None else _verdict(each.new),
    }


def _verdict(each: Verdict) -> dict[str, Any]:
    measured = each.measurement
    figures = (
        None
        if measured is None
        else {
            "what": measured.what,
            "figure": round(measured.figure, _DIGITS),
            "relation": measured.relation,
            "limit": round(measured.limit, _DIGITS),
            "unit": measured.unit,
            "margin": round(measured.margin, _DIGITS),
        }
    )
    return {"level": each.level, "message": each.message, "measurement": figures}


def _room(each: RoomLeft) -> dict[str, Any]:
    return {
        "what": each.what,
        "id": each.id,
        "of": each.of,
        "unit": each.unit,
        "old": None if each.old is None else _row(each.old),
        "new": None if each.new is None else _row(each.new),
        "changed": each.is_changed,
        "tight": each.is_tight,
    }


def _row(row: Headroom) -> dict[str, Any]:
    return {
        "used": _rounded(row.used),
        "limit": _rounded(row.limit),
        "left": _rounded(row.left),
        "not_known": row.why,
    }


def _rounded(figure: float | None) -> float | None:
    return None if figure is None else round(figure, _DIGITS)


def _quantity(each: Quantity) -> dict[str, Any]:
    return {
        "part": each.part,
        "cord_length_m": each.length,
        "colour": each.colour,
        "amount": each.amount,
        "unit": each.unit,
    }


def _line(each: Difference, currency: str) -> dict[str, Any]:
    return {
        "line": each.line,
        "part": each.part,
        "unit": each.unit,
        "packs": [_pack(pack, currency) for pack in each.packs],
        "price": plain(each.price, currency) if isinstance(each.price, int) else None,
        "typical_price": each.is_typical_price,
        "to_settle": list(each.unsettled),
    }


def _pack(pack: Pack, currency: str) -> dict[str, Any]:
    price = plain(pack.price, currency) if isinstance(pack.price, int) else None
    return {"number": pack.number, "size": pack.size, "price": price}


def _freed(each: Freed) -> dict[str, Any]:
    return {
        "part": each.part,
        "cord_length_m": each.lot.length,
        "colour": each.lot.colour,
        "count": each.count,
        "was_for": list(each.was_for),
        "now_for": list(each.now_for),
    }


def _order(order: Order, currency: str) -> dict[str, Any]:
    return {
        "paid": plain(order.paid, currency),
        "proven_least": order.is_proven,
        "parcels": [
            {"shop": each.shop.name, "paid": plain(each.paid, currency), "lines": len(each.lines)}
            for each in order.parcels
        ],
        "not_ordered": [{"line": each.line, "why": each.why} for each in order.held],
    }
