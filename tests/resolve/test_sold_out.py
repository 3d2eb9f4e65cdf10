"""A part that can't be had: no offer of it counts, so no order holds it."""

from pathlib import Path
from typing import Any

from firstfix.purchase.needs import needs
from firstfix.purchase.order import order
from resolve.planning import build_of, compiled, one_room

SHOPS: dict[str, Any] = {"north": {"postage": 5, "offers": {"switch-8": 20, "computer-desktop": 300}}}


def test_offers_of_it_vanish_and_the_line_is_held(tmp_path: Path) -> None:
    devices = {"core": "switch-8", "a": "computer-desktop"}
    plan = one_room(devices, [{"run": ["a", "core"]}], shops=SHOPS, purchase={"sold-out": "switch-8"})
    build = build_of(tmp_path, plan)
    (shop,) = build.shops
    assert [offer.goods.part for offer in shop.offers] == ["computer-desktop"]
    found = order(build, needs(build), {})
    assert found is not None
    assert "switch-8" in {each.line for each in found.held}
    assert "switch-8" not in {line.line for parcel in found.parcels for line in parcel.lines}


def test_a_part_that_there_is_not_is_told(tmp_path: Path) -> None:
    plan = one_room({"core": "switch-8"}, [], purchase={"sold-out": ["switch-9"]})
    said = [each for each in compiled(tmp_path, plan).report.findings if each.rule == "name-unknown"]
    assert [each.message for each in said] == ["there is no part 'switch-9'; did you mean 'switch-8'?"]
