"""The network drawing of a build: one sheet of A4 if it fits, else an overview and as many sheets as it takes."""

from collections.abc import Mapping, Sequence
from itertools import groupby
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.page import FOOT, HEAD, fits_sheet, of_group, page
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.reference import Onward
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.dot import dot_source
from firstfix.documents.drawing.network.entries import in_words, sheet_with
from firstfix.documents.drawing.network.overview import (
    HUBS,
    SITES,
    Style,
    overview_in_words,
    overview_picture,
    styles,
)
from firstfix.documents.drawing.network.rest import remarks, rest_pictures
from firstfix.documents.drawing.network.sheet import hub_diagram, lone_tables, onward_of, part_diagram
from firstfix.documents.drawing.network.split import Part, parts, sheets
from firstfix.documents.drawing.network.wiring import Wiring, device_name, wiring
from firstfix.documents.drawing.where import building_label, building_of, site_name, site_of

_REST_HEIGHT = palette.SHEET_SHORT - HEAD - FOOT - 3 * palette.MARGIN
_REST_WIDTH = palette.SHEET_INNER
_REST = "what is not on the network"


def network_drawing(build: Build, prefix: str = "") -> Drawing:
    """The whole network on one sheet, however large that gets. `prefix` starts every id in the SVG."""
    found = wiring(build)
    return _single(found, f"Network of {build.name}", _whole(found), prefix)


def network_drawings(build: Build, prefix: str = "") -> tuple[Drawing, ...]:
    """Sheets that print on A4, lying: one that shows all, or an overview and its sheets. The first has the DOT source.

    Every device of the build is named on one of them.
    """
    return drawings_of(wiring(build), f"Network of {build.name}", prefix)


def drawings_of(found: Wiring, title: str, prefix: str = "") -> tuple[Drawing, ...]:
    """Those of a whole network, or of a part of one."""
    groups = sheets(found)
    if len(groups) <= 1:
        pictures = _whole(found)
        if fits_sheet(pictures):
            return (_single(found, title, pictures, prefix),)
    return _several(found, title, groups, prefix)


def _single(found: Wiring, title: str, pictures: tuple[Picture, ...], prefix: str) -> Drawing:
    words = alt(found, tuple(found.hubs))
    return page(
        found.stem,
        prefix,
        title,
        f"{_counts(found)}{palette.BETWEEN}{_figures(found)}",
        "",
        words,
        pictures,
        dot_source(found),
    )


def _whole(found: Wiring) -> tuple[Picture, ...]:
    hubs = (hub_diagram(found, found.hubs, {}).picture,) if found.hubs else ()
    width = max([2 * _REST_WIDTH / 3, *(picture.width for picture in hubs)])
    return (*hubs, *rest_pictures(remarks(found), width, _REST_HEIGHT))


class _Sheet(NamedTuple):
    """What a sheet is to show: an overview of some hubs, or the hubs themselves."""

    hubs: tuple[str, ...]
    overview: Style | None = None
    part: Part | None = None


class _Drawn(NamedTuple):
    """`under` stands below the title; `words` are the sheet for who can't see it."""

    under: str
    words: str
    picture: Picture
    onward: tuple[Onward, ...] = ()
    is_wired: bool = True


def _several(
    found: Wiring, title: str, groups: tuple[tuple[str, ...], ...], prefix: str
) -> tuple[Drawing, ...]:
    rest = rest_pictures(remarks(found), _REST_WIDTH, _REST_HEIGHT)
    plan = _plan(found, groups, has_rest=bool(rest))
    names = [f"{found.stem}-{number}" for number in range(1, len(plan) + len(rest) + 1)]
    sheets_of: dict[str, list[str]] = {hub: [] for hub in found.hubs}
    for name, each in zip(names, plan, strict=False):
        for hub in each.hubs if each.overview is None else ():
            sheets_of[hub].append(name)
    sheet_of = _sheet_of(found, plan, names)
    drawn = [_drawn(found, each, sheets_of, sheet_of) for each in plan]
    drawn += [
        _Drawn(
            "devices not on the network",
            "Devices that no channel of the network reaches.",
            each,
            is_wired=False,
        )
        for each in rest
    ]
    is_followed = [each.overview is not None and each.overview.part + 1 < each.overview.of for each in plan]
    is_followed += [number + 1 < len(rest) for number in range(len(rest))]
    for number in (number for number, goes_on in enumerate(is_followed) if goes_on):
        drawn[number] = drawn[number]._replace(onward=(Onward(names[number + 1]),))
    if rest:
        drawn[0] = drawn[0]._replace(onward=(*drawn[0].onward, Onward(names[len(plan)], _REST)))
    return tuple(
        page(
            name, prefix, title,
            palette.BETWEEN.join(filter(None, (each.under, _counts(found) if number == 0 else "", _figures(found) if each.is_wired else ""))),
            of_group(number + 1, len(drawn)), each.words, (each.picture,),
            dot_source(found) if number == 0 else "", each.onward,
        )
        for number, (name, each) in enumerate(zip(names, drawn, strict=True))
    )  # fmt: skip


def _plan(found: Wiring, groups: tuple[tuple[str, ...], ...], has_rest: bool) -> list[_Sheet]:
    """The sheets in order. Where the overview can only name sites, a site of several sheets has an overview of its own."""
    everything = tuple(found.hubs)
    if len(groups) <= 1:
        return [sheet for group in groups for sheet in _of_group(found, group)]
    flags = (Onward(f"{found.stem}-100", _REST),) if has_rest else ()
    top = styles(found, everything, True, flags)
    plan = [_Sheet(everything, style) for style in top]
    for _, of_site in groupby(groups, key=lambda group: site_of(found.build, group[0])):
        inside = list(of_site)
        if top[0].boxes == SITES and len(inside) > 1:
            hubs = tuple(sorted(hub for group in inside for hub in group))
            plan += [_Sheet(hubs, style) for style in styles(found, hubs, False)]
        plan += [sheet for group in inside for sheet in _of_group(found, group)]
    return plan


