"""A cage that is to reach a copper jack: a copper module for each such end, copper cords and cables, and no light."""

from pathlib import Path

from firstfix.pipeline import compile_plan

PLAN = """
sites: {home: {rooms: {study: {mains: 9}, hall: {mains: 2}}}}
ways: {wall: {between: [study, hall], length: 12 m}}
devices:
  router: {part: gateway-desktop, room: study}
  core: {part: switch-24-managed, room: study}
  far: {part: switch-8-managed, room: hall}
links:
  - {run: [router/1, core/sfp1]}
  - {run: [core/sfp2, far/1]}
"""


def test_each_cage_with_copper_gets_a_copper_module(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN, encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    modules = [item for item in build.items if build.library[item.part].kind == "transceiver"]
    assert sorted((item.part, item.count, item.why) for item in modules) == [
        ("sfp-copper", 1, "copper jack for core/sfp1"),
        ("sfp-copper", 1, "copper jack for core/sfp2"),
    ]
    assert sorted(piece.part for piece in build.pieces.values()) == ["cat6-indoor", "cord-cat6"]
    assert {channel.medium for channel in build.channels.values()} == {"copper"}


def test_a_cord_that_is_laid_as_a_run_has_its_own_plugs(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN.replace("far/1]}", "far/1], cable: cord-cat6}"), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    assert not [item for item in build.items if build.library[item.part].kind == "plug"]
