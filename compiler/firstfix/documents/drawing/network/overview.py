"""The first of several sheets: what is on which, and what joins the parts. One box a hub, or a building, or a site."""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.page import fits_a4
from firstfix.documents.drawing.kit.palette import BETWEEN, QUIET
from firstfix.documents.drawing.network.diagram import Diagram, Line, make_diagram
from firstfix.documents.drawing.network.entries import heads_of, in_words
from firstfix.documents.drawing.network.labels import NARROW_LABEL, Label, trunk_label
from firstfix.documents.drawing.network.sheet import stroke_of
from firstfix.documents.drawing.network.tables import Entry, Table, make_table
from firstfix.documents.drawing.network.wiring import Wire, Wiring, depths, device_name, root_key
from firstfix.documents.drawing.where import building_label, building_of, site_name, site_of

_MOST_LINES = 12
# More boxes than this are never tried: laying them out takes long, and they wouldn't fit.
_MOST_HUBS = 150
_RANK_GAP = 20.0
_NARROWEST = 96.0
_FEW = 12


class _Grouping(NamedTuple):
    """How hubs are put together: the group of a hub, and the table of a group with its hubs."""

    group_of: Callable[[str], str]
    table: Callable[[str, list[str]], Table]
    frame_of: Callable[[str], str] | None


def overview_diagram(wiring: Wiring, hubs: Sequence[str], sheet_of: Mapping[str, int]) -> Diagram:
    """One box a hub, if that fits on A4 or all are in one building, else one a building."""
    diagram = _laid_out(wiring, hubs, _by_hub(wiring, sheet_of))
    is_one = len({building_of(wiring.build, hub) for hub in hubs}) == 1
    if is_one or fits_a4((diagram.outline,)):
        return diagram
    return _laid_out(wiring, hubs, _by_building(wiring, sheet_of))


def fits_overview(wiring: Wiring, hubs: Sequence[str]) -> bool:
    """Whether an overview of `hubs` fits on A4 with at least their buildings in it."""
    if len(hubs) > _MOST_HUBS:
        return False
    return fits_a4((overview_diagram(wiring, hubs, dict.fromkeys(hubs, 99)).outline,))


def site_diagram(wiring: Wiring, sheet_of: Mapping[str, int]) -> Diagram:
    """One box a site, for a network too large for anything finer; with its hubs in it, if that fits on A4."""
    hubs = tuple(wiring.hubs)
    diagram = _laid_out(wiring, hubs, _by_site(wiring, sheet_of, _MOST_LINES))
    return diagram if fits_a4((diagram.outline,)) else _laid_out(wiring, hubs, _by_site(wiring, sheet_of, 1))


def _by_hub(wiring: Wiring, sheet_of: Mapping[str, int]) -> _Grouping:
    def table(hub: str, _: list[str]) -> Table:
        name, *said = heads_of(wiring, hub)
        hint = BETWEEN.join((name, *said))
        return make_table(name, said, (_line(_count(wiring, hub, sheet_of)),), hint, _NARROWEST)

    return _Grouping(str, table, lambda hub: building_of(wiring.build, hub))


def _by_building(wiring: Wiring, sheet_of: Mapping[str, int]) -> _Grouping:
    def table(building: str, hubs: list[str]) -> Table:
        return _listing(wiring, building_label(wiring.build, building), hubs, sheet_of)

    return _Grouping(lambda hub: building_of(wiring.build, hub), table, None)


def _by_site(wiring: Wiring, sheet_of: Mapping[str, int], most: int) -> _Grouping:
    def table(site: str, hubs: list[str]) -> Table:
        return _listing(wiring, site_name(wiring.build, site), hubs, sheet_of, most)

    return _Grouping(lambda hub: site_of(wiring.build, hub), table, None)


def _listing(
    wiring: Wiring, title: str, hubs: list[str], sheet_of: Mapping[str, int], most: int = _MOST_LINES
) -> Table:
    lines = [f"{device_name(wiring.build, hub)}: {_count(wiring, hub, sheet_of)}" for hub in hubs]
    if len(lines) > most:
        numbers = sorted({sheet_of[hub] for hub in hubs})
        sheets = f"sheets {numbers[0]}–{numbers[-1]}" if len(numbers) > 1 else f"sheet {numbers[0]}"
        shown = lines[: most - 1]
        lines = [
            *shown,
            f"{len(lines) - len(shown)} {'more' if shown else 'switches and the like'}, {sheets}",
        ]
    return make_table(title, (), tuple(_line(line) for line in lines), title, _NARROWEST)


