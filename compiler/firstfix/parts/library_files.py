"""The library that comes with firstfix: neutral generic parts.

Their figures are typical of their kind, their prices invented.
"""

from functools import lru_cache
from pathlib import Path

from firstfix.finding.collector import Collector
from firstfix.parts.facts import TYPICAL
from firstfix.parts.part import Library, Part
from firstfix.parts.read import read_parts
from firstfix.source.reader import parse

_FOLDER = Path(__file__).parent / "library"


class LibraryError(Exception):
    """A fault of ours: a part file that we ship does not read cleanly."""


@lru_cache(maxsize=1)
def library() -> Library:
    """All parts we ship, by name. Files are read in the order of their names; `like` may point back."""
    found: dict[str, Part] = {}
    for path in sorted(_FOLDER.glob("*.yaml")):
        faults = Collector()
        tree = parse(path.read_bytes(), path.name, faults)
        parts = {} if tree is None else read_parts(tree, found, faults, TYPICAL)
        if faults.findings:
            first = faults.findings[0]
            raise LibraryError(f"{first.primary}: {first.message}")
        twice = sorted(found.keys() & parts.keys())
        if twice:
            raise LibraryError(f"{path.name}: an earlier file has a part '{twice[0]}' too")
        found.update(parts)
    return found
