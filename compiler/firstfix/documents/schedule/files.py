"""Everything that a build's schedule is written as: relative path to bytes."""

from collections.abc import Mapping

from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.drawing.set import dressed, on_light
from firstfix.documents.drawing.work_chart import bar_charts
from firstfix.documents.report.made import Made
from firstfix.documents.schedule.by_day import numbers_of
from firstfix.documents.schedule.calendar import calendar
from firstfix.documents.schedule.data import schedule_json
from firstfix.documents.schedule.page import checklist_page
from firstfix.schedule.make import make_schedule
from firstfix.schedule.resumed import resumed, still_open

_DRAFT = "the plan has errors: nothing may be bought or built from this. They are in report.html."


def schedule_files(made: Made) -> Mapping[str, bytes]:
    """The checklist page, the chart, the data, and with a start in the plan the calendar. With an error, each says that it is a draft."""
    build, work, is_draft = made.build, made.work, made.report.has_errors
    left, begins = still_open(work, made.done), resumed(build, made.progress)
    schedule = make_schedule(begins, left, made.needs, made.order, made.progress)
    bars = bar_charts(build, work, schedule, "work-") if left else ()
    charts = dressed(build, bars, is_draft=is_draft)
    after = {task.id: tuple(each.before for each in task.after) for task in left}
    shown = tuple(on_light(chart) for chart in charts)
    page = checklist_page(build, work, schedule, shown, made.done, _DRAFT if is_draft else "")
    files = {"install-checklist.html": page.encode()}
    files["schedule.json"] = schedule_json(schedule, after, is_draft, made.done).encode()
    if build.start:
        files["install.ics"] = calendar(build, schedule, numbers_of(work), is_draft).encode()
    for chart in charts:
        svg = chart.svg
        files[f"drawings/{chart.name}.svg"] = svg.encode()
        files[f"drawings/{chart.name}.png"] = png(svg)
    return files
