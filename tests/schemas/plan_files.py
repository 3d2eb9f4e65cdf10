"""The plans and part files of the repository that are to be without fault of form."""

from pathlib import Path

ROOT = Path(__file__).parents[2]


def plan_files() -> list[Path]:
    """Shipped plans, the starter plan, and the language's own; not what lies beside a plan, such as its allocations."""
    found = [
        *(ROOT / "plans").glob("*.yaml"),
        *(ROOT / "tests/language").glob("*.yaml"),
        *(ROOT / "tests/plan/plans").rglob("*.yaml"),
        ROOT / "compiler/firstfix/cli/starter_plan.yaml",
    ]
    return sorted(path for path in found if "." not in path.stem)


def part_files() -> list[Path]:
    return sorted((ROOT / "compiler/firstfix/parts/library").glob("*.yaml"))
