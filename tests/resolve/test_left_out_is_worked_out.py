"""What the author left out is worked out as a builder would have it, and one slip gives one finding."""

from pathlib import Path

from firstfix.pipeline import Compiled, compile_plan

PLAN = """
sites: {home: {buildings: {house: {rooms: {study: {mains: 4}}}, kiln: {rooms: {store: {mains: 2}}}}}}
ways: {duct: {between: [study, store], length: 60 m, kind: buried-duct}}
cabinets: {main: {room: study, part: wall-cabinet-6u, layout: {1: strip}}}
devices:
  gateway: {part: gateway-desktop, room: study}
  core: {part: switch-8-poe-sfp, room: study}
  far: {part: switch-8-poe-sfp, room: store}
  strip: {part: power-strip-1u-8, owned: true}
links:
  - {run: [gateway, core]}
  - {run: [core/sfp1, far/sfp1]}
"""


def _compiled(text: str, folder: Path) -> Compiled:
    path = folder / "plan.yaml"
    path.write_text(text, "utf-8")
    return compile_plan(path, "plan.yaml")


def test_fibre_in_the_ground_has_a_jacket_for_it_and_a_module_at_each_end(tmp_path: Path) -> None:
    compiled = _compiled(PLAN, tmp_path)
    assert compiled.build is not None
    assert not compiled.report.findings
    fibre = [piece.part for piece in compiled.build.pieces.values() if piece.route]
    assert fibre == ["fibre-os2-buried"]
    modules = [
        item for item in compiled.build.items if compiled.build.library[item.part].kind == "transceiver"
    ]
    assert len(modules) == 2


def test_a_desk_is_not_plugged_into_a_cabinets_strip(tmp_path: Path) -> None:
    compiled = _compiled(PLAN, tmp_path)
    assert compiled.build is not None
    sources = {feed.device: feed.source for feed in compiled.build.mains_feeds}
    assert sources["device:gateway"] == "room:home/study"


def test_a_jack_that_does_not_exist_is_one_finding(tmp_path: Path) -> None:
    compiled = _compiled(PLAN.replace("far/sfp1", "far/sfp9"), tmp_path)
    assert [(each.rule, each.primary.line if each.primary else 0) for each in compiled.report.findings] == [
        ("name-unknown", 12)
    ]
