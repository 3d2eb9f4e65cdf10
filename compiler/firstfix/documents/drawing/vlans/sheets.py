"""The sheets of VLANs. Takes a build; gives drawings, none for a build without VLANs."""

from firstfix.build.model import Build
from firstfix.documents.drawing.kit.svg import Drawing, distinct_names
from firstfix.documents.drawing.listing import listing, split
from firstfix.documents.drawing.numbered import GAP, TALLEST, Block, as_one, contents_of, flow, numbered
from firstfix.documents.drawing.vlans import members
from firstfix.documents.drawing.vlans.carriers import carriers
from firstfix.documents.drawing.vlans.facts import facts
from firstfix.documents.drawing.vlans.matrix import COLUMNS, matrix, meaning, targets_of
from firstfix.documents.drawing.vlans.words import titled
from firstfix.graphs.vlan_view import VlanView, vlan_views

_ROWS = 18
# Less than this is no beginning for a list of members.
_LEAST = 60.0


def vlan_drawings(build: Build) -> tuple[Drawing, ...]:
    """`vlans` where there are several, then `vlan-NAME` by number; each in as many parts as it takes."""
    views = vlan_views(build)
    names = distinct_names({view.vlan.id: view.vlan.name for view in views})
    overview = _overview(build, views) if len(views) > 1 else ()
    return (
        *overview,
        *(drawing for view in views for drawing in _sheets(build, view, f"vlan-{names[view.vlan.id]}")),
    )


def one_vlan(build: Build, vlan: str) -> tuple[Drawing, ...]:
    """The sheets of one VLAN; KeyError for an id that is no VLAN's."""
    views = {view.vlan.id: view for view in vlan_views(build)}
    names = distinct_names({id_: view.vlan.name for id_, view in views.items()})
    return _sheets(build, views[vlan], f"vlan-{names[vlan]}")


def _overview(build: Build, views: tuple[VlanView, ...]) -> tuple[Drawing, ...]:
    targets = targets_of(views)
    blocks = [
        matrix(build, views[row : row + _ROWS], targets[column : column + COLUMNS])
        for row in range(0, len(views), _ROWS)
        for column in range(0, len(targets), COLUMNS)
    ]
    under = f"{len(views)} VLANs: who may open connections to whom; answers always come back"
    sheets = [[*sheet, meaning()] for sheet in flow(blocks, TALLEST - meaning().picture.height - GAP)]
    return numbered("vlans", f"VLANs of {build.name}", contents_of(sheets, under))


def _sheets(build: Build, view: VlanView, stem: str) -> tuple[Drawing, ...]:
    above = flow((facts(build, view), *carriers(build, view)), gap=0.0)
    sheets = [[as_one(blocks)] for blocks in above]
    left = TALLEST - sheets[-1][0].picture.height - GAP
    rows = members.rows(build, view)
    lots = split(rows, TALLEST, left if left >= _LEAST else TALLEST)
    for index, lot in enumerate(lots):
        block = Block(listing(members.COLUMNS, lot), " ".join(f"{row.hint}." for row in lot))
        if index or left < _LEAST:
            sheets.append([block])
        else:
            sheets[-1].append(block)
    return numbered(stem, f"{titled(view.vlan)} of {build.name}", contents_of(sheets, _under(view)))


def _under(view: VlanView) -> str:
    count, bridges = len(view.members), len(view.carriers)
    return (
        f"{count} member{'' if count == 1 else 's'}, carried by {bridges}"
        f" bridge{'' if bridges == 1 else 's'} (switches and routers that pass frames on)"
    )
