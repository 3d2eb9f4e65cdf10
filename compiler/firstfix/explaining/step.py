"""Why a step of the checklist comes where it does: what must be done before, and why; what it takes."""

from firstfix.build.hardware import Item
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.lines import sections
from firstfix.explaining.model import Explanation, Line
from firstfix.units import metres
from firstfix.work.model import Precedence
from firstfix.work.tasks import tasks
from firstfix.work.wanted import SAYS_SO


def explain_step(build: Build, id_: str) -> Explanation:
    """`step:pull:piece/core--desk/1`"""
    by_id = {task.id: task for task in tasks(build)}
    task = by_id[id_.removeprefix("step:")]
    items = {item.id: item for item in build.items}
    before = (Line(each.before, by_id[each.before].title, _origin(each), each.why) for each in task.after)
    takes = (_taken(items[each]) for each in task.parts if each in items)
    checks = (Line(check.what, check.expected) for check in task.checks)
    made = sections(("after", before), ("takes", takes), ("done when", checks))
    return Explanation(id_, "step", f"{task.id}: {task.title}", build.provenance.span(task.subject), made)


def _origin(precedence: Precedence) -> str:
    return WRITTEN if precedence.why.startswith(SAYS_SO) else WORKED_OUT


def _taken(item: Item) -> Line:
    return Line(item.part, metres(item.length) if item.length else str(item.count), "", item.why)
