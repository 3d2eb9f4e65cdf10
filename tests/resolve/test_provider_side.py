"""A run to the provider's box takes the gateway's jack for it, and no other run does."""

from pathlib import Path

from firstfix.pipeline import compile_plan

PLAN = """
sites: {home: {rooms: {study: {mains: 9}}}}
devices:
  line: {part: line-box, owned: true}
  gateway: {part: gateway-desktop}
  core: {part: switch-8}
links:
  - {run: [line, gateway]}
  - {run: [gateway, core]}
"""


def test_the_box_gets_the_jack_towards_the_line(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(PLAN, "utf-8")
    compiled = compile_plan(path, "plan.yaml")
    assert not compiled.report.findings
    assert compiled.build is not None
    assert sorted(channel.ends for channel in compiled.build.channels.values()) == [
        ("jack:core/1", "jack:gateway/1"),
        ("jack:gateway/wan", "jack:line/1"),
    ]
