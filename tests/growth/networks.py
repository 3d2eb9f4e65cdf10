"""Small networks that can grow, as data, and what the tests ask of them."""

from collections.abc import Callable
from copy import deepcopy
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from firstfix.allocations.forget import without
from firstfix.build.model import Build
from firstfix.finding.model import Level, Report
from firstfix.growth.grow import Compile, growth
from firstfix.growth.model import Growth, Spot
from firstfix.growth.spots import asked_for, spots
from firstfix.pipeline import Compiled, choices_to_keep, compile_again, compile_plan
from firstfix.plan.model import Plan
from resolve.planning import compiled

PLANS = Path(__file__).parents[2] / "plans"
Data = dict[str, Any]

# One switch that counts by class, one camera, one outlet, one store on a shelf; enough of everything.
HOME: Data = {
    "sites": {"home": {"rooms": {"study": {"mains": 6, "ambient": "10 °C to 20 °C"}, "loft": {"mains": 2}, "gate": {"mains": 1}}}},
    "ways": {
        "shaft": {"between": ["study", "loft"], "length": "10 m", "kind": "riser"},
        "duct": {"between": ["study", "gate"], "length": "12 m", "kind": "conduit", "bore": "100 mm"},
    },
    "cabinets": {
        "main": {
            "room": "study",
            "part": "wall-cabinet-15u",
            "cooling": "meshed",
            "layout": {"15": "panel", "14": "core", "8-12": {"fit": "shelf-1u", "carries": ["store"]}, "1": "strip"},
        }
    },
    "vlans": {"home": {"id": 10, "subnet": "10.9.10.0/24"}, "eyes": {"id": 20, "subnet": "10.9.20.0/24", "dhcp": "100-199"}},
    "parts": {
        "by-class": {"like": "switch-24-poe", "gives-poe": {"jacks": "1-24", "class": 4, "budget": "370 W", "counts": "class"}},
        "eye": {"like": "camera", "takes-poe": {"class": 3}, "draw": {"typical": "5 W", "most": "9 W"}},
        "box": {"like": "storage-2-bay", "size": {"width": "100 mm", "height": "80 mm"}, "weight": "1 kg", "draw": {"typical": "10 W", "most": "20 W"}},
    },
    "devices": {
        "gateway": {"part": "gateway-desktop", "room": "study", "vlan": "home", "tagged": ["eyes"]},
        "core": {"part": "by-class", "vlan": "home"},
        "panel": {"part": "fixed-panel-24-1u"},
        "strip": {"part": "power-strip-1u-8"},
        "store": {"part": "box", "vlan": "home", "power": "strip"},
        "cam": {"part": "eye", "room": "gate", "vlan": "eyes"},
        "ap": {"part": "access-point", "room": "loft", "vlan": "home"},
        "out": {"part": "wall-outlet-2", "room": "loft"},
        "desk": {"part": "computer-desktop", "room": "loft", "vlan": "home", "owned": True},
    },
    "links": [
        {"run": ["gateway", "core"]},
        {"run": ["store", "core"]},
        {"run": ["cam", "panel", "core"]},
        {"run": ["ap", "panel", "core"]},
        {"run": ["desk", "out/1", "panel", "core"]},
    ],
}  # fmt: skip


def unchanged(plan: Data) -> None:
    del plan


def home(change: Callable[[Data], None] = unchanged) -> Data:
    plan = deepcopy(HOME)
    change(plan)
    return plan


def variants(made: Compiled) -> Compile:
    """As the pipeline compiles a grown plan."""
    choices = choices_to_keep(made)

    def compile_variant(plan: Plan, anew: tuple[str, ...] = ()) -> tuple[Build, Report]:
        grown = compile_again(replace(made, plan=plan), without(choices, anew))
        assert grown.build is not None
        return grown.build, grown.report

    return compile_variant


@cache
def shipped(name: str) -> Compiled:
    return compile_plan(PLANS / f"{name}.yaml", f"{name}.yaml")


def clean(folder: Path, plan: Data) -> Compiled:
    made = compiled(folder, plan)
    assert_clean(made)
    return made


def assert_clean(made: Compiled) -> None:
    said = [each.message for each in made.report.findings if each.level is not Level.NOTE]
    assert not said
    assert not made.report.undetermined, [each.missing for each in made.report.undetermined]


def spot(made: Compiled, what: str, kind: str = "") -> Spot:
    assert made.plan is not None
    assert made.build is not None
    found = asked_for(spots(made.plan, made.build), what)
    return next(each for each in found if kind in ("", each.kind))


def grown(made: Compiled, what: str, kind: str = "") -> Growth:
    assert made.plan is not None
    assert made.build is not None
    return growth(made.plan, made.build, made.report, spot(made, what, kind), variants(made))
