"""All sheets of a change, numbered: the network as far as it changes, the cabinets that change, and the list of the rest."""

from collections.abc import Iterable, Sequence

from firstfix.build.model import Build
from firstfix.compare.changes import CHANGED, GONE, MOVED, NEW, Changes
from firstfix.documents.drawing.change.dot import dot_source
from firstfix.documents.drawing.change.fronts import front_blocks
from firstfix.documents.drawing.change.loose import loose_blocks
from firstfix.documents.drawing.change.network import Pictured, is_large, picture_of
from firstfix.documents.drawing.change.rows import COLUMNS, list_rows, rows_in_words
from firstfix.documents.drawing.change.sides import Sides, sides
from firstfix.documents.drawing.change.strands import Strand, strands
from firstfix.documents.drawing.change.units import Unit, shown_strands, units
from firstfix.documents.drawing.kit.page import of_group, page, picture_room
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.listing import listing, split
from firstfix.documents.drawing.numbered import GAP, Block, flow

_WIDE, _TALL = picture_room(key_lines=2, onward_lines=1)
# Less room than this at the foot of a sheet is no place to begin a list.
_LEAST_LIST = 70.0


def change_drawings(old: Build, new: Build, changes: Changes, prefix: str = "") -> tuple[Drawing, ...]:
    """None where nothing changes. `prefix` starts every id in the SVG."""
    if changes.is_empty:
        return ()
    both = sides(old, new, changes)
    found = shown_strands(both, strands(both))
    network = _network(both, found)
    blocks = [each.block for each in network]
    drawn = frozenset(key for each in network for key in each.keys)
    alone, rest = blocks[:-1], blocks[-1:]
    rest += [*loose_blocks(both, drawn), *front_blocks(both, _TALL, f"{prefix}change-")]
    lots = [[each] for each in alone] + flow(rest, _TALL)
    lots = _with_list(both, lots)
    return _pages(both, lots, dot_source(both, found), prefix)


def _pages(both: Sides, lots: Sequence[Sequence[Block]], dot: str, prefix: str) -> tuple[Drawing, ...]:
    several = len(lots) > 1
    return tuple(
        page(
            f"change-{number}" if several else "change",
            prefix,
            f"What changes: {both.new.name}",
            _under(both),
            of_group(number, len(lots)),
            " ".join(block.words for block in lot if block.words),
            [block.picture for block in lot],
            dot if number == 1 else "",
            onward=(Onward(f"change-{number + 1}"),) if number < len(lots) else (),
        )
        for number, lot in enumerate(lots, 1)
    )


def _under(both: Sides) -> str:
    """How many things come, go and move."""
    counts: dict[str, int] = {}
    for state in both.changes.states:
        if (state.new or state.old).partition(":")[0] in ("device", "cabinet", "fitting"):
            counts[state.state] = counts.get(state.state, 0) + 1
    said = [f"{counts[each]} {each}" for each in (NEW, GONE, MOVED, CHANGED) if counts.get(each)]
    return f"devices, fittings and cabinets: {', '.join(said)}" if said else "nothing comes, goes or moves"


def _network(both: Sides, shown: Sequence[Strand]) -> list[Pictured]:
    """As few pictures as hold all, each no larger than a sheet."""
    found = units(both, shown)
    if not found:
        return []
    whole = _fitting(both, found, {})
    if whole is not None:
        return [whole]
    # While sheets are being filled it isn't known yet where the others will be; the words take as much room as any.
    lots: list[list[Unit]] = []
    unknown = {unit.hub: "change-99" for unit in found}
    for unit in (part for each in found for part in _parts(both, each, unknown)):
        together = [*lots[-1], unit] if lots else [unit]
        is_same = lots and unit.hub in {each.hub for each in lots[-1]}
        if lots and not is_same and _fitting(both, together, _others(unknown, together)) is not None:
            lots[-1].append(unit)
        else:
            lots.append([unit])
    sheet_of = {
        unit.hub: f"change-{number}" for number, lot in reversed(list(enumerate(lots, 1))) for unit in lot
    }
    return [picture_of(both, lot, _others(sheet_of, lot), _WIDE) for lot in lots]


def _others(sheet_of: dict[str, str], lot: Iterable[Unit]) -> dict[str, str]:
    within = {unit.hub for unit in lot}
    return {hub: sheet for hub, sheet in sheet_of.items() if hub not in within}


def _fitting(both: Sides, lot: Sequence[Unit], elsewhere: dict[str, str]) -> Pictured | None:
    """The picture, if it is no larger than a sheet."""
    if is_large(both, lot):
        return None
    found = picture_of(both, lot, elsewhere, _WIDE)
    picture = found.block.picture
    return found if picture.width <= _WIDE and picture.height <= _TALL else None


def _parts(both: Sides, unit: Unit, unknown: dict[str, str]) -> list[Unit]:
    """A hub in as few parts as each fit on a sheet."""
    for count in range(1, len(unit.strands) + 1):
        size = -(-len(unit.strands) // count)
        starts = range(0, len(unit.strands), size)
        parts = [
            unit._replace(
                strands=unit.strands[start : start + size],
                part=f"{number} of {len(starts)}" if count > 1 else "",
            )
            for number, start in enumerate(starts, 1)
        ]
        if all(_fitting(both, [part], _others(unknown, [part])) is not None for part in parts):
            return parts
    return [unit]


def _with_list(both: Sides, lots: list[list[Block]]) -> list[list[Block]]:
    """The list begins where the sheets before leave room for it."""
    rows = list_rows(both)
    if not rows:
        return lots
    left = _TALL - sum(block.picture.height + GAP for block in lots[-1]) if lots else _TALL
    begins_here = bool(lots) and left >= _LEAST_LIST
    for number, lot in enumerate(split(rows, _TALL, left if begins_here else None)):
        block = Block(listing(COLUMNS, lot), rows_in_words(list(lot)))
        if number == 0 and begins_here:
            lots[-1].append(block)
        else:
            lots.append([block])
    return lots
