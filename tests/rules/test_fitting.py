"""Rules on fitting: against a second method for any figures, monotone in each of them, and never fine where a fact is missing."""

import copy
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firstfix.pipeline import compile_plan
from oracles.fitting import fill, shelf_verdict

law = settings(
    derandomize=True,
    deadline=None,
    max_examples=40,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
RANK = {"fine": 0, "open": 1, "bad": 2}


def verdict(folder: Path, plan: dict[str, Any], rule: str, words: str = "") -> str:
    """The worst that the rule says, of findings whose message has these words: fine, open or bad."""
    path = folder / "plan.yaml"
    path.write_text(json.dumps(plan), "utf-8")
    report = compile_plan(path, path.name).report
    assert not any(each.rule in ("value-kind", "key-unknown") for each in report.findings), report.findings
    assert report.examined.get(rule, 0) > 0
    if any(each.rule == rule and words in each.message for each in report.findings):
        return "bad"
    missing = (label.text for each in report.undetermined if each.rule == rule for label in each.missing)
    return "open" if any(words in text or not words for text in missing) else "fine"


def said(figure: float | None, unit: str) -> str:
    return "unknown" if figure is None else f"{figure:.3f} {unit}"


def shelf(things: list[tuple[float | None, float | None, float | None]]) -> dict[str, Any]:
    parts = {
        f"box-{i}": {
            "like": "small-computer",
            "size": {"width": said(width, "mm"), "height": said(height, "mm")},
            "weight": said(mass, "kg"),
        }
        for i, (width, mass, height) in enumerate(things)
    }
    names = [f"thing-{i}" for i in range(len(things))]
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "parts": parts,
        "cabinets": {
            "main": {
                "part": "wall-cabinet-12u",
                "layout": {"6": "core", "3-4": {"fit": "shelf-1u", "carries": names}},
            }
        },
        "devices": {
            "core": {"part": "switch-16"},
            **{name: {"part": f"box-{i}"} for i, name in enumerate(names)},
        },
        "links": [{"run": [name, "core"]} for name in names],
    }


figures = st.none() | st.floats(1, 300)
boxes = st.lists(st.tuples(figures, st.none() | st.floats(0.1, 9), figures), min_size=1, max_size=4)


@law
@given(things=boxes)
def test_shelves_as_the_oracle_has_them(
    things: list[tuple[float | None, float | None, float | None]], tmp_path: Path
) -> None:
    """The shelf is 430 mm wide and bears 12 kg; from unit 3 up to the switch in unit 6 there are 3 x 44.45 mm."""
    rounded = [tuple(None if each is None else round(each, 3) for each in thing) for thing in things]
    plan = shelf(things)
    widths, masses, heights = shelf_verdict(rounded, 430, 12, 3 * 44.45)  # type: ignore[arg-type]
    assert verdict(tmp_path, plan, "shelf-space", "wid") == widths
    assert verdict(tmp_path, plan, "shelf-load") == masses
    assert verdict(tmp_path, plan, "shelf-space", "tall") == heights


def pipe(diameters: list[float], bore: float) -> dict[str, Any]:
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 9}, "attic": {"mains": 9}}}},
        "parts": {
            f"cable-{i}": {"like": "cat6-indoor", "cable": {"diameter": f"{each:.3f} mm"}}
            for i, each in enumerate(diameters)
        },
        "ways": {"duct": {"between": ["study", "attic"], "length": "6 m", "kind": "conduit", "bore": f"{bore:.3f} mm"}},
        "devices": {
            "core": {"part": "switch-16", "room": "study"},
            **{f"desk-{i}": {"part": "computer-desktop", "room": "attic"} for i in range(len(diameters))},
        },
        "links": [{"run": [f"desk-{i}", "core"], "cable": f"cable-{i}"} for i in range(len(diameters))],
    }  # fmt: skip


@law
@given(diameters=st.lists(st.floats(3, 12), min_size=1, max_size=5), bore=st.floats(12, 60))
def test_pipes_as_the_oracle_has_them(diameters: list[float], bore: float, tmp_path: Path) -> None:
    diameters, bore = [round(each, 3) for each in diameters], round(bore, 3)
    limit = {1: 0.53, 2: 0.31}.get(len(diameters), 0.4)
    expected = "bad" if fill(diameters, bore) > limit else "fine"
    assert verdict(tmp_path, pipe(diameters, bore), "way-fill") == expected


