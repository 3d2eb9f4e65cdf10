"""A small plan with what a schedule depends on, compiled; texts of its own may be laid over it."""

from pathlib import Path
from tempfile import TemporaryDirectory

from firstfix.build.model import Build
from firstfix.pipeline import compile_plan
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.purchase.needs import needs
from firstfix.purchase.order import order as order_from
from firstfix.remaining.reckon import ordered_already
from firstfix.schedule.make import make_schedule
from firstfix.schedule.model import Planned, Schedule
from firstfix.work.model import Task
from firstfix.work.order import order
from firstfix.work.tasks import tasks

PLAN = """
name: Two rooms
sites: {home: {rooms: {study: {mains: 6}, loft: {mains: 2}}}}
ways: {shaft: {between: [study, loft], length: 10 m, kind: riser}}
cabinets: {main: {room: study, part: wall-cabinet-12u, layout: {12: panel, 10: core, 1: strip}}}
cabling: {indoor: cat6-indoor, jacks: jack-cat6}
vlans: {home: {id: 10, subnet: 10.1.1.0/24}}
devices:
  core:   {part: switch-16-poe, vlan: home}
  panel:  {part: fixed-panel-24-1u}
  strip:  {part: power-strip-1u-8}
  out:    {part: wall-outlet-2, room: loft}
  ap:     {part: access-point, room: loft, vlan: home}
  old:    {part: switch-8, room: study, owned: true, vlan: home}
links:
  - {run: [ap, out/1, panel/1, core/1]}
  - {run: [old, core/9]}
"""


def compiled(*more: str, plan: str = PLAN) -> Build:
    with TemporaryDirectory() as folder:
        path = Path(folder) / "plan.yaml"
        path.write_text("\n".join((plan, *more)), "utf-8")
        made = compile_plan(path, "plan.yaml")
    assert made.build is not None
    assert not made.report.has_errors, [each.message for each in made.report.findings]
    return made.build


def lined_up(build: Build) -> tuple[Task, ...]:
    return order(tasks(build), build.phases)


def schedule_of(build: Build, progress: Progress = NOTHING_KEPT) -> Schedule:
    to_buy = needs(build)
    return make_schedule(
        build, lined_up(build), to_buy, order_from(build, to_buy, ordered_already(to_buy, progress)), progress
    )


def step(schedule: Schedule, id_: str) -> Planned:
    return next(each for each in schedule.steps if each.id == id_)