def _count(wiring: Wiring, hub: str, sheet_of: Mapping[str, int]) -> str:
    devices = len({row.peer for row in wiring.hubs[hub].rows if not row.is_trunk})
    many = f"{devices} device{'' if devices == 1 else 's'}{BETWEEN}" if devices else ""
    return f"{many}sheet {sheet_of[hub]}"


def _line(words: str) -> Entry:
    return Entry("", "", None, "", "", "", words, "", False, words)


def _laid_out(wiring: Wiring, hubs: Sequence[str], grouping: _Grouping) -> Diagram:
    members: dict[str, list[str]] = defaultdict(list)
    for hub in hubs:
        members[grouping.group_of(hub)].append(hub)
    groups = sorted(members)
    place = {group: index for index, group in enumerate(groups)}
    bundles = _bundles(wiring, grouping, members)
    lines = [
        Line((place[tail], 0), (place[head], 0), stroke_of(wires[0]), _label(wiring.build, wires))
        for (tail, head), wires in bundles.items()
    ]
    joined = {group for pair in bundles for group in pair}
    lines += _side_by_side([place[group] for group in groups if group not in joined])
    homes = [grouping.frame_of(group) for group in groups] if grouping.frame_of else []
    frames = sorted(set(homes))
    return make_diagram(
        [grouping.table(group, members[group]) for group in groups],
        [frames.index(home) for home in homes] or [-1] * len(groups),
        [building_label(wiring.build, frame) for frame in frames],
        lines,
        _RANK_GAP,
    )


def _side_by_side(alone: list[int]) -> list[Line]:
    """Unseen lines that put boxes without any wire three in a row, or four if they are many, not one below the other."""
    per_row = 3 if len(alone) <= _FEW else 4
    return [
        Line((left, 0), (right, 0), None)
        for number, (left, right) in enumerate(pairwise(alone), 1)
        if number % per_row
    ]  # fmt: skip


def _bundles(
    wiring: Wiring, grouping: _Grouping, members: Mapping[str, list[str]]
) -> dict[tuple[str, str], list[Wire]]:
    """(group nearer to the root, farther group) to the trunks between them, in order of both."""
    loose: dict[tuple[str, str], list[Wire]] = defaultdict(list)
    beside: dict[str, list[str]] = defaultdict(list)
    for wire in wiring.trunks:
        near, far = (grouping.group_of(wiring.device(end)) for end in (wire.near, wire.far))
        if near != far and near in members and far in members:
            loose[near, far].append(wire)
            beside[near].append(far)
            beside[far].append(near)
    first = {group: min(_root(wiring, hub) for hub in hubs) for group, hubs in members.items()}
    depth = depths(beside, sorted(members, key=lambda group: first[group]))
    bundles: dict[tuple[str, str], list[Wire]] = defaultdict(list)
    for (near, far), wires in sorted(loose.items()):
        low, high = sorted((near, far), key=lambda group: (depth[group], group))
        bundles[low, high] += wires
    return dict(sorted(bundles.items()))


def _root(wiring: Wiring, hub: str) -> tuple[bool, int, str]:
    trunks = sum(row.is_trunk for row in wiring.hubs[hub].rows)
    return root_key(wiring.build, hub, trunks)


def _label(build: Build, wires: list[Wire]) -> Label:
    """The first trunk's own words, and how many more there are."""
    links = {build.channels[wire.channel].link for wire in wires}
    if len(links) == 1:
        return trunk_label(build, wires[0], len(wires), NARROW_LABEL)
    first = trunk_label(build, wires[0], 1, NARROW_LABEL)
    more = len(wires) - 1
    return Label((*first.lines, (f"and {more} more", False, QUIET)))


def overview_in_words(wiring: Wiring, hubs: Sequence[str], sheet_of: Mapping[str, int]) -> str:
    """On which sheet each hub is, and what joins them."""
    within = set(hubs)
    said = [f"{device_name(wiring.build, hub)}: {_count(wiring, hub, sheet_of)}." for hub in hubs]
    said += [
        f"{in_words(wiring.build, wire)}."
        for wire in wiring.trunks
        if {wiring.device(wire.near), wiring.device(wire.far)} <= within
    ]
    return " ".join(said)
