"""What choosing a device's jacks anew would move and want, beside what it makes room for.

Takes the build as it stands and the one with jacks chosen anew and more things in it; gives counts. Runs go by their ids, which a choice
made anew leaves alone.
"""

from collections import Counter
from collections.abc import Container
from typing import NamedTuple

from firstfix.build.cabling import CORD
from firstfix.build.hardware import TO_BUY
from firstfix.build.model import Build
from firstfix.purchase.lifted import Cost, price_of_part


class Moved(NamedTuple):
    """Of what stands: cords that would join other jacks, and installed runs that would have to end at others.

    `bought`: parts that what stands takes more of then.
    """

    cords: int
    installed: int
    bought: tuple[tuple[str, int], ...]


def moved(before: Build, after: Build) -> Moved:
    kinds = Counter[bool]()
    for piece in before.pieces.values():
        now = after.pieces.get(piece.id)
        if now is None or frozenset(now.ends) != frozenset(piece.ends):
            kinds[piece.kind == CORD] += 1
    standing = frozenset(before.pieces)
    more = _needed(after, standing) - _needed(before, standing)
    return Moved(kinds[True], kinds[False], tuple(sorted(more.items())))


def _needed(build: Build, pieces: Container[str]) -> Counter[str]:
    """What those cables and cords take that is counted out, that is all but cable by the metre: cords themselves, plugs, transceivers."""
    found = Counter[str]()
    for item in build.items:
        if item.standing == TO_BUY and not item.length and item.for_id in pieces:
            found[item.part] += item.count
    return found


def price_of_moved(build: Build, what: Moved) -> Cost:
    """In packs as they are sold."""
    known, unpriced = 0, list[str]()
    for part, count in what.bought:
        price, without = price_of_part(build, part)
        unpriced += without
        known += (price or 0) * -(-count // build.library[part].pack)
    return known, tuple(unpriced)


def words_of_moved(name: str, what: Moved) -> str:
    cords = f"{what.cords or 'no'} cord{'' if what.cords == 1 else 's'} moved to other jacks"
    bought = "".join(f", {count} '{part}' bought" for part, count in what.bought)
    return f"choosing the jacks of '{name}' anew (`build --choose-anew {name}`), {cords}{bought}"
