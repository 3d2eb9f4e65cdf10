"""Why a line of the shopping list: who needs it, how many that makes, in which packs, and what is there already."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import Item
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN, WORKED_OUT
from firstfix.explaining.lines import part_fact, part_written, sections
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.ordered import is_ordered, order_lines
from firstfix.parts.facts import TYPICAL, Fact
from firstfix.parts.part import Part
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need, needs_of
from firstfix.purchase.owned import Owned, already_there
from firstfix.purchase.reasons import shown
from firstfix.purchase.spares import spare_rule
from firstfix.units import metres, number

# A name with more needs than this has them counted: a cage nut set serves everything on rails.
_MOST_NEEDS = 60


def explain_need(build: Build, id_: str) -> Explanation:
    """`need:cord-cat6/1 m`, or `part:cord-cat6` for all lines of a part, those of what is there already too."""
    name = ids.path(id_)
    # A length follows a cord's name: `cord-cat6/1 m`.
    own_name = name.partition("/")[0]
    lines = [each for each in needs_of(build, own_name) if name in (each.part, ids.path(each.id))]
    owned = [each for each in already_there(build) if each.part == name]
    part = build.library.get(own_name)
    made = sections(
        *((_title(each), _need(build, each)) for each in lines),
        *((f"{each.standing}: {_amount(each.quantity, each.unit)}", _owned(each)) for each in owned),
        ("not needed", () if lines or owned else (Line(name, "nothing in this plan needs one"),)),
        ("the part", _part(build, part) if part is not None else ()),
    )
    title = f"{name}, {part.title}" if part is not None else name
    at = build.provenance.written(PLAN, "parts", part.name) if part is not None else None
    return Explanation(id_, "line to buy" if lines else "part", title, at, made)


def _title(need: Need) -> str:
    length = f" of {metres(need.length)}" if need.length else ""
    colour = f", {need.colour}" if need.colour else ""
    return f"to buy: {_amount(need.amount.needed, need.amount.unit)}{length}{colour}"


def _amount(quantity: float, unit: str) -> str:
    return metres(quantity) if unit == METRES else number(quantity)


def _need(build: Build, need: Need) -> Iterator[Line]:
    by_id = {item.id: item for item in build.items if item.part == need.part}
    items = [by_id[each] for each in need.items]
    for item in items[:_MOST_NEEDS]:
        yield _needed(build, item)
    if len(items) > _MOST_NEEDS:
        yield Line("and more", f"{len(items) - _MOST_NEEDS} further needs")
    yield from _spare(build, need)
    from_shops = tuple(order_lines(build, need))
    yield from from_shops
    # Else the packs are those of the shop.
    if not any(is_ordered(line) for line in from_shops):
        yield from _packs(need)


def _needed(build: Build, item: Item) -> Line:
    """What needs it, as people call that, and where it is written; why only where it isn't the thing itself."""
    amount = metres(item.length) if item.length else number(item.count)
    piece = build.pieces.get(item.for_id)
    at = build.provenance.span(piece.link if piece is not None else item.for_id)
    is_itself = item.why.endswith("itself") or (piece is not None and piece.part == item.part)
    return Line(shown(build, item.for_id), amount, "", "" if is_itself else item.why, at)


def _spare(build: Build, need: Need) -> Iterator[Line]:
    if need.amount.spares:
        at = build.provenance.written(PLAN, "cabling", "spares")
        yield Line("spare", str(need.amount.spares), WORKED_OUT, spare_rule(build), at)


def _packs(need: Need) -> Iterator[Line]:
    for pack in need.amount.packs:
        if pack.size != 1:
            size = metres(pack.size) if need.amount.unit == METRES else f"{number(pack.size)}"
            yield Line("bought as", f"{pack.number} x {size}", WORKED_OUT, "as it is sold")
    spare = need.amount.bought - need.amount.needed - need.amount.spares
    if need.amount.packs and spare > 1e-9:
        yield Line(
            "left over", _amount(spare, need.amount.unit), WORKED_OUT, "packs and coils are sold whole"
        )
    for each in need.amount.unsettled:
        yield Line("not settled", each)


def _owned(owned: Owned) -> Iterator[Line]:
    for reason in owned.reasons[:_MOST_NEEDS]:
        yield Line(reason.name or owned.part, owned.standing, "", reason.why)


def _part(build: Build, part: Part) -> Iterator[Line]:
    holder, at = part_written(build, part)
    own = "the plan's own" if at is not None else "comes with firstfix"
    yield Line("part", holder, "written" if at is not None else "", own, at)
    yield _price(build, part)


def _price(build: Build, part: Part) -> Line:
    per = " a metre" if part.kind == "cable" else f" for {part.pack}" if part.pack > 1 else ""
    line = part_fact(build, part, "price", part.price, number, "price")
    if not isinstance(part.price, Fact):
        return line
    is_ours = part.price.basis == TYPICAL
    value = f"{line.value} {build.currency}{per}"
    return line._replace(value=value, origin="an invented example" if is_ours else line.origin)
