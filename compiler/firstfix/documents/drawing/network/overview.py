"""The first of several sheets: what is on which, and what joins the parts. One box a hub, or a building, or a site.

The finest that fits on a sheet is taken; where nothing with wires fits, the buildings stand as cards on as many sheets as it takes.
"""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.page import fits_sheet
from firstfix.documents.drawing.kit.palette import QUIET
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.network.diagram import Diagram, Line, make_diagram
from firstfix.documents.drawing.network.entries import in_words
from firstfix.documents.drawing.network.labels import NARROW_LABEL, Label, short_label, trunk_label
from firstfix.documents.drawing.network.overview_boxes import (
    Box,
    SheetsOf,
    building_box,
    compact_box,
    hub_box,
    hung_on,
    site_box,
)
from firstfix.documents.drawing.network.overview_cards import card_pictures
from firstfix.documents.drawing.network.sheet import stroke_of
from firstfix.documents.drawing.network.star import as_star
from firstfix.documents.drawing.network.wiring import Wire, Wiring, depths, device_name, root_key
from firstfix.documents.drawing.where import building_label, building_of, site_name, site_of

# More boxes than this are never tried: laying them out takes long, and they wouldn't fit.
_MOST_BOXES = 60
_GAPS = (60.0, 40.0, 20.0)
_FEW = 12
HUBS, BUILDINGS, COMPACT, SITES, CARDS = "hubs", "buildings", "compact", "sites", "cards"


class Style(NamedTuple):
    """How an overview is drawn. `boxes`: one of the five above. `gap`: between those that wires join, `apart`: between those of one column.

    `is_short`: of the words at trunks. `is_two_sided`: the root stands in the middle. `part`: which of `of` sheets of cards, from 0.
    """

    boxes: str
    gap: float = 20.0
    apart: float = 18.0
    is_short: bool = False
    is_two_sided: bool = False
    part: int = 0
    of: int = 1


def styles(
    wiring: Wiring, hubs: Sequence[str], is_top: bool, onward: Sequence[Onward] = ()
) -> tuple[Style, ...]:
    """One for each sheet that the overview of `hubs` takes: the finest that fits, with those flags below it."""
    sheets_of = dict.fromkeys(hubs, (f"{wiring.stem}-99", f"{wiring.stem}-100"))
    for style in _candidates(wiring, hubs, is_top):
        if style.boxes == CARDS:
            return _cards(wiring, hubs, sheets_of)
        if fits_sheet((_diagram(wiring, hubs, sheets_of, style).outline,), onward):
            return (style,)
    return _cards(wiring, hubs, sheets_of)


def _cards(wiring: Wiring, hubs: Sequence[str], sheets_of: SheetsOf) -> tuple[Style, ...]:
    count = len(card_pictures(wiring, hubs, sheets_of))
    return tuple(Style(CARDS, part=part, of=count) for part in range(count))


def _candidates(wiring: Wiring, hubs: Sequence[str], is_top: bool) -> list[Style]:
    """In order of preference. Sites have an overview of their own below, so the top one needn't show more than those."""
    build = wiring.build
    buildings = {building_of(build, hub) for hub in hubs}
    sites = {site_of(build, hub) for hub in hubs}
    found: list[Style] = []
    if len(hubs) <= _MOST_BOXES:
        found += [Style(HUBS, gap) for gap in _GAPS]
    if 1 < len(buildings) <= _MOST_BOXES:
        found += [Style(BUILDINGS, gap, is_short=is_short) for is_short in (False, True) for gap in _GAPS]
        found += [Style(COMPACT, gap, 10.0, True) for gap in _GAPS]
        found += [Style(COMPACT, gap, apart, True, True) for apart in (10.0, 6.0) for gap in _GAPS]
    if is_top and 1 < len(sites) <= _MOST_BOXES:
        found += [Style(SITES, gap, 10.0, True, is_both) for is_both in (False, True) for gap in _GAPS]
    return [*found, Style(CARDS)]


def overview_picture(wiring: Wiring, hubs: Sequence[str], sheets_of: SheetsOf, style: Style) -> Picture:
    if style.boxes == CARDS:
        return card_pictures(wiring, hubs, sheets_of)[style.part]
    return _diagram(wiring, hubs, sheets_of, style).picture


class _Grouping(NamedTuple):
    """How hubs are put together: the group of a hub, the box of a group with its hubs, and the frame that a group stands in."""

    group_of: Callable[[str], str]
    box: Callable[[str, list[str]], Box]
    frame_of: Callable[[str], str]
    frame_label: Callable[[str], str]


def _grouping(wiring: Wiring, sheets_of: SheetsOf, style: Style) -> _Grouping:
    build = wiring.build

    def of_site(hub: str) -> str:
        return site_of(build, hub)

    def of_building(hub: str) -> str:
        return building_of(build, hub)

    if style.boxes == SITES:
        return _Grouping(of_site, lambda site, hubs: site_box(wiring, site, hubs, sheets_of), str, str)
    if style.boxes in (BUILDINGS, COMPACT):
        box = building_box if style.boxes == BUILDINGS else compact_box
        return _Grouping(
            of_building,
            lambda building, hubs: box(wiring, building, hubs, sheets_of),
            lambda building: building_site(build, building),
            lambda site: site_name(build, site),
        )
    return _Grouping(
        str,
        lambda hub, _: hub_box(wiring, hub, sheets_of),
        of_building,
        lambda building: building_label(build, building),
    )


def building_site(build: Build, building: str) -> str:
    known = build.buildings.get(building)
    return known.site if known else ""


