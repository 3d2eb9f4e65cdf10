"""Two whole plans that use every form of power, cords, stock and links. They are clean, and say what they should.

The figures were read off the plans by hand: who hangs on which outlet, what is cut from what, which cords come in which colour.
"""

from functools import cache
from pathlib import Path
from typing import Any

import pytest

from firstfix.build import ids
from firstfix.build.hardware import IN_A_BOX, IN_PLACE, TO_BUY
from firstfix.build.model import Build
from firstfix.finding.model import Level
from firstfix.graphs.backup import backup_domains, stays_up
from firstfix.pipeline import Compiled, compile_plan, results
from firstfix.purchase.left_over import at_hand
from firstfix.purchase.needs import needs
from repo.editing import read

HERE = Path(__file__).parent
PLANS = sorted(HERE.glob("*.yaml"))


@cache
def _compiled(name: str) -> Compiled:
    path = HERE / f"{name}.yaml"
    return compile_plan(path, path.name)


def _build(name: str) -> Build:
    build = _compiled(name).build
    assert build is not None
    return build


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_plan_is_clean(path: Path) -> None:
    report = _compiled(path.stem).report
    # Copper across the yard is what the old school's owners chose; whoever builds it is warned, and shall be.
    said = [each for each in report.findings if each.rule != "copper-joins-earths"]
    assert [each.message for each in said if each.level is not Level.NOTE] == []
    assert report.undetermined == ()


def test_every_form_is_used() -> None:
    """Keys of the sections that this half of the language has; a form that no whole plan uses is a form nobody tried."""
    said: dict[str, set[str]] = {}
    for path in PLANS:
        for section, value in read(path).items():
            said.setdefault(section, set()).update(_keys(section, value))
    assert said["links"] >= {
        "run", "lanes", "spare-for", "along", "cable", "colour", "length", "owned",
    }  # fmt: skip
    assert said["cabling"] >= {"slack", "spares", "colours", "outdoor", "desk-cord"}
    assert said["internet"] >= {"through", "addresses", "address", "router", "translates"}
    assert said["vlans"] >= {"id", "subnet", "dhcp", "reaches", "colour"}
    assert {"circuits", "stock", "wifi", "names", "parts"} <= said.keys()


def _keys(section: str, value: Any) -> set[str]:
    if section == "links":
        return {key for link in value for key in link}
    if section == "vlans":
        return {key for vlan in value.values() for key in vlan}
    return set(value) if isinstance(value, dict) else set()


def test_who_hangs_on_what() -> None:
    build = _build("sailing-school")
    fed = {(ids.path(feed.device), feed.inlet): ids.path(feed.source) for feed in build.mains_feeds}
    assert fed["store", 1] == "ups"
    assert fed["store", 2] == "strip"
    assert fed["strip", 1] == "desk-ups"
    assert fed["ups", 1] == fed["desk-ups", 1] == "club/office"
    assert {ids.path(each) for each in build.circuits["circuit:office-ring"].rooms} == {
        "club/office", "club/bar", "club/gym",
    }  # fmt: skip


def test_what_does_not_go_dark() -> None:
    build = _build("sailing-school")
    domains = {
        ids.path(each.ups): {ids.path(held.device) for held in each.holds} for each in backup_domains(build)
    }
    assert domains["ups"] == {"core", "store", "cam-slip", "ap-gym", "ap-office"}
    assert domains["desk-ups"] == {"strip", "router", "line-box", "store"}
    assert "device:cam-shed" not in stays_up(build)


def test_runs_that_lie_in_the_walls_are_not_bought() -> None:
    build = _build("sailing-school")
    indoor = [item for item in build.items if item.part == "cat6-indoor"]
    assert {item.standing for item in indoor} == {IN_PLACE}
    assert sum(item.length for item in indoor) == pytest.approx(13.5 + 13.2 + 17.8 + 18)


def test_a_new_panels_own_jacks_end_the_old_runs() -> None:
    items = _build("sailing-school").items
    panel = [item for item in items if item.part == "jack-cat6" and item.for_id == "device:panel"]
    assert {item.standing for item in panel} == {IN_A_BOX}
    assert sum(item.count for item in panel) == 12


def test_cords_come_in_lots_by_length_and_colour() -> None:
    lots = {
        (each.length, each.colour): (each.amount.needed, each.amount.spares)
        for each in needs(_build("sailing-school"))
        if each.part == "cord-cat6"
    }
    wanted = {(1, "red"): (3, 2), (5, "blue"): (1, 1), (2, "yellow"): (1, 0), (2, "blue"): None}
    assert {lot: lots.get(lot) for lot in wanted} == wanted
    assert all(each.amount.spares == 0 for each in needs(_build("old-school")))


def test_documents_say_colours_and_what_stays_up() -> None:
    compiled = _compiled("sailing-school")
    files = {
        name: data.decode()
        for name, data in results(compiled).items()
        if not name.endswith((".png", ".xlsx", ".pdf"))
    }
    assert "Patch office-pc/1 to out-gym/1 with a blue cord of 2 m" in files["install-checklist.md"]
    assert "cam-slip (PoE from core)" in files["report.html"]
    assert "Make the way fence-run ready" in files["install-checklist.md"]
    assert "Make the way lawn-duct ready" not in files["install-checklist.md"]
    sheet = files["stubs/router/settings.md"]
    assert "The outside behind line-box has the fixed address 192.0.2.10/30." in sheet.replace("\\", "")


def test_a_coil_at_hand_and_what_is_left_of_it() -> None:
    coils = {each.title: each for each in at_hand(_build("old-school")) if each.coil is not None}
    (coil,) = coils.values()
    assert coil.coil is not None
    assert [run.length for run in coil.coil.runs] == [22, 22, 17, 13]
    assert coil.left == pytest.approx(1)


def test_a_plug_from_the_box_ends_the_run() -> None:
    plugs = [item for item in _build("old-school").items if item.part == "plug-cat6"]
    by_end = {item.why.removeprefix("ends the run at "): item.standing for item in plugs}
    assert by_end["ap-attic/1"] == IN_A_BOX
    assert [standing for end, standing in by_end.items() if end != "ap-attic/1"] == [TO_BUY] * 9
