"""A list's cable as it lies: runs that are pulled are cut off their boxes, and what is still to pull comes from what is left of those.

Takes lines of a shopping list, which runs are pulled, and how much there is of each line. In which boxes cable came and which run came
from which nobody records, so they are taken to be those that the list had for the pulled runs alone.
"""

from collections.abc import Mapping, Set
from dataclasses import replace

from firstfix.algorithms.cutting import Coil, Cutting, Run, cut
from firstfix.build.model import Build
from firstfix.purchase.lines import METRES
from firstfix.purchase.needs import Need, Pack, price_of_pack

# Metres, below what is kept of any length.
_DUST = 1e-6


def needs_as_cut(
    build: Build, needs: tuple[Need, ...], pulled: Set[str], had: Mapping[str, float]
) -> tuple[Need, ...]:
    """`pulled`: ids of runs; `had`: pieces or metres that are ordered or here, by need. Packs then are those and what else to buy."""
    if not pulled:
        return needs
    return tuple(
        _as_cut(build, need, pulled, had.get(need.id, 0.0)) if need.amount.unit == METRES else need
        for need in needs
    )


def _as_cut(build: Build, need: Need, pulled: Set[str], had: float) -> Need:
    runs = [run for coil in need.amount.cutting.coils for run in coil.runs]
    lying, open_ = (
        [run for run in runs if run.id in pulled],
        [run for run in runs if run.id not in pulled],
    )
    part = build.library.get(need.part)
    if not (had and lying and open_ and part is not None and part.cable):
        return need
    sold = part.cable.lengths
    begun = cut(lying, sold)
    over = round(had - begun.bought, 6)
    # Either the record has less than lies, and says nothing; or just this list was bought, and is being worked off.
    if over < -_DUST or (over > _DUST and abs(had - need.amount.bought) <= _DUST):
        return need
    return _with_coils(build, need, _coils(begun, over, open_, sold))


def _coils(begun: Cutting, over: float, open_: list[Run], sold: tuple[float, ...]) -> Cutting:
    """What is begun, what is whole and used, what is to buy."""
    whole = [Coil(length, ()) for length in _boxes(over, sold)]
    there = [*begun.coils, *whole]
    more = cut(open_, sold, [coil.left for coil in there])
    used = [Coil(coil.length, (*coil.runs, *new.runs)) for coil, new in zip(there, more.at_hand, strict=True)]
    coils = sorted((*(coil for coil in used if coil.runs), *more.coils), key=lambda each: -each.length)
    least = sum(coil.length for coil in coils) - more.bought + more.least
    return Cutting(tuple(coils), round(least, 6), more.uncut)


def _boxes(length: float, sold: tuple[float, ...]) -> list[float]:
    """So much cable in boxes as sold, long ones first; a rest that is no box stays one piece."""
    boxes = []
    for size in sorted(sold, reverse=True):
        count = int((length + _DUST) // size)
        boxes += [size] * count
        length = round(length - count * size, 6)
    return [*boxes, *([length] if length > _DUST else [])]


def _with_coils(build: Build, need: Need, cutting: Cutting) -> Need:
    part = build.library.get(need.part)
    sizes = [coil.length for coil in cutting.coils]
    packs = tuple(
        Pack(sizes.count(size), size, price_of_pack(build, part, size))
        for size in sorted(set(sizes), reverse=True)
    )
    uncut = tuple(dict.fromkeys((*need.amount.cutting.uncut, *cutting.uncut)))
    return replace(need, amount=need.amount._replace(packs=packs, cutting=cutting._replace(uncut=uncut)))
