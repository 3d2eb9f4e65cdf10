"""A small plan with everything that can be recorded: lines to buy, labels, a run through a panel, steps of all kinds."""

from pathlib import Path

from firstfix.pipeline import Compiled, compile_plan
from firstfix.purchase.needs import needs
from firstfix.remaining.model import Remaining
from firstfix.remaining.reckon import remaining
from firstfix.work.order import order
from firstfix.work.tasks import tasks

PLAN = """\
name: Potting shed
sites:
  home:
    rooms: {study: {mains: 4}, attic: {floor: 2}}
ways:
  riser: {between: [study, attic], length: 11 m, kind: riser}
cabinets:
  rack:
    room: study
    part: wall-cabinet-6u
    layout:
      5: panel
      4: core
devices:
  panel:    {part: keystone-panel-24-1u}
  core:     {part: switch-16-poe}
  gateway:  {part: gateway-desktop, room: study}
  ap-attic: {part: access-point, room: attic, plugs-into: [panel/1, core], vlan: house}
links:
  - {run: [gateway/1, core/9]}
vlans:
  house: {id: 10, subnet: 10.61.10.0/24}
"""
RUN = "ap-attic--core/1"


def write(folder: Path, progress: str | None = None, plan: str = PLAN) -> Path:
    path = folder / "shed.yaml"
    path.write_text(plan, "utf-8")
    beside = folder / "shed.progress.yaml"
    if progress is None:
        beside.unlink(missing_ok=True)
    else:
        beside.write_text(progress, "utf-8")
    return path


def compiled(folder: Path, progress: str | None = None, plan: str = PLAN) -> Compiled:
    return compile_plan(write(folder, progress, plan), "shed.yaml")


def standing(result: Compiled) -> Remaining:
    assert result.build is not None
    return remaining(result.build, order(tasks(result.build)), needs(result.build), result.progress)


def told(result: Compiled) -> list[tuple[str, str]]:
    """Rule and subject of what lies in the progress file."""
    return [
        (each.rule, each.subject)
        for each in result.report.findings
        if each.primary is not None and each.primary.file == "shed.progress.yaml"
    ]
