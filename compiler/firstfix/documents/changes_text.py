"""A comparison as text for people and as data for programs."""

from typing import Any

from firstfix.build import ids
from firstfix.compare.changes import Changes, Quantity
from firstfix.source.node import clip
from firstfix.units import metres, number


def changes_text(changes: Changes) -> str:
    """Sections that have something in them, one line a change; "" when nothing changed."""
    sections = (
        ("Renamed", [f"{_thing(each.old)} → {clip(ids.path(each.new), 100)}" for each in changes.renamed]),
        (
            "Not in the old plan under the name that `was:` gives",
            [f"{_thing(each.new)}: {clip(ids.path(each.old), 100)}" for each in changes.strangers],
        ),
        ("Added", [_thing(each) for each in changes.added]),
        ("Removed", [_thing(each) for each in changes.removed]),
        (
            "Changed",
            [
                f"{_thing(each.id)}: {each.attribute} {clip(each.old)} → {clip(each.new)}"
                for each in changes.changed
            ],
        ),
        ("To buy", [_quantity(each) for each in changes.to_buy]),
        ("No longer needed", [_quantity(each) for each in changes.no_longer_needed]),
    )
    blocks = [
        "\n".join([f"{title} ({len(lines)})", *(f"  {line}" for line in lines)])
        for title, lines in sections
        if lines
    ]
    return "\n\n".join(blocks) + "\n" if blocks else ""


def changes_data(changes: Changes) -> dict[str, Any]:
    """The same as plain data: ids as they are in build.json, units in the names."""
    return {
        "renamed": [each._asdict() for each in changes.renamed],
        "unknown_old_names": [each._asdict() for each in changes.strangers],
        "added": list(changes.added),
        "removed": list(changes.removed),
        "changed": [each._asdict() for each in changes.changed],
        "to_buy": [_quantity_data(each) for each in changes.to_buy],
        "no_longer_needed": [_quantity_data(each) for each in changes.no_longer_needed],
    }


def _thing(id_: str) -> str:
    kind, path = ids.kind(id_), clip(ids.path(id_), 100)
    return f"{kind} {path}".strip()


def _quantity(each: Quantity) -> str:
    colour = f", {each.colour}" if each.colour else ""
    if each.unit == "m":
        return f"{metres(each.amount)} of {clip(each.part)}{colour}"
    length = f", {metres(each.length)} long" if each.length else ""
    return f"{number(each.amount)} × {clip(each.part)}{length}{colour}"


def _quantity_data(each: Quantity) -> dict[str, Any]:
    return {
        "part": each.part,
        "cord_length_m": each.length,
        "colour": each.colour,
        "amount": each.amount,
        "unit": each.unit,
    }
