"""The views of what is wired, against the joints, and against networkx."""

from pathlib import Path

import networkx
import pytest

from firstfix.build.model import Build
from firstfix.graphs.wired import wired_channels, wired_jacks, wired_parts, wired_pieces
from firstfix.pipeline import compile_plan
from repo.editing import GOOD_PLANS, PLANS


def _build(path: Path) -> Build:
    build = compile_plan(path, path.name).build
    assert build is not None
    return build


@pytest.mark.parametrize("path", [*PLANS, *GOOD_PLANS], ids=lambda path: f"{path.parent.name}/{path.stem}")
def test_views_of_what_is_wired(path: Path) -> None:
    build = _build(path)
    assert wired_jacks(build) == {joint.jack for joint in build.joints}
    assert [each.piece.id for each in wired_pieces(build)] == list(build.pieces)
    assert all((each.near.id, each.far.id) == each.piece.ends for each in wired_pieces(build))
    assert [each.channel.id for each in wired_channels(build)] == list(build.channels)
    assert all((each.near.id, each.far.id) == each.channel.ends for each in wired_channels(build))
    graph: networkx.Graph[str] = networkx.Graph()
    for channel in build.channels.values():
        near, far = (build.jacks[end].device for end in channel.ends)
        graph.add_edge(near, far)
    assert wired_parts(build) == sorted(sorted(each) for each in networkx.connected_components(graph))
