"""The line at the foot of a sheet: whose plan and which sheet of the set, between them a caption and a credit."""

from dataclasses import replace

from firstfix.documents.drawing.kit import font, svg
from firstfix.documents.drawing.kit.page import FOOT
from firstfix.documents.drawing.kit.palette import BETWEEN, MARGIN, QUIET, SMALL_SIZE
from firstfix.documents.drawing.kit.svg import Drawing

_SPACE = 14.0


def with_foot(drawing: Drawing, left: str, right: str) -> Drawing:
    """`left` is clipped to what `right` leaves; `right` to half of the sheet."""
    inner, base = drawing.width - 2 * MARGIN, drawing.height - MARGIN - 1.5
    right = font.clip(right, inner / 2, SMALL_SIZE)
    room = inner - font.width(right, SMALL_SIZE) - _SPACE
    foot = (
        svg.hair(MARGIN, drawing.height - MARGIN - FOOT + 2, drawing.width - MARGIN, drawing.height - MARGIN - FOOT + 2)
        + svg.text(MARGIN, base, left, SMALL_SIZE, colour=QUIET, room=room)
        + svg.text(drawing.width - MARGIN, base, right, SMALL_SIZE, colour=QUIET, anchor="end")
    )  # fmt: skip
    return replace(drawing, foot=foot)


def foot_words(*words: str) -> str:
    return BETWEEN.join(filter(None, words))
