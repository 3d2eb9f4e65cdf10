"""What stands there: devices, cabinets and what is mounted in them, jacks, and every other thing that must be at hand."""

from typing import NamedTuple

from firstfix.parts.facts import Figure, Unknown
from firstfix.parts.part import Part

# Where an item comes from; each item is exactly one of these (the closure law).
TO_BUY = "to buy"
IN_PLACE = "in place"
IN_STOCK = "in stock"
IN_A_BOX = "in a box"


class Device(NamedTuple):
    """Anything with a name that a link can reach; panels and outlets are passive ones.

    `cabinet` is "" outside cabinets. `carried_by` is the id of the shelf it stands on, or "". `mac` and `serial` as read at
    unboxing, or "".
    """

    id: str
    name: str
    part: Part
    room: str
    cabinet: str
    carried_by: str
    is_owned: bool
    phase: str
    note: str
    mac: str = ""
    serial: str = ""


class Cooling(NamedTuple):
    """How a cabinet gets rid of heat: `kind` closed, meshed, fan or "" (not said); `air_flow` of its fan in m³/h."""

    kind: str
    air_flow: Figure


_UNSAID = Unknown("the plan does not say")


class Cabinet(NamedTuple):
    """`above_floor`: of its lower edge. `clear_in_front`: room to open it and to stand there. Metres, both."""

    id: str
    name: str
    part: Part
    room: str
    units: int
    usable_depth: Figure
    rails: str
    thread: str
    is_owned: bool
    phase: str = ""
    cooling: Cooling = Cooling("", _UNSAID)
    above_floor: Figure = _UNSAID
    clear_in_front: Figure = _UNSAID


class Fitting(NamedTuple):
    """A thing in a cabinet that no link reaches: a shelf, a cover panel. Its id is its cabinet's and its lowest unit."""

    id: str
    part: Part
    cabinet: str
    is_owned: bool
    phase: str = ""


class Mount(NamedTuple):
    """What takes units `low` to `high` of a cabinet, both included, 1 at the bottom. `item` is a device's or fitting's id, or ""
    for units kept free; `what` then says for what, and `heat` how many watts that will give off.

    `is_over`: the item stands in front of what else is in its units. `side`: left or right, as one stands before that face, of one
    of two half-width things in the same units; else "".
    """

    cabinet: str
    item: str
    low: int
    high: int
    face: str
    what: str
    is_kept_free: bool
    is_over: bool
    side: str = ""
    heat: Figure = _UNSAID
    phase: str = ""


class Occupancy(NamedTuple):
    """One unit of one cabinet. `mounts` are what wants it: none, one, or (a fault) more."""

    cabinet: str
    unit: int
    mounts: tuple[Mount, ...]


class Jack(NamedTuple):
    """`face` is front or rear; only passive terminations have a rear. `order` sorts a device's jacks as they stand.

    `power` is "", takes or gives (PoE). `needs_module` is the opening a jack module must fill first, or "".
    `side` is outside for a gateway's jack towards the provider's line, else inside.
    """

    id: str
    device: str
    name: str
    order: int
    face: str
    family: str
    rate: Figure
    power: str
    needs_module: str
    side: str = "inside"


class Through(NamedTuple):
    """Jack to jack inside one device: `data` passes or regenerates, `power` passes, blocks or injects (towards `far`)."""

    near: str
    far: str
    data: str
    power: str


class Item(NamedTuple):
    """One thing, or `count` equal ones, that must be at hand, screws included.

    `length` in metres for cable cut from a box, and of a mains cord as sold; else 0. `for_id` is what needs it, `why` in a few words.
    `standing` is one of the four words above.
    """

    id: str
    part: str
    count: int  # type: ignore[assignment]  # the word people count with; tuple.count is not used on items
    length: float
    place: str
    for_id: str
    why: str
    standing: str
    phase: str
