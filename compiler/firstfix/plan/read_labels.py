"""`labels:` and every `label:`: how things are named on the labels that are stuck to them, and on which sheets those are printed."""

import re

from firstfix.finding.collector import Collector
from firstfix.plan.model import NO_LABELS, LabelsSpec
from firstfix.source.fields import Fields
from firstfix.source.node import clip

LABELS_KEYS = ("scheme", "sheets", "note")
# The plan's own names, or the formats of ANSI/TIA-606: build/administration.py.
SCHEMES = ("simple", "tia-606")
# Paper to be cut, or sheets of labels cut already, by columns and rows: documents/labels/grids.py has their sizes.
SHEETS = ("a4", "a4-2x7", "a4-3x8", "a4-5x13", "letter", "letter-2x5", "letter-3x10", "letter-4x20")
# Letters and digits, so that a part of an identifier never holds a sign that stands between parts.
_OWN = re.compile(r"[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*")
# What is read at arm's length on 25 mm: our own limit.
LONGEST_LABEL = 20


def read_labels(fields: Fields, faults: Collector) -> LabelsSpec:
    """`{scheme: tia-606, sheets: a4-3x8}`"""
    node = fields.value("labels")
    if node is None:
        return NO_LABELS
    labels = Fields(node, faults, "'labels'", LABELS_KEYS)
    return LabelsSpec(labels.choice("scheme", SCHEMES) or "", labels.choice("sheets", SHEETS) or "")


def own_label(fields: Fields) -> str:
    """What the author calls the thing on its label, in capitals; "" where that is left to us."""
    text = fields.text("label") if "label" in fields else None
    if text is None:
        return ""
    if _OWN.fullmatch(text) is None or len(text) > LONGEST_LABEL:
        node = fields.value("label")
        assert node is not None
        kept = "-".join(re.findall(r"[A-Za-z0-9]+", text))[:LONGEST_LABEL].strip("-")
        hint = f"; write '{kept}'" if kept else ""
        message = (
            f"'{clip(text)}' is no label: letters, digits and single dashes, at most {LONGEST_LABEL}{hint}"
        )
        fields.wrong(node, message, kept)
        return ""
    return text.upper()
