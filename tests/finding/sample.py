"""One fixed report that every renderer is tested on: each level, placeless, measured, hostile, not known."""

from firstfix.finding.kinds import Kind
from firstfix.finding.model import (
    COMMON_PRACTICE,
    PLAN_LANGUAGE,
    Accepted,
    Basis,
    Cure,
    Edit,
    Finding,
    Label,
    Level,
    Measurement,
    Report,
    Safety,
    Term,
    Undetermined,
    report,
)
from firstfix.span import Span

FILE = "plans/orchard.yaml"
BARN = "plans/orchard/barn.yaml"
TEXTS = {
    FILE: (
        "name: orchard\n"
        "devices:\n"
        "  core:   {part: switch-8-poe, room: office}\n"
        "  cam-1:  {part: camera, room: yard}   # faces the gate\n"
        "ways:\n"
        "  hedge:  {between: [office, barn], length: 91 m, kind: buried-duct}\n"
        "\tlinks: []\n"
    ),
    BARN: 'note: "日本 ' + "x" * 300 + '" # the far end\r\n',
}

POE_BUDGET = Kind(
    "poe-budget",
    Level.ERROR,
    """What a switch gives over its jacks is no more than it has.

    Because: the last things to start stay dark.
    Compares: the sum of what is reserved [W] with the budget [W].
    Example: {budget: 65 W} and five of class 3.
    """,
    Basis("IEEE 802.3-2022", "33.2.7"),
)

BUDGET = Finding(
    "poe-budget",
    Level.ERROR,
    "the switch 'core' has to give more power than it has",
    "device:core",
    Span(FILE, 3, 18, 3, 30),
    POE_BUDGET.basis,
    (
        Label(Span(FILE, 4, 18, 4, 24), "adds 15.4 W"),
        Label(None, "three more in the barn"),
    ),
    Measurement(
        "PoE reserved",
        77.005,
        "at most",
        65.0,
        "W",
        (
            Term("cam-1", 15.4, "class 3"),
            Term("ap-hall", 30.0, "class 4"),
            Term("ap-barn", 30.0, "class 4"),
            Term("switch's own lamp", 1.605),
        ),
    ),
    (
        Cure(
            "take the switch with 120 W",
            (Edit(Span(FILE, 3, 18, 3, 30), "switch-16-poe"),),
            Safety.NEEDS_REVIEW,
        ),
        Cure("feed the camera by an injector"),
    ),
)
LENGTH = Finding(
    "channel-length",
    Level.WARNING,
    "the channel from core to cam-1 is close to its greatest length",
    "link:cam-1--core",
    Span(FILE, 6, 46, 6, 50),
    Basis("ISO/IEC 11801-1", "from memory"),
    measurement=Measurement(
        "length", 99.996, "at most", 100.0, "m", (Term("hedge", 91.0), Term("slack", 8.996))
    ),
)
TAB = Finding(
    "syntax",
    Level.ERROR,
    "a tab stands here; YAML is indented with spaces only",
    "",
    Span(FILE, 7, 1, 7, 2),
    PLAN_LANGUAGE,
)
HOSTILE = Finding(
    "key-unknown",
    Level.ERROR,
    "the key '\x1b[2J\u202e{0} [click](https://example.org)' is not known" + " and so on" * 60,
    "x\x1b]0;title\x07",
    Span(BARN, 1, 311, 1, 330),
    PLAN_LANGUAGE,
    tuple(Label(Span(BARN, 1, 7, 1, 9), f"place {number}") for number in range(40)),
    cures=tuple(Cure(f"idea {number} " + "long " * 60) for number in range(5)),
)
PLACELESS = Finding("spare-cords", Level.NOTE, "no spare cord is in the plan", "plan", None, COMMON_PRACTICE)
TWICE = Finding(
    "syntax", Level.ERROR, "a second fault of the same kind", "", Span(FILE, 7, 3, 7, 8), PLAN_LANGUAGE
)
UNKNOWN = Undetermined(
    "channel-length",
    "link:ap-barn--core",
    Span(FILE, 2, 1, 2, 8),
    (Label(Span(FILE, 4, 3, 4, 8), "its room is not known"), Label(None, "the way has no length")),
)

REPORT: Report = report(
    [BUDGET, LENGTH, TAB, TWICE, HOSTILE, PLACELESS],
    [UNKNOWN],
    {"poe-budget": 3, "channel-length": 11, "layer2-loop": 0},
    [
        Accepted(LENGTH, "measured at 98 m by the installer", Span(FILE, 9, 5, 9, 40)),
        Accepted(UNKNOWN, "looked at \x1b[2J on site", Span(BARN, 2, 5, 2, 40)),
    ],
)
EMPTY: Report = report([], [], {})