def _of_group(found: Wiring, group: tuple[str, ...]) -> list[_Sheet]:
    """One sheet, or for a hub too large for that as many as its parts."""
    cut = parts(found, group[0]) if len(group) == 1 else ()
    return [_Sheet(group, part=part) for part in cut] if len(cut) > 1 else [_Sheet(group)]


def _drawn(
    found: Wiring, sheet: _Sheet, sheets_of: Mapping[str, Sequence[str]], sheet_of: Mapping[str, str]
) -> _Drawn:
    hubs = sheet.hubs
    if sheet.overview is not None:
        return _overview(found, hubs, sheet.overview, sheets_of)
    if sheet.part is not None:
        return _part(found, hubs[0], sheet.part, sheet_of, sheets_of[hubs[0]])
    picture = hub_diagram(found, hubs, sheet_of).picture
    flags = _with_room(picture, (), onward_of(found, hubs, sheet_of))
    return _Drawn(_places(found, hubs), alt(found, hubs), picture, flags)


def _sheet_of(found: Wiring, plan: Sequence[_Sheet], names: Sequence[str]) -> dict[str, str]:
    """The sheet of each hub, of one in several parts the first; and of each jack of such a hub the sheet that shows it."""
    first: dict[str, str] = {}
    for name, sheet in zip(names, plan, strict=False):
        for hub in sheet.hubs if sheet.overview is None else ():
            first.setdefault(hub, name)
    of_jacks = {
        row.wire.near: name
        for name, sheet in zip(names, plan, strict=False)
        if sheet.part is not None
        for row in found.hubs[sheet.hubs[0]].rows[_rows_of(found, sheet.hubs[0], sheet.part, first)]
    }
    return first | of_jacks


def _rows_of(found: Wiring, hub: str, part: Part, sheet_of: Mapping[str, str]) -> slice:
    columns = [len(table.entries) for table in lone_tables(found, hub, sheet_of)]
    return slice(sum(columns[: part.first]), sum(columns[: part.last]))


def _with_room(picture: Picture, needed: tuple[Onward, ...], more: tuple[Onward, ...]) -> tuple[Onward, ...]:
    """The flags of trunks only where the sheet has room for them: the rows name those sheets anyway."""
    flags = (*needed, *more)
    return flags if fits_sheet((picture,), flags) else needed


def _part(found: Wiring, hub: str, part: Part, sheet_of: Mapping[str, str], own: Sequence[str]) -> _Drawn:
    """Some columns of a hub, and in words those of its wires that are in them."""
    rows = _rows_of(found, hub, part, sheet_of)
    name = device_name(found.build, hub)
    under = f"{_places(found, (hub,))}{palette.BETWEEN}{name}, part {part.number} of {part.of}"
    picture = part_diagram(found, hub, sheet_of, part.first, part.last).picture
    trunks = onward_of(found, (hub,), sheet_of)
    shown = {sheet_with(row, sheet_of) for row in found.hubs[hub].rows[rows] if row.peer in sheet_of}
    following = (Onward(own[part.number], name),) if part.number < part.of else ()
    flags = _with_room(picture, following, tuple(each for each in trunks if each.sheet in shown))
    return _Drawn(under, alt(found, (hub,), rows), picture, flags)


def _overview(
    found: Wiring, hubs: tuple[str, ...], style: Style, sheets_of: Mapping[str, Sequence[str]]
) -> _Drawn:
    build = found.build
    is_whole = len(hubs) == len(found.hubs)
    of = "" if is_whole else f" of {site_name(build, site_of(build, hubs[0]))}"
    if is_whole and style.boxes != HUBS:
        of = " of the sites" if style.boxes == SITES else " of the buildings"
    under = f"overview{of}"
    if style.of > 1:
        under = f"{under}, part {style.part + 1} of {style.of}"
    words = overview_in_words(found, hubs, sheets_of) if style.part == 0 else under
    return _Drawn(under, words, overview_picture(found, hubs, sheets_of, style))


def _places(found: Wiring, group: tuple[str, ...]) -> str:
    labels = sorted({building_label(found.build, building_of(found.build, hub)) for hub in group})
    return "; ".join(labels)


def _figures(found: Wiring) -> str:
    """What the figures beside the wires are."""
    has_power = any(row.wire.power for hub in found.hubs.values() for row in hub.rows)
    return "lengths with their cords" + (", watts of PoE drawn at the most" if has_power else "")


def _counts(found: Wiring) -> str:
    on_it = {*found.hubs, *(row.peer for hub in found.hubs.values() for row in hub.rows)}
    channels = len({row.wire.channel for hub in found.hubs.values() for row in hub.rows})
    return f"{len(on_it)} devices on the network, {channels} channel{'' if channels == 1 else 's'}"


def alt(found: Wiring, hubs: tuple[str, ...], rows: slice = slice(None)) -> str:
    """Hubs in words, for who can't see the drawing: each with what is wired to it, in those rows."""
    sentences = []
    for hub in hubs:
        wires = "; ".join(in_words(found.build, row.wire) for row in found.hubs[hub].rows[rows])
        sentences.append(f"{device_name(found.build, hub)}: {wires}.")
    return " ".join(sentences) or "Nothing is wired."
