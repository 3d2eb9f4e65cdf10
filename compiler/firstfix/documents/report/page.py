"""report.html: all results of a build on one page that needs nothing else: no script, no address outside, no font."""

from firstfix.documents.growth_words import growth_notes, growth_sections
from firstfix.documents.install_checklist import checklist_sections, tools, totals
from firstfix.documents.remaining import what_remains
from firstfix.documents.report.air import air_rows
from firstfix.documents.report.backup import backup_rows
from firstfix.documents.report.figures import cabinet_figures, network_figures, other_figures
from firstfix.documents.report.findings import findings
from firstfix.documents.report.logical import logical
from firstfix.documents.report.made import Made
from firstfix.documents.report.power import power_tables
from firstfix.documents.report.summary import summary
from firstfix.documents.report.wiring import wiring
from firstfix.documents.shopping_list import (
    left_out_words,
    owned_sections,
    shopping_sections,
    spares_words,
    stock_rows,
    tools_words,
)
from firstfix.documents.stubs.text import visible
from firstfix.documents.templates import render
from firstfix.work.cautions import BURIED, DRILL, EARTH, LADDER, LASER, LIFT, LIGHTNING, MAINS, OUTDOOR, POE

TEMPLATE = "report.html.jinja"
# What can hurt on any site; what hurts at one step is said at the step.
CAUTIONS = (MAINS, EARTH, LIGHTNING, LADDER, DRILL, LIFT, BURIED, OUTDOOR, POE, LASER)


def report_page(made: Made) -> str:
    """The page's text. What a plan says is escaped, and what cannot be seen is shown by its code point."""
    build = made.build
    text = render(
        TEMPLATE,
        summary=summary(made),
        findings=findings(made.report),
        network=network_figures(made),
        cabinets=cabinet_figures(made),
        other_sheets=other_figures(made),
        shopping=shopping_sections(build, made.needs),
        owned=owned_sections(made.owned),
        spares=spares_words(build, made.needs),
        stock=stock_rows(build),
        tools_to_have=tools_words(build, made.tools),
        left_out=left_out_words(build),
        has_typical=any(need.is_typical_price for need in made.needs),
        totals=totals(build, made.work),
        tools=tools(made.work),
        work=checklist_sections(build, made.work, made.done),
        left=None if made.remaining is None else what_remains(made.remaining),
        wiring=wiring(made),
        power=power_tables(build),
        backup=backup_rows(build),
        air=air_rows(build),
        growth=growth_sections(made.growth, build.currency),
        growth_notes=growth_notes(made.growth),
        logical=logical(made),
        cautions=CAUTIONS,
    )
    return "\n".join(line if line.isprintable() else visible(line) for line in text.split("\n"))
