"""Which fastener holds a thing on a cabinet's rails: what came in its box or it names as needed, if that suits, else the cheapest that does.

Takes the library, and the equipment for what a hinged front must close over; gives parts by rails, thread and tallest head.
"""

from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Library, Part
from firstfix.resolve.equipment import Equipment

_ANY_HEAD = Unknown("nothing closes over it")


def suits(fastener: Part, rails: str, thread: str) -> bool:
    """Whether it goes into the holes of these rails: square, round or threaded, and of which thread."""
    return fastener.kind == "fastener" and fastener.rails == rails and fastener.thread == thread


def tallest_heads(equipment: Equipment) -> dict[str, Figure]:
    """For each thing in units that a hinged front closes over, and that front itself: the tallest head it tolerates."""
    found: dict[str, Figure] = {}
    for cover in equipment.mounts:
        if not cover.is_over or cover.item not in equipment.fittings:
            continue
        form = equipment.fittings[cover.item].part.cover
        if form is not None:
            units = (cover.cabinet, cover.low, cover.high, cover.face)
            behind = (each.item for each in equipment.mounts if each[:1] + each[2:5] == units)
            found.update((item, form.screw_head) for item in behind if item)
    return found


class Fasteners:
    """Asked for many things on the same few kinds of rails, it looks once."""

    def __init__(self, equipment: Equipment, library: Library) -> None:
        self._library = library
        self._heads = tallest_heads(equipment)
        self._found: dict[tuple[str, str, Figure], str] = {}

    def holding(self, item: str, part: Part, rails: str, thread: str) -> str:
        """The name of the fastener for this thing, or "" where the library has none for such rails."""
        for name, _ in (*part.in_box, *part.needs):
            if name in self._library and suits(self._library[name], rails, thread):
                return name
        key = (rails, thread, self._heads.get(item, _ANY_HEAD))
        if key not in self._found:
            self._found[key] = self._cheapest(*key)
        return self._found[key]

    def _cheapest(self, rails: str, thread: str, tallest: Figure) -> str:
        """Where no head is low enough, the cheapest of all: the rule on heads says so."""
        fasteners = parts_of_kind(self._library, "fastener")
        fitting = [part for part in fasteners if rails and thread and suits(part, rails, thread)]
        low = [part for part in fitting if _closes(part, tallest)]
        return min(low or fitting, key=_price).name if fitting else ""


def _closes(part: Part, tallest: Figure) -> bool:
    if isinstance(tallest, Unknown):
        return True
    head = part.fastener.head_height if part.fastener is not None else tallest
    return isinstance(head, Fact) and head.high <= tallest.low


def _price(part: Part) -> tuple[float, str]:
    """For one; what has no price comes last."""
    return (part.price.typical / part.pack if isinstance(part.price, Fact) else float("inf"), part.name)
