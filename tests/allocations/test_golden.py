"""An old plan with what was chosen for it then compiles to the same choices for good, whatever is chosen for new plans by now."""

from pathlib import Path

from allocations.keeping import kept_after, lines, said
from firstfix.allocations.choices import NO_CHOICES
from firstfix.pipeline import compile_again, compile_plan
from repo.editing import HONEY_FARM

OLD_FARM = Path(__file__).parents[1] / "golden" / "old-farm.yaml"


def test_the_old_farm_keeps_every_choice() -> None:
    """Its jacks, hosts and outlets are none that would be chosen today."""
    text = OLD_FARM.with_name("old-farm.allocations.yaml").read_text("utf-8")
    old = compile_plan(OLD_FARM, OLD_FARM.name)
    assert said(old) == []
    assert kept_after(old) == text
    assert len(lines(text) - lines(kept_after(compile_again(old, NO_CHOICES)))) >= 15


def test_the_shipped_plan_stands_beside_what_its_build_keeps() -> None:
    """After a change of the plan: firstfix build plans/honey-farm.yaml -o out."""
    farm = compile_plan(HONEY_FARM, HONEY_FARM.name)
    assert said(farm) == []
    assert kept_after(farm) == HONEY_FARM.with_name("honey-farm.allocations.yaml").read_text("utf-8")
