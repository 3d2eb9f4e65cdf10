"""Runs that stay where they lie and only change the jacks that they end in: nothing is pulled for them, and no way is opened.

Takes both sides; gives which new run is made of which old one, and how its ends that move are held.
"""

from collections.abc import Hashable, Iterable, Iterator

from firstfix.build.hardware import Jack
from firstfix.build.renames import renamed
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import Laid, Side
from firstfix.parts.facts import Fact
from firstfix.parts.part import TERMINATION_KINDS

# How an end is held, in the words for it: a plug in a device, a jack that is wired already and pushed into an opening, wires on a block.
PLUGGED, PUSHED_IN, WIRED = "plug", "wired jack", "end"


def replugged(old: Side, new: Side) -> dict[str, str]:
    """Key of each such new run to that of the old one. Of several that would do, the one of which least must be made anew and moved;
    of equals the first by name.
    """
    gone = _by_lie(old, old.laid.keys() - new.laid.keys())
    come = _by_lie(new, new.laid.keys() - old.laid.keys())
    found: dict[str, str] = {}
    for lie in come.keys() & gone.keys():
        taken: set[str] = set()
        for _, now, was in sorted(_likely(new, come[lie], gone[lie])):
            if now.key not in found and was.key not in taken:
                found[now.key] = was.key
                taken.add(was.key)
    return dict(sorted(found.items()))


def _likely(new: Side, come: list[Laid], gone: list[Laid]) -> Iterator[tuple[tuple[int, int], Laid, Laid]]:
    for now in come:
        for was in gone:
            ends = moved(now, was)
            yield (sum(1 for end in ends if held(new, now, end) == WIRED), len(ends)), now, was


def moved(this: Laid, other: Laid) -> tuple[str, ...]:
    """The ends of `this` that are not those of `other`."""
    return tuple(end for end in this.ends if end not in other.ends)


def held(side: Side, laid: Laid, end: str) -> str:
    if side.devices[device_of(end)].part.kind not in TERMINATION_KINDS:
        return PLUGGED
    return PUSHED_IN if _jack(side, laid, end).needs_module else WIRED


def _by_lie(side: Side, keys: Iterable[str]) -> dict[Hashable, list[Laid]]:
    """Runs by all that stays when plugs are moved: the cable, its length and ways, the devices at its ends and what fits there."""
    found: dict[Hashable, list[Laid]] = {}
    for key in sorted(keys):
        laid = side.laid[key]
        if not laid.is_cord:
            ends = tuple(_end(side, laid, end) for end in laid.ends)
            found.setdefault((laid.cable, _metres(laid), ends), []).append(laid)
    return found


def _end(side: Side, laid: Laid, end: str) -> tuple[str, str, str, str]:
    jack = _jack(side, laid, end)
    return device_of(end), jack.family, jack.needs_module, held(side, laid, end)


def _jack(side: Side, laid: Laid, end: str) -> Jack:
    """`end` is under the new names, jacks of the old build are not."""
    return next(side.build.jacks[each] for each in laid.piece.ends if renamed(each, side.names) == end)


def _metres(laid: Laid) -> float | None:
    """To the centimetre, as it was bought and cut."""
    figure = laid.piece.length.as_planned.figure
    return round(figure.typical, 2) if isinstance(figure, Fact) else None
