"""The slips of this folder: each is one change to `base.yaml`, or a whole file of its own.

`from` stands once in the base and becomes `to`; `whole`, `whole_hex` and `line_ends` are for what that cannot say.
`findings`: how many the slip may make, 1 if unsaid; `says_nothing`: it is none. What is said stands beside, in the snapshots.
"""

from pathlib import Path
from typing import Any, NamedTuple

from ruamel.yaml import YAML

HERE = Path(__file__).parent
BASE = (HERE / "base.yaml").read_text(encoding="utf-8")
THEMES = sorted(path.stem for path in (HERE / "slips").glob("*.yaml"))


class Slip(NamedTuple):
    theme: str
    name: str
    data: bytes
    findings: int
    # The lines that the slip touches, from 1 on; none for a whole file.
    lines: range | None


def slips() -> list[Slip]:
    return [_slip(theme, entry) for theme in THEMES for entry in _entries(theme)]


def _entries(theme: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = YAML(typ="safe", pure=True).load(HERE / "slips" / f"{theme}.yaml")
    return found


def _slip(theme: str, entry: dict[str, Any]) -> Slip:
    findings = 0 if entry.get("says_nothing") else entry.get("findings", 1)
    data, lines = _changed(entry)
    return Slip(theme, entry["slip"], data, findings, lines)


def _changed(entry: dict[str, Any]) -> tuple[bytes, range | None]:
    if "whole" in entry:
        return entry["whole"].encode(), None
    if "whole_hex" in entry:
        return bytes.fromhex(entry["whole_hex"]), None
    if "line_ends" in entry:
        return BASE.replace("\n", entry["line_ends"]).encode(), None
    old, new = entry["from"], entry["to"]
    assert BASE.count(old) == 1, f"{entry['slip']}: {old!r} stands {BASE.count(old)} times in the base"
    first = BASE[: BASE.index(old)].count("\n") + 1
    return BASE.replace(old, new).encode(), range(first, first + max(old.count("\n"), new.count("\n")) + 1)
