"""The visual language of the drawings, in one place. Everything else asks here for colours, weights and sizes.

Paper        white. A drawing is in points (1/72 inch) at print size, so a size below is the size on paper.
Meaning      is never carried by colour alone: each colour comes with a shape, a pattern or a word of its own.
Device       a box with square corners, a 0.9 pt outline and a tinted band that bears its name in bold, its part, its place.
Jack         a small square with its number. Free: white, thin outline. Wired: filled dark, number in white.
             Wired and giving or taking power (PoE): filled rust, with a second, white outline inside.
Panel        and every other passive thing (in-line, power, shelf): the same box on another tint; a cover panel has none.
Cord         a single thin line, 0.8 pt: a cord lies loose inside one room or cabinet.
Installed run   a single thick line, 1.8 pt: it goes through the building and stays.
Fibre        dash and dot, in plum, thin for a cord and thick for an installed run.
PoE          a double rule in rust: two lines with white between, whatever the cable is.
Spare        long dashes, for fibre with a dot between: a link that stands by on purpose, and says what for.
Building     a pale field with a hairline, its site's and its own name at the upper left.
Kept free    rising hatch lines, with the words what it is kept for.
Empty        nothing but the unit's number and hairlines.
Gap          what isn't known is said in words ("not known") or as "? m", "? W", "? kg"; nothing is left out or guessed.
Clash        two things that want the same place are drawn side by side in crimson, heavy short dashes, and "clash" is written.
Rear, behind    things that don't stand at the front are outlined with short dashes, and the word is written.

Type         7 pt is the smallest at print size, on A4; 8 for what one reads, 9 bold for names, 14 bold for the title.
Colours      chosen for this tool: blue, rust, plum, olive and crimson, each dark enough for a contrast of at least 4.5:1 on
             every tint it is used on (WCAG 2.2, success criterion 1.4.3). Lines stay apart when all colour is taken away.
"""

from typing import NamedTuple

PAPER = "#ffffff"
INK = "#1b2430"
QUIET = "#48535f"
HAIR = "#76828d"
FIELD = "#f4f6f4"
BAND = "#dbe8ea"
PASSIVE_BAND = "#efe7d6"
COPPER = "#14506e"
FIBRE = "#6d2f7c"
POWER = "#9a3a00"
KEPT = "#5c611f"
ALARM = "#a3123a"

# Every pair of a text's colour and what may lie under it; a test holds each to 4.5:1.
TEXT_ON: tuple[tuple[str, str], ...] = (
    *((colour, under) for colour in (INK, QUIET) for under in (PAPER, FIELD, BAND, PASSIVE_BAND)),
    *((colour, under) for colour in (POWER, ALARM, KEPT) for under in (PAPER, FIELD, BAND, PASSIVE_BAND)),
    *((PAPER, under) for under in (COPPER, POWER, ALARM)),
)
# Lines and outlines that bear a meaning; at least 3:1 (WCAG 2.2, success criterion 1.4.11).
LINES_ON: tuple[tuple[str, str], ...] = tuple(
    (colour, under) for colour in (INK, HAIR, COPPER, FIBRE, POWER, KEPT, ALARM) for under in (PAPER, FIELD)
)

TITLE_SIZE = 14.0
NAME_SIZE = 9.0
TEXT_SIZE = 8.0
SMALL_SIZE = 7.0
SMALLEST_SIZE = 7.0

# What stands between facts on one line.
BETWEEN = " · "

OUTLINE = 0.9
HAIRLINE = 0.4
CORD_WEIGHT = 0.8
RUN_WEIGHT = 1.8
POWER_WEIGHT = 2.6
POWER_CORE = 1.0

FIBRE_DASH = "7 2 1.5 2"
SPARE_DASH = "9 4"
SPARE_FIBRE_DASH = "9 3 1.5 3"
ALARM_DASH = "2.5 1.8"

# A4 with 10 mm of margin all round, in points (ISO 216: 297 mm x 210 mm).
A4_LONG = (297 - 20) / 25.4 * 72
A4_SHORT = (210 - 20) / 25.4 * 72
MARGIN = 6.0
A4_INNER = A4_LONG - 2 * MARGIN


class Stroke(NamedTuple):
    """How a line is drawn. `core`: weight of the white line on top that makes two lines of one; 0 for none."""

    colour: str
    weight: float
    dash: str = ""
    core: float = 0.0


def wire_stroke(medium: str, is_run: bool, is_powered: bool, is_spare: bool = False) -> Stroke:
    """The line of a cable. Power shows before the medium: a fibre carries none."""
    if is_powered:
        return Stroke(POWER, POWER_WEIGHT, SPARE_DASH if is_spare else "", POWER_CORE)
    weight = RUN_WEIGHT if is_run else CORD_WEIGHT
    if medium == "copper":
        return Stroke(COPPER, weight, SPARE_DASH if is_spare else "")
    return Stroke(FIBRE, weight, SPARE_FIBRE_DASH if is_spare else FIBRE_DASH)
