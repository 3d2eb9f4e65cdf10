"""The page of example plans with their pictures: the plan's own opening words, and sheets as `firstfix build` draws them."""

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path

from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.set import sheets
from firstfix.documents.drawing.snippet import MARKDOWN, snippet
from firstfix.pipeline import compile_plan

PLANS = Path(__file__).parents[2] / "plans"

# Which sheets the page shows of each plan, by name, the first one of a group of several; `firstfix build` writes them all.
SHOWN: dict[str, tuple[str, ...]] = {
    "honey-farm": (
        "network", "cabinet-main", "cabinet-main-rear", "ways", "rooms", "mains", "poe", "vlan-farm", "tree", "addresses",
    ),
    "rowing-club": ("network", "ways", "vlans", "vlan-till"),
    "school": ("network", "tree"),
}  # fmt: skip

_HEAD = """\
# Example plans

Three invented networks: people, places, gear and prices are made up for firstfix. Each compiles without an error, the pictures are as
`firstfix build` draws them, and this page is written by `make pages`. The folder `bad/` holds plans with mistakes on purpose, one for each family of
rules. What the lines and boxes mean: [the visual language](../schemas/visual-language.md).
"""


@cache
def _drawn(plan: str) -> dict[str, Drawing]:
    compiled = compile_plan(PLANS / f"{plan}.yaml", f"plans/{plan}.yaml")
    assert compiled.build is not None
    return {drawing.name: drawing for drawing in sheets(compiled.build)}


def _sheet(plan: str, name: str) -> Drawing:
    drawn = _drawn(plan)
    return drawn[name] if name in drawn else drawn[f"{name}-1"]


def picture(plan: str, sheet: str) -> str:
    return _sheet(plan, sheet).svg


def story(plan: str) -> str:
    """The comment that the plan's file opens with, as a paragraph for each blank line in it."""
    lines = []
    for line in (PLANS / f"{plan}.yaml").read_text("utf-8").splitlines():
        if not line.startswith("#"):
            break
        lines.append(line.removeprefix("#").strip())
    return "\n".join(lines).strip()


def gallery() -> str:
    parts = [_HEAD]
    for plan, shown in SHOWN.items():
        drawn = _drawn(plan)
        parts.append(f"## [{plan}.yaml]({plan}.yaml)\n\n{story(plan)}\n")
        parts.append(f"`firstfix build plans/{plan}.yaml -o out` draws {len(drawn)} sheets. Some of them:\n")
        parts += [snippet(_sheet(plan, sheet), f"pictures/{plan}/{sheet}.svg", MARKDOWN) for sheet in shown]
    return "\n".join(parts)


def pictures() -> dict[str, Callable[[], str]]:
    """Place below the repository to what draws it."""
    return {
        f"plans/pictures/{plan}/{sheet}.svg": partial(picture, plan, sheet)
        for plan, shown in SHOWN.items()
        for sheet in shown
    }
