"""Everything that `build` writes: from a build and its report to each file's relative path and bytes."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from firstfix import __version__
from firstfix.build.model import Build
from firstfix.documents.build_json import build_json
from firstfix.documents.costs import costs_markdown
from firstfix.documents.drawing.bound import bound
from firstfix.documents.drawing.index import index_markdown
from firstfix.documents.drawing.kit.raster import png
from firstfix.documents.in_phases import Paid, Stage, phase_files
from firstfix.documents.install_checklist import install_checklist_markdown
from firstfix.documents.labels import label_files
from firstfix.documents.order_workbook import order_sheet_xlsx
from firstfix.documents.orders import order_files
from firstfix.documents.remaining import what_remains_markdown
from firstfix.documents.report.made import Made, make
from firstfix.documents.report.page import report_page
from firstfix.documents.schedule.files import schedule_files
from firstfix.documents.shopping_list import shopping_list_csv, shopping_list_markdown
from firstfix.documents.shopping_workbook import shopping_list_xlsx
from firstfix.documents.stubs.files import stub_files
from firstfix.documents.stubs.text import folder_name
from firstfix.finding.model import Report
from firstfix.finding.render_sarif import render_sarif
from firstfix.growth.model import Growth
from firstfix.offers.model import NO_WISH
from firstfix.progress.model import NOTHING_KEPT, Progress
from firstfix.purchase.alternatives import Tried
from firstfix.purchase.by_phase import costs_by_phase, postage_by_phase
from firstfix.rules.all_kinds import all_kinds

_DRAFT = "**Draft. The plan has errors: nothing may be bought or built from this.** They are in report.html."


def all_documents(
    build: Build,
    report: Report,
    progress: Progress = NOTHING_KEPT,
    tried: tuple[Tried, ...] = (),
    stages: tuple[Stage, ...] = (),
    growth: tuple[Growth, ...] = (),
) -> Mapping[str, bytes]:
    """Relative path to bytes, in sorted order of paths. With an error finding, what people work from says that it is a draft."""
    made = replace(make(build, report, progress, tried), growth=growth)
    files = {**dict(_texts(made)), **dict(_drawings(made)), **schedule_files(made), **stub_files(build)}
    for path, content in phase_files(stages, _paid(made), made.done, report.has_errors):
        files[path] = _marked(content.decode(), report) if path.endswith(".md") else content
    return dict(sorted(files.items()))


def _paid(made: Made) -> Paid:
    costs = {cost.name: cost for cost in costs_by_phase(made.build, made.needs)}
    postage = postage_by_phase(made.build, made.needs, made.order) if made.order is not None else {}
    return Paid(costs, postage)


def _texts(made: Made) -> Iterator[tuple[str, bytes]]:
    build, report = made.build, made.report
    yield (
        "shopping-list.md",
        _marked(shopping_list_markdown(build, made.needs, made.owned, made.tools), report),
    )
    yield "shopping-list.csv", shopping_list_csv(build, made.needs).encode()
    yield "shopping-list.xlsx", shopping_list_xlsx(build, made.needs, made.owned, made.tools)
    yield "install-checklist.md", _marked(install_checklist_markdown(build, made.work, made.done), report)
    if made.order is not None:
        for path, text in order_files(build, made.order):
            yield path, _marked(text, report) if path.endswith(".md") else text.encode()
        for parcel in made.order.parcels:
            yield f"orders/{folder_name(parcel.shop.name)}.xlsx", order_sheet_xlsx(build, parcel)
    if build.shops or build.purchase != NO_WISH:
        costs = costs_markdown(build, made.needs, made.order, made.alternatives, made.tools)
        yield "costs.md", _marked(costs, report)
    if made.remaining is not None:
        yield "what-remains.md", _marked(what_remains_markdown(build, made.remaining), report)
    yield "report.html", report_page(made).encode()
    # Places name their files; the texts of the files themselves are not part of SARIF.
    yield "findings.sarif", render_sarif(report, {}, all_kinds(), __version__).encode()
    yield "build.json", build_json(build).encode()
    yield from label_files(build, report.has_errors)


def _marked(markdown: str, report: Report) -> bytes:
    """With the mark of a draft below the title, which is the first line."""
    if report.has_errors:
        title, _, rest = markdown.partition("\n")
        markdown = f"{title}\n\n{_DRAFT}\n{rest}"
    return markdown.encode()


def _drawings(made: Made) -> Iterator[tuple[str, bytes]]:
    for drawing in made.sheets:
        svg = drawing.svg
        yield f"drawings/{drawing.name}.svg", svg.encode()
        yield f"drawings/{drawing.name}.png", png(svg)
        if drawing.dot:
            group = drawing.name.partition("-")[0]
            yield f"drawings/{group}.dot", drawing.dot.encode()
    if made.sheets:
        yield "drawings/index.md", index_markdown(made.build, made.sheets).encode()
        yield "drawings.pdf", bound(made.build, made.sheets)
