"""The folder of each phase: what to buy and to do for it, how the network looks once it is done, and what the rules say of that.

Takes stages, the builds as of each phase; gives files below `phases/NAME/`. After the last phase stands the whole network, whose
drawings and findings are beside the folder.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.phases import Phase
from firstfix.documents.drawing.cabinet import cabinet_drawings
from firstfix.documents.drawing.network.drawings import network_drawings
from firstfix.documents.drawing.set import dressed
from firstfix.documents.install_checklist import install_checklist_markdown
from firstfix.documents.labels import label_files
from firstfix.documents.phase_share import share_words
from firstfix.documents.shopping_list import OnePhase, shopping_list_csv, shopping_list_markdown
from firstfix.documents.stubs.text import folder_name
from firstfix.finding.model import Report
from firstfix.finding.render_text import render_text
from firstfix.graphs.labels import physical_labels
from firstfix.purchase.by_phase import PhaseCost
from firstfix.purchase.in_phase import fresh_items, in_phase
from firstfix.purchase.owned import already_there
from firstfix.work.model import Task
from firstfix.work.order import order
from firstfix.work.tasks import tasks
from firstfix.work.tool_parts import tool_lines


class Stage(NamedTuple):
    """`before`: the build as of the phase before, None for the first. `report` is on `build`, as of this phase."""

    phase: Phase
    before: Build | None
    build: Build
    report: Report
    is_last: bool


class Paid(NamedTuple):
    """What the phases cost by the whole list: `costs` and the `postage` of their parcels, by their names."""

    costs: Mapping[str, PhaseCost]
    postage: Mapping[str, int]


def phase_files(
    stages: tuple[Stage, ...], paid: Paid, done: frozenset[str] = frozenset(), is_draft: bool = False
) -> Iterator[tuple[str, bytes]]:
    """Relative path and bytes. Steps whose ids are `done` have their box ticked; drawings of a draft say so."""
    for stage in stages:
        folder = f"phases/{folder_name(stage.phase.name)}"
        for name, text in (*_papers(stage, paid, done), *_pictures(stage, is_draft)):
            yield f"{folder}/{name}", text.encode()
        for name, content in _labels(stage, is_draft):
            yield f"{folder}/{name}", content


def _papers(stage: Stage, paid: Paid, done: frozenset[str]) -> Iterator[tuple[str, str]]:
    build = _of_this_phase(stage)
    found, steps = in_phase(stage.before, build), _steps(stage)
    there = already_there(replace(build, items=fresh_items(stage.before, build)))
    share = share_words(
        build, stage.phase, found.to_buy, paid.costs[stage.phase.name], paid.postage.get(stage.phase.name, 0)
    )
    one = OnePhase(share, found.from_before)
    tools = tool_lines(build, steps)
    yield "shopping-list.md", shopping_list_markdown(build, found.to_buy, there, tools, one)
    yield "shopping-list.csv", shopping_list_csv(build, found.to_buy)
    yield "install-checklist.md", install_checklist_markdown(build, steps, done)
    if not stage.is_last:
        # The texts of the plan's files are no part of it; places name their lines.
        yield "findings.txt", render_text(stage.report, {})


def _labels(stage: Stage, is_draft: bool) -> Iterator[tuple[str, bytes]]:
    """Of what comes with this phase, for what was there has its labels."""
    before = (
        {(each.on, each.subject, each.jack, each.far) for each in physical_labels(stage.before)}
        if stage.before
        else set()
    )
    build = _of_this_phase(stage)
    fresh = tuple(
        each for each in physical_labels(build) if (each.on, each.subject, each.jack, each.far) not in before
    )
    yield from label_files(build, is_draft, fresh)


def _pictures(stage: Stage, is_draft: bool) -> Iterator[tuple[str, str]]:
    if stage.is_last:
        return
    build = _of_this_phase(stage)
    for drawing in dressed(build, (*network_drawings(build), *cabinet_drawings(build)), is_draft=is_draft):
        yield f"drawings/{drawing.name}.svg", drawing.svg


def _of_this_phase(stage: Stage) -> Build:
    """Whose papers say which phase they are of."""
    name = f"{stage.build.name}, {stage.phase.name}" if stage.build.name else stage.phase.name
    return replace(stage.build, name=name, phases=(stage.phase,))


def _steps(stage: Stage) -> tuple[Task, ...]:
    """Those that the phase brings, in order; what they wait for in an earlier one is done by then."""
    made = tasks(stage.build)
    earlier = {task.id for task in tasks(stage.before)} if stage.before is not None else set()
    fresh = (task for task in made if task.id not in earlier)
    kept = (
        replace(task, after=tuple(each for each in task.after if each.before not in earlier))
        for task in fresh
    )
    return order(kept, stage.build.phases)
