"""The rows of the mains sheet: each node of the tree in words and figures, and what is said below a UPS."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import font
from firstfix.documents.drawing.kit.palette import BETWEEN, SMALL_SIZE
from firstfix.documents.drawing.power.figures import NOT_KNOWN, watts_of
from firstfix.graphs.backup import BY_POE, backup_domains
from firstfix.graphs.backup_time import BackupTime, backup_times
from firstfix.graphs.consumption import Spread, consumption
from firstfix.graphs.mains_tree import (
    CIRCUIT,
    DEVICE,
    ROOM,
    SUPPLY,
    UPS,
    MainsNode,
    mains_tree,
    own_name,
)
from firstfix.parts.facts import Fact
from firstfix.units import number

# Room for one line of what is said below a UPS.
_REMARK = 560.0


class TreeRow(NamedTuple):
    """`is_last` for each depth up to its own: whether nothing more follows on that level. `remark` in place of figures.

    `load` and `limit` in watts; `is_held`: it stays up on the UPS above. `is_open`: a draw in it is not known.
    `is_more`: it goes on with the remark above.
    """

    depth: int
    is_last: tuple[bool, ...]
    name: str
    what: str
    load: Spread | None
    limit: Spread | None
    left: float | None
    is_held: bool
    is_branch: bool
    remark: str = ""
    path: str = ""
    is_open: bool = False
    is_more: bool = False

    @property
    def watts(self) -> tuple[str, str, str]:
        """At the least, as usual, at the most. Where a draw is not known, what is known counts for the least alone."""
        assert self.load is not None
        least, usual, most = self.load
        if not self.is_open:
            return watts_of(least), watts_of(usual), watts_of(most)
        said = f"{number(usual, 1)} + ? W" if usual else NOT_KNOWN
        return watts_of(least), said, watts_of(most)

    @property
    def hint(self) -> str:
        if self.load is None:
            return f"{self.name}: {self.remark}" if self.name else self.remark
        least, usual, most = self.watts
        said = [self.what, f"takes {least} to {most}, usually {usual}"]
        if self.limit is not None and self.left is not None:
            said.append(f"of at most {watts_of(self.limit.most)}, {self.left_words} is left")
        said += ["stays up on the UPS"] if self.is_held else []
        return f"{self.name}: {', '.join(filter(None, said))}"

    @property
    def left_words(self) -> str:
        return "" if self.left is None else watts_of(self.left) if math.isfinite(self.left) else "cannot tell"


def tree_rows(build: Build) -> tuple[TreeRow, ...]:
    nodes = mains_tree(build)
    lasts = _lasts(nodes)
    times = {time.ups: time for time in backup_times(build)} if any(n.kind == UPS for n in nodes) else {}
    found: list[TreeRow] = []
    above: list[str] = []
    for index, node in enumerate(nodes):
        path = " › ".join(above[: node.depth])
        above[node.depth :] = [_name(build, node)]
        found.append(_row(build, node, lasts[index], path))
        if node.kind == UPS:
            is_end = index + 1 == len(nodes) or nodes[index + 1].depth <= node.depth
            found += _remarks(build, node, times[node.id], (*lasts[index], is_end), " › ".join(above))
    return tuple(found)


def _lasts(nodes: tuple[MainsNode, ...]) -> list[tuple[bool, ...]]:
    """From the end: a level is open while a node of it is still to come before one of a lesser depth."""
    open_: list[bool] = []
    found: list[tuple[bool, ...]] = []
    for node in reversed(nodes):
        open_ = (open_ + [False] * (node.depth + 1 - len(open_)))[: node.depth + 1]
        found.append(tuple(not each for each in open_))
        open_[node.depth] = True
    return found[::-1]


def _row(build: Build, node: MainsNode, is_last: tuple[bool, ...], path: str) -> TreeRow:
    return TreeRow(
        node.depth,
        is_last,
        _name(build, node),
        _what(build, node),
        node.load,
        node.limit,
        node.left,
        bool(node.ups),
        node.kind != DEVICE,
        path=path,
        is_open=bool(node.missing),
    )


def _name(build: Build, node: MainsNode) -> str:
    name = own_name(build, node)
    if node.kind == SUPPLY:
        return f"supply of {name}"
    if node.kind == CIRCUIT:
        return f"circuit {name}" if name else "circuit not said"
    return f"outlets of {name}" if node.kind == ROOM else name


def _what(build: Build, node: MainsNode) -> str:
    if node.kind == SUPPLY:
        volts = build.mains.volts
        return f"{number(volts.typical)} V" if isinstance(volts, Fact) else "volts not said"
    if node.kind == CIRCUIT:
        return _circuit(build, node)
    if node.kind == ROOM:
        free = build.rooms[node.id].mains_outlets
        used = sum(feed.source == node.id for feed in build.mains_feeds)
        return (
            f"{used} of {number(free.low)} outlets used" if isinstance(free, Fact) else f"{used} outlets used"
        )
    said = [f"outlet {node.outlet}" if node.outlet else ""]
    said.append(f"lead {node.lead} of {node.leads}" if node.leads > 1 else "")
    said.append(_handed_on(build, node) or build.devices[node.id].part.title)
    return BETWEEN.join(filter(None, said))


def _circuit(build: Build, node: MainsNode) -> str:
    circuit = build.circuits.get(node.id)
    if circuit is None:
        return "its rating is not known"
    amps = f"{number(circuit.rating.low)} A" if isinstance(circuit.rating, Fact) else "? A"
    volts = f"{number(circuit.volts.low)} V" if isinstance(circuit.volts, Fact) else "? V"
    long = f"{BETWEEN}for hours {watts_of(node.limit.usual)}" if node.limit else ""
    return f"{amps} at {volts}{long}"


def _handed_on(build: Build, node: MainsNode) -> str:
    if node.kind != DEVICE:
        return ""
    given = consumption(build, build.devices[node.id]).given
    return f"hands on up to {watts_of(given.most)} by PoE" if given.most > 0 else ""


def _remarks(
    build: Build, node: MainsNode, time: BackupTime, is_last: tuple[bool, ...], path: str
) -> Iterator[TreeRow]:
    """How long a UPS holds, and what it holds by PoE beside what hangs on it below."""
    domain = next(each for each in backup_domains(build) if each.ups == node.id)
    by_poe = ", ".join(ids.path(held.device) for held in domain.holds if held.how == BY_POE)
    lines = [("holds", held_for(time))]
    wrapped = font.wrap(f"by PoE: {by_poe}", _REMARK, SMALL_SIZE, len(by_poe)) if by_poe else ()
    lines += [("" if index else "also holds", line) for index, line in enumerate(wrapped)]
    lines += [("carries", words) for words in (_why_so_many(node),) if words]
    lines += [("takes", words) for words in (_lost(build, node),) if words]
    above = is_last[:-1]
    for index, (name, words) in enumerate(lines):
        goes_on = not is_last[-1] or any(following for following, _ in lines[index + 1 :])
        levels = (*above, not goes_on)
        yield TreeRow(
            node.depth + 1, levels, name, "", None, None, None, True, False, words, path, is_more=not name
        )


def _why_so_many(node: MainsNode) -> str:
    """Which of its bounds is the smallest when all draw their most; "" where there is but one."""
    if len(node.bounds) < 2:
        return ""
    least = min(node.bounds, key=lambda bound: bound.watts.most)
    others = "; ".join(
        f"{each.source}: {watts_of(each.watts.most)}" for each in node.bounds if each is not least
    )
    return f"{least.source}, so {watts_of(least.watts.most)} when all draw their most; {others}"


def _lost(build: Build, node: MainsNode) -> str:
    """What a UPS takes for itself, which what feeds it bears beside the load."""
    own = consumption(build, build.devices[node.id]).taken
    if own.most <= 0:
        return ""
    return f"up to {watts_of(own.most)} itself, lost in it, on top of what hangs on it: the outlet that feeds it bears both"


def held_for(time: BackupTime) -> str:
    """`45 min as usual, 34 min when all draw their most`, never rounded up; what can't be told says so."""
    _, usual, most = ("cannot tell" if each is None else f"{each // 60:.0f} min" for each in time.lasts)
    return f"{usual} as usual, {most} when all draw their most (by {time.by}; with new batteries)"
