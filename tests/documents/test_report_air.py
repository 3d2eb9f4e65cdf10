"""The report's tables on air and on battery backups: what graphs has worked out, in words, and nothing made up."""

import json
import math
from pathlib import Path

from firstfix.documents.report.air import air_rows, spread_words
from firstfix.documents.report.backup import backup_rows
from firstfix.graphs.cabinet_air import cabinet_airs
from firstfix.graphs.consumption import Spread
from firstfix.pipeline import compile_plan
from firstfix.units import watts

PLAN = {
    "sites": {"mill": {"rooms": {"office": {"mains": 6}}}},
    "parts": {"draws": {"like": "switch-16-managed", "draw": "40 W"}},
    "cabinets": {
        "main": {
            "room": "office",
            "part": "wall-cabinet-9u",
            "layout": {9: "core", 7: {"keep-free": "a recorder", "heat": "30 W"}},
        },
        "empty": {"room": "office", "part": "wall-cabinet-6u"},
    },
    "devices": {
        "reserve": {"part": "ups-desktop", "room": "office"},
        "core": {"part": "draws", "power": "reserve"},
    },
}


def test_rows_say_what_was_worked_out(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(json.dumps(PLAN), encoding="utf-8")
    build = compile_plan(path, "plan.yaml").build
    assert build is not None
    empty, main = air_rows(build)
    air = cabinet_airs(build)["cabinet:main"]
    assert (main.cabinet, main.cooling, main.heat) == ("main", "closed", "40 W")
    assert main.room == "22 °C – 25 °C – 30 °C (not said)"
    assert main.limit == "40 °C (core)"
    assert main.later.endswith("(+ 30 W)")
    assert main.things == ("core 40 W",)
    assert f"{air.rise.usual:.1f} K" == main.rise
    assert (empty.heat, empty.limit, empty.things) == ("0 W", "–", ())
    (backup,) = backup_rows(build)
    assert (backup.ups, backup.load, backup.lasts) == (
        "reserve",
        "40 W",
        "45 min (by points of its data sheet)",
    )


def test_a_most_that_nothing_bounds_is_not_told() -> None:
    assert spread_words(Spread(1, 2, math.inf), watts) == "1 W – 2 W – cannot tell"
    assert spread_words(Spread(2, 2, 2), watts) == "2 W"
