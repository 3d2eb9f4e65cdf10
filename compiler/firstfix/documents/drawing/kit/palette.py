"""The visual language of the drawings, in one place. Everything else asks here for colours, weights and sizes.

Paper        A drawing is in points (1/72 inch) at print size, so a size below is the size on paper. Sheets fit A4 and Letter alike;
             one that can't says so at its upper right. What doesn't fit goes on on the next sheet and is never made smaller.
Meaning      is never carried by colour alone: each colour comes with a shape, a pattern or a word of its own.
Themes       light, dark, and print: black on white alone, where passive things have a field of dots for their tint.
Device       a box with square corners, a 0.9 pt outline and a tinted band that bears its name in bold, its part, its place.
Jack         a small square with its number. Free: paper, thin outline. Wired: filled with the colour of copper, number in paper's.
             Wired and giving or taking power (PoE): filled rust, with a second outline inside.
Panel        and every other passive thing (in-line, power, shelf): the same box on another tint; a cover panel has none.
In line      a passive box that a run goes into on one side and out of on the other.
Cord         a single thin line, 0.8 pt: a cord lies loose inside one room or cabinet.
Cord colour  a small square in the colour that a cord is sold in, with its letters (IEC 60757), which in print stand alone.
Installed run   a single thick line, 1.8 pt: it goes through the building and stays.
Fibre        dash and dot, in violet, thin for a cord and thick for an installed run.
Twinax       fine dots, in the colour of copper: a cord with a module fixed at each end, which is bought as one.
PoE          a double rule in rust: two thin lines, paper between, whatever the cable is.
Spare        long dashes, for fibre with a dot between: a link that the plan calls a spare, and says what for.
Power        bars in rust: full as far as what is usual, upright lines as far as the most; past its frame a heavy crimson edge.
Mains        a list that steps in from the supply to each device, hairlines from one to the next, with watts least, usual and most.
VLAN         teal. A jack: filled where the VLAN is untagged, a heavy frame with a bar below its number where it is tagged, a thin
             frame where it isn't. Who may open connections to whom: an arrow on a teal square, a short dash for no.
Tree         a list that steps in from the root, whose box has a double weight and the word "root", in the lines of the cables.
Stands by    in the predicted tree, a bracket in the line of its cable with a letter on a disc, whether or not the plan calls it a spare;
             a heavy bar stands across its blocked end.
Way          a pipe: two lines in ink, whole indoors, dashes outdoors, dots where it is buried.
How full     a bar for the bore of a way, full as far as its cables take, with a mark at the limit; over the limit in crimson.
Continues    a box with a pointed end that names the sheet on which a thing goes on.
New          on a sheet of changes: a heavy solid outline, a plus sign and the word.
Gone         a dashed outline, the name struck through, and the word.
Moved        both places, the former one dashed and struck through, joined by an arrow, and the word.
Changed      in its place: an outline of 1.4 pt and the word. What stays as it is, is in hairlines.
There already   on a sheet of rooms: a tick and the word; what is new has a plus sign there, what is in stock an open box.
Building     a pale field with a hairline, its site's and its own name at the upper left.
Kept free    rising hatch lines, with the words what it is kept for.
Empty        nothing but the unit's number and hairlines.
Gap          what isn't known is said in words ("not known") or as "? m", "? W", "? kg"; nothing is left out or guessed.
Clash        two things that want the same place are drawn side by side in crimson, heavy short dashes, and "clash" is written.
Rear, behind    things that don't stand at the front are outlined with short dashes, and the word is written.

Type         7 pt is the smallest at print size; 8 for what one reads, 9 bold for names, 14 bold for the title.
Colours      chosen for this tool: blue, violet, rust, teal, olive and crimson. Text has a contrast of at least 4.5:1 on every tint
             that it is used on, lines and outlines at least 3:1 (WCAG 2.2, success criteria 1.4.3 and 1.4.11), in every theme. They
             stay apart to colour-blind readers, and lines stay apart when all colour is taken away.
"""

from typing import NamedTuple

