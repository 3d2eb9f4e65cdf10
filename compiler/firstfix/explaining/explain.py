"""Why something is as it is: from a name to explanations, each made on demand from the build.

Nothing is recorded for this while a plan is compiled but what choosing leaves behind anyway (build.reasons).
"""

from collections.abc import Callable

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.explaining.bought import explain_need
from firstfix.explaining.cabinet import explain_cabinet, explain_unit
from firstfix.explaining.device import explain_device
from firstfix.explaining.jack import explain_jack
from firstfix.explaining.logical import explain_address, explain_vlan
from firstfix.explaining.model import Explanation
from firstfix.explaining.piece import explain_piece
from firstfix.explaining.places import explain_building, explain_room, explain_site, explain_way
from firstfix.explaining.run import explain_channel, explain_link
from firstfix.explaining.step import explain_step
from firstfix.explaining.subjects import names, subjects
from firstfix.source.nearest import nearest

_BY_KIND: dict[str, Callable[[Build, str], Explanation]] = {
    "device": explain_device,
    "jack": explain_jack,
    "link": explain_link,
    "piece": explain_piece,
    "channel": explain_channel,
    "way": explain_way,
    "room": explain_room,
    "building": explain_building,
    "site": explain_site,
    "cabinet": explain_cabinet,
    "unit": explain_unit,
    "vlan": explain_vlan,
    "address": explain_address,
    "part": explain_need,
    "need": explain_need,
    "step": explain_step,
}


def explain(build: Build, name: str) -> tuple[Explanation, ...]:
    """All that `name` means in the build, each explained; empty where it means nothing."""
    return tuple(_BY_KIND[ids.kind(id_)](build, id_) for id_ in subjects(build, name))


def near(build: Build, name: str) -> str | None:
    """The likeliest of the names that could have been meant."""
    kind, colon, rest = name.partition(":")
    return nearest(rest if colon and kind in _BY_KIND else name, names(build))