# A rule, a part of the plan below, the key that is varied, its unit; whether more is worse, and a range round the limit.
VARIED = [
    ("cabinet-depth", "sw", "depth", "mm", 1, (100, 600)),
    ("cabinet-depth", "sw", "plug-space", "mm", 1, (0, 600)),
    ("cabinet-depth", "cab", "usable-depth", "mm", -1, (100, 600)),
    ("cabinet-front", "sw", "front-depth", "mm", 1, (0, 200)),
    ("cabinet-front", "cab", "cabinet.before-rails", "mm", -1, (10, 200)),
    ("hinged-front", "strip", "front-depth", "mm", 1, (0, 200)),
    ("hinged-front", "cover", "cover.clear-under", "mm", -1, (1, 200)),
    ("hinged-front", "cover", "cover.swing", "mm", 1, (1, 900)),
    ("door-opens", "cab", "cabinet.swing", "mm", 1, (100, 900)),
    ("screw-head", "cover", "cover.screw-head", "mm", -1, (1, 10)),
    ("cabinet-load", "sw", "weight", "kg", 1, (0.1, 99)),
    ("cabinet-load", "cab", "cabinet.load", "kg", -1, (1, 99)),
    ("top-heavy", "sw", "weight", "kg", 1, (0.1, 99)),
]


def cabinet(part: str, key: str, value: str) -> dict[str, Any]:
    parts: dict[str, Any] = {
        "sw": {"like": "switch-16"},
        "cab": {"like": "floor-cabinet-24u", "outside": {"width": "400 mm", "height": "1210 mm", "depth": "800 mm"},
                "weight": "10 kg", "cabinet": {"load": "60 kg", "rails-back": "20 mm"}},
        "strip": {"like": "power-strip-1u-8"},
        "cover": {"like": "hinged-panel-1u"},
    }  # fmt: skip
    group, _, below = key.partition(".")
    parts[part][group] = {**parts[part].get(group, {}), below: value} if below else value
    return {
        "sites": {"home": {"rooms": {"study": {"mains": 9}}}},
        "parts": copy.deepcopy(parts),
        "cabinets": {
            "main": {
                "part": "cab",
                "clear-in-front": "500 mm",
                "layout": {"24": "core", "1": {"fit": "cover", "over": "power"}},
            }
        },
        "devices": {
            "core": {"part": "sw"},
            "power": {"part": "strip"},
            "desk": {"part": "computer-desktop"},
        },
        "links": [{"run": ["desk", "core"]}],
    }


@pytest.mark.parametrize(
    ("rule", "part", "key", "unit", "sign", "span"), VARIED, ids=lambda each: str(each) if isinstance(each, str) else ""
)  # fmt: skip
@settings(law, max_examples=8)
@given(data=st.data())
def test_worse_figures_never_mend_a_verdict(
    rule: str, part: str, key: str, unit: str, sign: int, span: tuple[float, float], data: st.DataObject, tmp_path: Path
) -> None:  # fmt: skip
    low, high = sorted(data.draw(st.tuples(st.floats(*span), st.floats(*span))))
    better, worse = (low, high) if sign > 0 else (high, low)
    first = verdict(tmp_path, cabinet(part, key, f"{better:.3f} {unit}"), rule)
    second = verdict(tmp_path, cabinet(part, key, f"{worse:.3f} {unit}"), rule)
    assert RANK[first] <= RANK[second]


@pytest.mark.parametrize(("rule", "part", "key"), sorted({each[:3] for each in VARIED}))
def test_what_is_not_known_is_never_fine(rule: str, part: str, key: str, tmp_path: Path) -> None:
    assert verdict(tmp_path, cabinet(part, key, "unknown"), rule) != "fine"


@pytest.mark.parametrize(("rule", "part", "key", "unit", "sign", "span"), VARIED)
def test_both_ends_of_each_range_are_judged_differently(
    rule: str, part: str, key: str, unit: str, sign: int, span: tuple[float, float], tmp_path: Path
) -> None:
    """So that the test above it is not of one verdict only."""
    low, high = (verdict(tmp_path, cabinet(part, key, f"{each} {unit}"), rule) for each in span)
    assert (low, high) == (("fine", "bad") if sign > 0 else ("bad", "fine"))