# A colour in the code is a role: one character that no text of a plan can hold (font.clean drops private-use characters).
# `themes` puts the literal colours in its place when a sheet is finished.
GROUND = "\ue000"
PAPER = "\ue001"
INK = "\ue002"
QUIET = "\ue003"
HAIR = "\ue004"
FIELD = "\ue005"
BAND = "\ue006"
PASSIVE_BAND = "\ue007"
COPPER = "\ue008"
FIBRE = "\ue009"
POWER = "\ue00a"
VLAN = "\ue00b"
KEPT = "\ue00c"
ALARM = "\ue00d"

# Each role with its name and what it is for.
ROLES: tuple[tuple[str, str, str], ...] = (
    (GROUND, "ground", "under the whole sheet; left out of a sheet without a background"),
    (PAPER, "paper", "inside boxes and between double lines; numbers on dark squares"),
    (INK, "ink", "names, outlines, ways"),
    (QUIET, "quiet", "what is said beside a name"),
    (HAIR, "hair", "hairlines, free jacks"),
    (FIELD, "field", "buildings"),
    (BAND, "band", "active devices"),
    (PASSIVE_BAND, "passive band", "panels and all that is passive"),
    (COPPER, "copper", "copper cords and runs, wired jacks"),
    (FIBRE, "fibre", "fibre cords and runs"),
    (POWER, "power", "PoE, and how much of a budget is taken"),
    (VLAN, "vlan", "jacks of a VLAN, and what it reaches"),
    (KEPT, "kept", "kept free"),
    (ALARM, "alarm", "clashes, what interrupts the network"),
)

# Every pair of a text's colour and what may lie under it; a test holds each to 4.5:1.
TEXT_ON: tuple[tuple[str, str], ...] = (
    *((colour, under) for colour in (INK, QUIET) for under in (PAPER, FIELD, BAND, PASSIVE_BAND)),
    *(
        (colour, under)
        for colour in (POWER, ALARM, KEPT, VLAN, FIBRE, COPPER)
        for under in (PAPER, FIELD, BAND, PASSIVE_BAND)
    ),
    *((PAPER, under) for under in (COPPER, POWER, ALARM, VLAN, FIBRE, INK)),
)
# Lines and outlines that bear a meaning; at least 3:1 (WCAG 2.2, success criterion 1.4.11).
LINES_ON: tuple[tuple[str, str], ...] = tuple(
    (colour, under)
    for colour in (INK, HAIR, COPPER, FIBRE, POWER, VLAN, KEPT, ALARM)
    for under in (PAPER, FIELD)
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
TWINAX_DASH = "1.8 1.6"
ALARM_DASH = "2.5 1.8"

# What prints at full size on A4 (ISO 216: 297 mm x 210 mm) and on Letter (ANSI/ASME Y14.1, size A: 11 in x 8.5 in) with 10 mm of
# margin all round, in points: Letter is the shorter of the two, A4 the narrower.
_EDGES = 20.0
SHEET_LONG = (min(297.0, 11 * 25.4) - _EDGES) / 25.4 * 72
SHEET_SHORT = (min(210.0, 8.5 * 25.4) - _EDGES) / 25.4 * 72
MARGIN = 6.0
# Between a sheet's own margins: as wide as a picture may be, on a sheet that lies or that stands.
SHEET_INNER = SHEET_LONG - 2 * MARGIN
SHEET_INNER_SHORT = SHEET_SHORT - 2 * MARGIN


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
    if medium in ("copper", "twinax"):
        dash = TWINAX_DASH if medium == "twinax" else ""
        return Stroke(COPPER, weight, SPARE_DASH if is_spare else dash)
    return Stroke(FIBRE, weight, SPARE_FIBRE_DASH if is_spare else FIBRE_DASH)


# Outlines of a change, and the arrow between the places of what was moved.
NEW_STROKE = Stroke(INK, 2.2)
CHANGED_STROKE = Stroke(INK, 1.4)
GONE_STROKE = Stroke(QUIET, 0.9, "4 2.4")
MOVED_STROKE = Stroke(INK, 1.4, "4 2")
