"""From one shopping list to another, in packs as they are sold."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.parts.facts import Unknown
from firstfix.purchase.difference import Difference, purchases
from firstfix.purchase.needs import needs
from resolve.planning import build_of


def shed(tmp_path: Path, metres: int, points: int, **more: Any) -> Build:
    devices: dict[str, Any] = {
        f"ap-{place}": {
            "part": "access-point",
            "room": "loft",
            "vlan": "all",
            "plugs-into": ["panel", "core"],
        }
        for place in range(1, points + 1)
    }
    return build_of(
        tmp_path,
        {
            "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {}}}},
            "ways": {"shaft": {"between": ["den", "loft"], "length": f"{metres} m", "kind": "riser"}},
            "cabinets": {
                "box": {"part": "wall-cabinet-6u", "room": "den", "layout": {"6": "panel", "5": "core"}}
            },
            "vlans": {"all": {"id": 5, "subnet": "10.1.5.0/24"}},
            "devices": {
                "core": {"part": "switch-16-poe", "vlan": "all"},
                "panel": {"part": "keystone-panel-12-1u"},
                **devices,
            },
            **more,
        },
    )


def _of(found: tuple[Difference, ...], part: str) -> list[tuple[int, float]]:
    return [(pack.number, pack.size) for each in found if each.part == part for pack in each.packs]


def test_the_same_plan_twice_buys_nothing(tmp_path: Path) -> None:
    build = shed(tmp_path, 9, 3)
    assert purchases(build, build)[:2] == ((), ())


def test_what_was_unsettled_before_is_no_difference(tmp_path: Path) -> None:
    """A run that is too long for anything sold, or of no known length, is so in both lists; one that only the new list has is told."""
    long = shed(tmp_path, 900, 1)
    assert purchases(long, long)[:2] == ((), ())
    (found,) = (each for each in purchases(long, shed(tmp_path, 900, 2)).to_buy if each.unit == "m")
    assert "longer than any length sold" in found.unsettled[0]


def test_a_pack_that_is_there_serves_what_is_added(tmp_path: Path) -> None:
    """One more point takes no cage nuts, and labels and the like out of packs of the old list."""
    old, new = shed(tmp_path, 9, 1), shed(tmp_path, 9, 2)
    found = purchases(old, new)
    assert _of(found.to_buy, "access-point") == [(1, 1)]
    assert _of(found.to_buy, "cage-nut-set-m6") == []
    assert _of(found.left_over, "access-point") == []


def test_whole_packs_come_free(tmp_path: Path) -> None:
    found = purchases(shed(tmp_path, 9, 3), shed(tmp_path, 9, 1))
    assert _of(found.left_over, "access-point") == [(2, 1)]
    assert _of(found.to_buy, "access-point") == []


@pytest.mark.parametrize(
    ("old", "new"), [((9, 3), (9, 9)), ((40, 2), (15, 2)), ((20, 1), (30, 5)), ((9, 0), (9, 2))]
)
def test_old_and_to_buy_less_what_is_left_hold_the_new_list(
    tmp_path: Path, old: tuple[int, int], new: tuple[int, int]
) -> None:
    """The law of it, for every line: what is there, with what is bought, is at least what is needed, and no pack is idle."""
    before, after = shed(tmp_path, *old), shed(tmp_path, *new)
    found = purchases(before, after)
    had = {need.id: need.amount.bought for need in needs(before)}
    for need in needs(after):
        line = need.id.removeprefix("need:").replace(" ", "")
        more = sum(p.number * p.size for each in found.to_buy if each.line == line for p in each.packs)
        less = sum(p.number * p.size for each in found.left_over if each.line == line for p in each.packs)
        assert not (more and less and need.amount.unit == "pieces")
        assert had.get(need.id, 0) + more - less >= need.amount.needed + need.amount.spares


def test_cable_is_cut_from_the_coil_that_is_there(tmp_path: Path) -> None:
    old, new = shed(tmp_path, 9, 1), shed(tmp_path, 9, 2)
    cable = next(need for need in needs(old) if need.amount.cutting.coils)
    left = sum(coil.left for coil in cable.amount.cutting.coils)
    found = purchases(old, new)
    more = next(need for need in needs(new) if need.id == cable.id).amount.needed - cable.amount.needed
    bought = sum(number * size for number, size in _of(found.to_buy, cable.part))
    assert (bought == 0) == (more <= left)


def test_a_line_without_a_price_has_no_sum(tmp_path: Path) -> None:
    old, new = shed(tmp_path, 9, 1), shed(tmp_path, 9, 2)
    (line,) = [each for each in purchases(old, new).to_buy if each.part == "access-point"]
    assert isinstance(line.price, int)
    assert line.price == line.packs[0].price
    unpriced = line._replace(packs=(line.packs[0]._replace(price=Unknown("nobody says")),))
    assert not isinstance(unpriced.price, int)