def _diagram(wiring: Wiring, hubs: Sequence[str], sheets_of: SheetsOf, style: Style) -> Diagram:
    grouping = _grouping(wiring, sheets_of, style)
    members: dict[str, list[str]] = defaultdict(list)
    for hub in hubs:
        members[grouping.group_of(hub)].append(hub)
    groups = sorted(members)
    boxes = [grouping.box(group, members[group]) for group in groups]
    bundles = _bundles(wiring, grouping, members)
    turned = _on_the_left(bundles, boxes, groups) if style.is_two_sided else frozenset()
    place = {group: index for index, group in enumerate(groups)}
    lines = [
        _line(wiring, place, boxes, pair, wires, style, pair in turned) for pair, wires in bundles.items()
    ]
    joined = {group for pair in bundles for group in pair}
    lines += _side_by_side([place[group] for group in groups if group not in joined])
    homes = [grouping.frame_of(group) for group in groups]
    # A frame round everything says nothing.
    has_frames = style.boxes == HUBS or (style.boxes != SITES and len(set(homes)) > 1)
    frames = sorted(set(homes)) if has_frames else []
    diagram = make_diagram(
        [box.table for box in boxes],
        [frames.index(home) if frames else -1 for home in homes],
        [grouping.frame_label(frame) for frame in frames],
        lines,
        style.gap,
        style.apart,
    )
    return as_star(diagram)


_Pair = tuple[str, str]


def _line(
    wiring: Wiring, place: Mapping[str, int], boxes: Sequence[Box], pair: _Pair, wires: Sequence[Wire], style: Style,
    is_turned: bool,
) -> Line:  # fmt: skip
    """From the box nearer to the root to the farther one, or the other way round where that stands on the left."""
    ends = []
    for group, others in zip(
        pair,
        ({wiring.device(each.near) for each in wires}, {wiring.device(each.far) for each in wires}),
        strict=True,
    ):
        box = boxes[place[group]]
        rows = {box.row_of.get(hub, 0) for hub in others if hub in box.row_of}
        ends.append((place[group], rows.pop() if len(rows) == 1 else 0))
    tail, head = ends[::-1] if is_turned else ends
    return Line(tail, head, stroke_of(wires[0]), _label(wiring.build, wires, style.is_short))


def _on_the_left(
    bundles: Mapping[_Pair, list[Wire]], boxes: Sequence[Box], groups: Sequence[str]
) -> frozenset[_Pair]:
    """The bundles of about half of the branches that leave the first root, by their height."""
    below: dict[str, list[str]] = defaultdict(list)
    for near, far in bundles:
        below[near].append(far)
    heads = set(below) - {far for _, far in bundles}
    if not heads:
        return frozenset()
    root = min(heads, key=lambda head: (-len(below[head]), head))
    height = {group: sum(box.table.heights) for group, box in zip(groups, boxes, strict=True)}
    branches = {child: _branch(child, below) for child in below[root]}
    half = sum(height[each] for branch in branches.values() for each in branch) / 2
    left: set[str] = set()
    used = 0.0
    for child in sorted(branches)[::-1]:
        needed = sum(height[each] for each in branches[child])
        if used + needed / 2 > half:
            break
        left |= branches[child]
        used += needed
    return frozenset(pair for pair in bundles if pair[1] in left)


def _branch(child: str, below: Mapping[str, list[str]]) -> set[str]:
    found, waiting = {child}, [child]
    while waiting:
        new = set(below.get(waiting.pop(), ())) - found
        found |= new
        waiting += sorted(new)
    return found


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
) -> dict[_Pair, list[Wire]]:
    """(group nearer to the root, farther group) to the trunks between them, each from the one to the other, in order of both."""
    loose: dict[_Pair, list[Wire]] = defaultdict(list)
    beside: dict[str, list[str]] = defaultdict(list)
    for wire in wiring.trunks:
        near, far = (grouping.group_of(wiring.device(end)) for end in (wire.near, wire.far))
        if near != far and near in members and far in members:
            loose[near, far].append(wire)
            beside[near].append(far)
            beside[far].append(near)
    first = {group: min(_root(wiring, hub) for hub in hubs) for group, hubs in members.items()}
    depth = depths(beside, sorted(members, key=lambda group: first[group]))
    bundles: dict[_Pair, list[Wire]] = defaultdict(list)
    for (near, far), wires in sorted(loose.items()):
        low, high = sorted((near, far), key=lambda group: (depth[group], group))
        bundles[low, high] += wires if low == near else [wire.reversed() for wire in wires]
    return dict(sorted(bundles.items()))


def _root(wiring: Wiring, hub: str) -> tuple[bool, int, str]:
    trunks = sum(row.is_trunk for row in wiring.hubs[hub].rows)
    return root_key(wiring.build, hub, trunks)


def _label(build: Build, wires: Sequence[Wire], is_short: bool) -> Label:
    """The first trunk's own words, and how many more there are."""
    links = {build.channels[wire.channel].link for wire in wires}
    lanes = len(wires) if len(links) == 1 else 1
    first = (
        short_label(build, wires[0], lanes) if is_short else trunk_label(build, wires[0], lanes, NARROW_LABEL)
    )
    more = len(wires) - lanes
    return Label((*first.lines, (f"and {more} more", False, QUIET))) if more else first


def overview_in_words(wiring: Wiring, hubs: Sequence[str], sheets_of: SheetsOf) -> str:
    """On which sheet each hub is, and what joins them."""
    within = set(hubs)
    said = [f"{device_name(wiring.build, hub)}: {hung_on(wiring, hub, sheets_of)}." for hub in hubs]
    said += [
        f"{in_words(wiring.build, wire)}."
        for wire in wiring.trunks
        if {wiring.device(wire.near), wiring.device(wire.far)} <= within
    ]
    return " ".join(said)
