"""What sort of change it is, in the words of who has to do it: moved, re-run, re-patched, re-addressed, and so on.

Takes an id and what of it changed; gives one word. The list is this module's own.
"""

from firstfix.build import ids
from firstfix.build.cabling import RUN
from firstfix.compare.delta import Slot, Turn
from firstfix.compare.values import Names, shown

ADDED = "added"
REMOVED = "removed"
RELABELLED = "re-labelled"
MOVED = "moved"
RERUN = "re-run"
REPATCHED = "re-patched"
READDRESSED = "re-addressed"
REPOWERED = "re-powered"
RESET = "re-set"
OTHERWISE = "changed otherwise"
# In the order in which they are told: what is to be carried first, what is to be keyed in last.
CATEGORIES = (
    ADDED, REMOVED, RELABELLED, MOVED, RERUN, REPATCHED, REPOWERED, READDRESSED, RESET, OTHERWISE,
)  # fmt: skip

_BY_ATTRIBUTE = {
    ("device", "room"): MOVED,
    ("device", "units"): MOVED,
    ("device", "stands on"): MOVED,
    ("cabinet", "room"): MOVED,
    ("cabinet", "above the floor"): MOVED,
    ("fitting", "units"): MOVED,
    ("units", "units"): MOVED,
    ("link", "passes"): REPATCHED,
    ("link", "lanes"): REPATCHED,
    ("device", "PoE from"): REPOWERED,
    ("device", "PoE class"): REPOWERED,
    ("device", "PoE priority"): REPOWERED,
    ("device", "PoE to give"): REPOWERED,
    ("vlan", "subnet"): READDRESSED,
    ("vlan", "gateway"): READDRESSED,
    ("vlan", "leases"): READDRESSED,
    ("internet", "addresses"): READDRESSED,
    ("vlan", "number"): RESET,
    ("vlan", "reaches"): RESET,
    ("wifi", "SSID"): RESET,
    ("wifi", "VLAN"): RESET,
    ("names", "domain"): RESET,
    ("names", "servers"): RESET,
    ("link", "spare for"): RESET,
}


def category(slot: Slot, turn: Turn, piece_kind: str = "") -> str:
    """`piece_kind`: of a piece, whether it is a cord or an installed run."""
    kind = ids.kind(slot.id)
    if kind == "piece":
        return _of_piece(slot.attribute, turn, piece_kind)
    if kind == "jack":
        return RESET
    if slot.attribute.startswith("mains from"):
        return REPOWERED
    if slot.attribute.startswith("address in "):
        return READDRESSED
    return _BY_ATTRIBUTE.get((kind, slot.attribute), OTHERWISE)


def _of_piece(attribute: str, turn: Turn, piece_kind: str) -> str:
    """A run that ends on another jack of the same two devices is put on anew, not pulled anew."""
    if attribute == "owned":
        return OTHERWISE
    if piece_kind != RUN:
        return REPATCHED
    return REPATCHED if attribute == "joins" and _devices(turn.old) == _devices(turn.new) else RERUN


def _devices(value: object) -> tuple[str, ...]:
    if not isinstance(value, Names):
        return (shown(str(value)),)
    return tuple(sorted(ids.path(each).rpartition("/")[0] for each in value.ids))
