"""How things are identified on their labels: the scheme, and each thing's own part of its identifier.

Two schemes. `simple` takes the plan's own names, in capitals: PANEL/3. `tia-606` has the formats of ANSI/TIA-606-B and -C (from memory,
through digests of them; the standard itself was not read): 1A for a space, 1A.A01 for a cabinet, 1A.A01-35 for a panel, 1A.A01-35:04 for
its port, and near/far for a cable. What follows from these parts is worked out in graphs/administration.py.
"""

from collections.abc import Mapping
from typing import NamedTuple

SIMPLE = "simple"
TIA_606 = "tia-606"

# The parts of the library that labels are, by what they go on.
CABLE_LABEL = "label-cable"
OUTDOOR_LABEL = "label-outdoor"
JACK_LABEL = "label-jack"
NAME_LABEL = "label-cabinet"


class Administration(NamedTuple):
    """`own`: id of a site, building, room, cabinet or device to its own part of the identifier, in capitals, as the author wrote it
    or as it was chosen; what has none there goes by its name. `sheets`: a word of the plan language, or "" for paper as the drawings', to be cut."""

    scheme: str = SIMPLE
    sheets: str = ""
    own: Mapping[str, str] = {}


USUAL_ADMINISTRATION = Administration()
