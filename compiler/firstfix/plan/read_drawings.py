"""`drawings:`: in which theme and on which paper they come, and who is named on them."""

from firstfix.finding.collector import Collector
from firstfix.plan.model import DrawingsSpec
from firstfix.source.fields import Fields

DRAWINGS_KEYS = ("theme", "paper", "credit", "note")
THEMES = ("light", "dark", "print")
# ISO 216, and size A of ANSI/ASME Y14.1: sheets are drawn to fit both.
PAPERS = ("a4", "letter")


def read_drawings(fields: Fields, faults: Collector) -> DrawingsSpec:
    """`{theme: print, paper: letter, credit: "Drawn for the club's yearbook"}`"""
    node = fields.value("drawings")
    if node is None:
        return DrawingsSpec()
    said = Fields(node, faults, "'drawings'", DRAWINGS_KEYS)
    return DrawingsSpec(said.choice("theme", THEMES), said.choice("paper", PAPERS), said.text("credit"))
