"""What a fault takes down with it: the names within a value that was left out, about which nothing can be concluded.

A reader that drops a value says so here; whoever settles names later then knows that a thing which seems to be missing may stand
in what was dropped, and doesn't report it as a second fault.
"""

import re

from firstfix.finding.collector import Collector
from firstfix.source.node import Mapping, Node, Scalar, Sequence

# A hostile file can drop the same large value many times over; honest faults drop a few lines.
_MOST_NAMES = 20_000
_NAME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_LONGEST = 200


def leave_out(node: Node, faults: Collector) -> None:
    """`node` is not read, since it has a fault: all names in it are in doubt."""
    waiting: list[Node] = [node]
    while waiting and len(faults.in_doubt) < _MOST_NAMES:
        each = waiting.pop()
        if isinstance(each, Scalar):
            faults.in_doubt.update(_names_in(each.text))
        elif isinstance(each, Sequence):
            waiting.extend(each.items)
        elif isinstance(each, Mapping):
            for key, value in each.entries.values():
                waiting += (key, value)


def _names_in(text: str) -> list[str]:
    """
    >>> _names_in("store -> core/3")
    ['store -> core/3', 'store', 'core', '3']
    """
    return [] if len(text) > _LONGEST else [text, *_NAME.findall(text.lower())]
