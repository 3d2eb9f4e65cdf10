"""The network drawing of a build: one sheet of A4 if it fits, else an overview and as many sheets as it takes."""

from collections.abc import Mapping
from itertools import groupby
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.page import HEAD, fits_a4, page
from firstfix.documents.drawing.kit.picture import Picture
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.network.dot import dot_source
from firstfix.documents.drawing.network.entries import in_words
from firstfix.documents.drawing.network.overview import (
    fits_overview,
    overview_diagram,
    overview_in_words,
    site_diagram,
)
from firstfix.documents.drawing.network.rest import remarks, rest_pictures
from firstfix.documents.drawing.network.sheet import hub_diagram
from firstfix.documents.drawing.network.split import sheets
from firstfix.documents.drawing.network.wiring import Wiring, device_name, wiring
from firstfix.documents.drawing.where import building_label, building_of, site_name, site_of

_REST_HEIGHT = palette.A4_SHORT - HEAD - 3 * palette.MARGIN
_REST_WIDTH = palette.A4_INNER


def network_drawing(build: Build, prefix: str = "") -> Drawing:
    """The whole network on one sheet, however large that gets. `prefix` starts every id in the SVG."""
    found = wiring(build)
    return _single(found, _whole(found), prefix)


def network_drawings(build: Build, prefix: str = "") -> tuple[Drawing, ...]:
    """Sheets that print on A4, lying: one that shows all, or an overview and its sheets. The first has the DOT source.

    Every device of the build is named on one of them.
    """
    found = wiring(build)
    groups = sheets(found)
    if len(groups) <= 1:
        pictures = _whole(found)
        if fits_a4(pictures):
            return (_single(found, pictures, prefix),)
    return _several(found, groups, prefix)


def _single(found: Wiring, pictures: tuple[Picture, ...], prefix: str) -> Drawing:
    title = f"Network of {found.build.name}"
    return page(
        "network",
        prefix,
        title,
        _counts(found),
        "",
        alt(found, tuple(found.hubs)),
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
    is_overview: bool
    is_by_site: bool = False


def _several(found: Wiring, groups: tuple[tuple[str, ...], ...], prefix: str) -> tuple[Drawing, ...]:
    plan = _plan(found, groups)
    sheet_of = {
        hub: number for number, each in enumerate(plan, 1) if not each.is_overview for hub in each.hubs
    }
    drawn = [_drawn(found, each, sheet_of) for each in plan]
    for picture in rest_pictures(remarks(found), _REST_WIDTH, _REST_HEIGHT):
        drawn.append(
            ("devices not on the network", "Devices that no channel of the network reaches.", picture)
        )
    title = f"Network of {found.build.name}"
    return tuple(
        page(
            f"network-{number}", prefix, title, f"{under} · {_counts(found)}" if number == 1 else under,
            f"sheet {number} of {len(drawn)}", words, (picture,),
            dot_source(found) if number == 1 else "",
        )
        for number, (under, words, picture) in enumerate(drawn, 1)
    )  # fmt: skip


def _plan(found: Wiring, groups: tuple[tuple[str, ...], ...]) -> list[_Sheet]:
    """The sheets in order. Where the overview can only name sites, a site of several sheets has an overview of its own."""
    everything = tuple(found.hubs)
    if len(groups) <= 1:
        return [_Sheet(group, False) for group in groups]
    is_by_site = not fits_overview(found, everything)
    plan = [_Sheet(everything, True, is_by_site)]
    for _, of_site in groupby(groups, key=lambda group: site_of(found.build, group[0])):
        inside = list(of_site)
        if is_by_site and len(inside) > 1:
            plan.append(_Sheet(tuple(sorted(hub for group in inside for hub in group)), True))
        plan += [_Sheet(group, False) for group in inside]
    return plan


def _drawn(found: Wiring, sheet: _Sheet, sheet_of: Mapping[str, int]) -> tuple[str, str, Picture]:
    """The line under the title, the sheet in words, and its picture."""
    build, hubs = found.build, sheet.hubs
    if not sheet.is_overview:
        return _places(found, hubs), alt(found, hubs), hub_diagram(found, hubs, sheet_of).picture
    words = overview_in_words(found, hubs, sheet_of)
    if sheet.is_by_site:
        return "overview of the sites", words, site_diagram(found, sheet_of).picture
    is_whole = len(hubs) == len(found.hubs)
    under = "overview" if is_whole else f"overview of {site_name(build, site_of(build, hubs[0]))}"
    return under, words, overview_diagram(found, hubs, sheet_of).picture


def _places(found: Wiring, group: tuple[str, ...]) -> str:
    labels = sorted({building_label(found.build, building_of(found.build, hub)) for hub in group})
    return "; ".join(labels)


def _counts(found: Wiring) -> str:
    on_it = {*found.hubs, *(row.peer for hub in found.hubs.values() for row in hub.rows)}
    channels = len(found.build.channels)
    return f"{len(on_it)} devices on the network, {channels} channel{'' if channels == 1 else 's'}"


def alt(found: Wiring, hubs: tuple[str, ...]) -> str:
    """Hubs in words, for who can't see the drawing: each with what is wired to it."""
    sentences = []
    for hub in hubs:
        wires = "; ".join(in_words(found.build, row.wire) for row in found.hubs[hub].rows)
        sentences.append(f"{device_name(found.build, hub)}: {wires}.")
    return " ".join(sentences) or "Nothing is wired."
