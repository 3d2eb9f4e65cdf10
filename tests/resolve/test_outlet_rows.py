"""Outlets of a UPS with adaptors in it: what is handed out is the arrangement that the rule on covered outlets counts."""

from pathlib import Path
from typing import Any

import pytest

from allocations.keeping import compiled, kept_after, said
from firstfix.algorithms.outlet_row import Plug, outlet_row
from firstfix.pipeline import Compiled
from firstfix.resolve.outlet_rows import covered_by

# Two adaptors that cover one beside their own, and up to two plugs that cover none.
_DEVICES = {
    "core": {"part": "switch-16-poe-sfp", "power": "ups"},
    "gateway": {"part": "gateway-1u", "power": "ups"},
    "line-box": {"part": "line-box", "owned": True, "power": "ups"},
    "store": {"part": "storage-2-bay", "power": "ups"},
    "ups": {"part": "ups-desktop", "power": "wall"},
}


def _plan(*names: str, plug: str = "F") -> dict[str, Any]:
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "mains": {"plug": plug},
        "devices": {name: _DEVICES[name] for name in (*names, "ups")},
        "links": [],
    }


def _outlets(result: Compiled) -> dict[str, int]:
    assert result.build is not None
    return {
        feed.device.partition(":")[2]: feed.outlet
        for feed in result.build.mains_feeds
        if feed.source == "device:ups"
    }


def _can_be_plugged(result: Compiled, can_turn: bool = True) -> bool:
    assert result.build is not None
    devices = result.build.devices
    row = [Plug(covered_by(devices[f"device:{name}"]), at) for name, at in _outlets(result).items()]
    return outlet_row(row, devices["device:ups"].part.mains.outlets, can_turn) is not None


def _covered(result: Compiled) -> list[str]:
    return [each.subject for each in result.report.findings if each.rule == "outlets-covered"]


@pytest.mark.parametrize(
    "names", [("core", "gateway", "line-box", "store"), ("core", "line-box", "store"), ("line-box", "store")]
)
def test_what_the_rule_finds_room_for_can_be_plugged_in(names: tuple[str, ...], tmp_path: Path) -> None:
    result = compiled(tmp_path, _plan(*names))
    assert _covered(result) == []
    assert set(_outlets(result)) == set(names)
    assert _can_be_plugged(result)


def test_plugs_that_cannot_turn_get_a_row_for_that(tmp_path: Path) -> None:
    result = compiled(tmp_path, _plan("core", "line-box", "store", plug="G"))
    assert _covered(result) == []
    assert _can_be_plugged(result, can_turn=False)


def test_kept_outlets_stay_where_a_row_around_them_exists(tmp_path: Path) -> None:
    first = compiled(tmp_path, _plan("line-box", "store"))
    more = compiled(tmp_path, _plan("core", "line-box", "store"), kept_after(first))
    assert {name: at for name, at in _outlets(more).items() if name != "core"} == _outlets(first)
    assert said(more) == []
    assert _can_be_plugged(more)


def test_a_kept_outlet_that_is_covered_moves_and_that_is_said(tmp_path: Path) -> None:
    kept = kept_after(compiled(tmp_path, _plan("core", "gateway", "line-box", "store")))
    lines = []
    for line in kept.splitlines():
        for name, at in (("core", 1), ("gateway", 2), ("line-box", 3), ("store", 4)):
            if line.startswith(f"- {{device: {name}, fed-by"):
                line = f"- {{device: {name}, fed-by: ups, outlet: {at}}}"
        lines.append(line)
    again = compiled(tmp_path, _plan("core", "gateway", "line-box", "store"), "\n".join(lines) + "\n")
    assert _can_be_plugged(again)
    assert _outlets(again)["core"] == 2 or _outlets(again)["core"] == 3
    assert set(said(again)) == {"kept-impossible"}
