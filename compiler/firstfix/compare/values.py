"""What a record holds: plain words, or ids of other things, so that a value can be followed over a rename.

Leaf of this folder: values are made, shown, and renamed here, and nothing else knows how they are kept.
"""

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.renames import renamed

# How several ids stand together: in the order given, in no order, or in one that may be read from either end.
IN_ORDER, IN_NO_ORDER, EITHER_WAY = "in order", "in no order", "either way"
# Ends the id of what is gone while another thing goes by that id; no name of an author's holds it.
OUSTED = "~"
_OF_VLAN = " in vlan:"


class Names(NamedTuple):
    """Ids of things, in their one order; `between` them when shown, `after` them what is no name (the units of a cabinet)."""

    ids: tuple[str, ...]
    order: str
    between: str
    after: str = ""


Value = str | Names
Record = dict[str, Value]


def one(id_: str, after: str = "") -> Value:
    """One thing; "none" where there is none."""
    return Names((id_,), IN_ORDER, "", after) if ids.path(id_) else "none"


def some(given: Iterable[str], between: str = ", ", empty: str = "none") -> Value:
    """Things in no order."""
    found = tuple(sorted(given))
    return Names(found, IN_NO_ORDER, between) if found else empty


def row(given: Iterable[str], empty: str = "none") -> Value:
    """Things in the order in which they count."""
    found = tuple(given)
    return Names(found, IN_ORDER, ", ") if found else empty


def chain(given: Iterable[str]) -> Value:
    """Things one after the other, read from whichever end."""
    found = tuple(given)
    return Names(min(found, found[::-1]), EITHER_WAY, " – ") if found else "none"


def in_vlan(attribute: str, vlan: str) -> str:
    """An attribute that a thing has once in each VLAN."""
    return f"{attribute} in {vlan}"


def shown(value: Value) -> str:
    """A value for people: the author's own names."""
    if isinstance(value, str):
        return value
    named = [ids.path(each).removesuffix(OUSTED) for each in value.ids]
    listed = value.between.join(sorted(named) if value.order == IN_NO_ORDER else named)
    return f"{listed} {value.after}".rstrip()


def shown_attribute(attribute: str) -> str:
    head, mark, vlan = attribute.partition(_OF_VLAN)
    return f"{head} in {vlan}" if mark else attribute


def with_names(value: Value, names: Mapping[str, str]) -> Value:
    """The value as it would be if things bore other names."""
    if isinstance(value, str) or not names:
        return value
    exchanged = tuple([renamed(each, names) for each in value.ids])
    if value.order == IN_NO_ORDER:
        exchanged = tuple(sorted(exchanged))
    elif value.order == EITHER_WAY:
        exchanged = min(exchanged, exchanged[::-1])
    return value._replace(ids=exchanged)


def attribute_with_names(attribute: str, names: Mapping[str, str]) -> str:
    head, mark, vlan = attribute.partition(_OF_VLAN)
    return in_vlan(head, renamed(f"vlan:{vlan}", names)) if mark else attribute


def without_name(attribute: str) -> str:
    """The attribute without the VLAN that it is in."""
    return attribute.partition(_OF_VLAN)[0]


def record_with_names(record: Mapping[str, Value], names: Mapping[str, str]) -> Record:
    return {
        attribute_with_names(attribute, names): with_names(value, names)
        for attribute, value in record.items()
    }
