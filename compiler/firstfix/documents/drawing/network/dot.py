"""The network as DOT source, for those who want to lay it out with Graphviz in their own way."""

from collections import defaultdict
from collections.abc import Iterable

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.network.wiring import Wire, Wiring, device_of
from firstfix.documents.drawing.where import building_label, building_of

_NEWLINE = r"\n"


def dot_source(wiring: Wiring) -> str:
    """An undirected graph: a node for each device in a channel or in none, an edge for each channel, a cluster a building."""
    import graphviz

    build = wiring.build
    graph = graphviz.Graph("network", graph_attr={"rankdir": "LR"}, node_attr={"shape": "box"})
    passive = {device for channel in build.channels.values() for device in channel.through}
    groups: dict[str, list[str]] = defaultdict(list)
    for device in build.devices:
        if device not in passive:
            groups[building_of(build, device)].append(device)
    names = svg.distinct_names({device: device.partition(":")[2] for device in build.devices})
    for number, building in enumerate(sorted(groups)):
        with graph.subgraph(
            name=f"cluster_{number}", graph_attr={"label": _label([building_label(build, building)])}
        ) as cluster:
            for device in groups[building]:
                known = build.devices[device]
                cluster.node(names[device], label=_label([known.name, known.part.title]))
    for wire in _wires(wiring):
        ends = [device_of(build, end) for end in (wire.near, wire.far)]
        words = filter(None, (wire.length, wire.cable, ", ".join(wire.via), wire.power))
        graph.edge(*(names.get(end, "missing") for end in ends), label=_label(words))
    return str(graph.source).replace("\r\n", "\n")


def _wires(wiring: Wiring) -> list[Wire]:
    """Each channel once, in order of their ids."""
    found = {row.wire.channel: row.wire for hub in wiring.hubs.values() for row in hub.rows}
    return [found[channel] for channel in sorted(found)]


def _label(words: Iterable[str]) -> str:
    """Lines of a label that is never taken for HTML, nor the backslashes in it for line ends."""
    import graphviz

    label: str = graphviz.nohtml(_NEWLINE.join(graphviz.escape(font.clean(each)) for each in words))
    return label
