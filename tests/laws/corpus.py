"""The plans that the laws are tried on: whole examples, which are sound, and the small bad plans of the rules, which say something.

And what a compiled plan says, without what a law lets change: places, and names where they were changed.
"""

import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any

from firstfix.pipeline import Compiled
from repo.editing import LANGUAGE_PLANS, PLANS, ROOT, compiled
from repo.editing import read as read_anew

EXAMPLES = (*PLANS, *LANGUAGE_PLANS)
_RULES = ROOT / "tests" / "rules"
# What stands beside a plan (`bad.allocations.yaml`) is no plan.
BAD_PLANS = tuple(
    path for path in sorted(_RULES.glob("*/*.yaml")) if "." not in path.stem and "good" not in path.stem
)
# One of each rule, for laws that compile each plan several times.
ONE_OF_EACH_RULE = tuple(sorted(_RULES.glob("*/bad.yaml")))

read = cache(read_anew)
"""A plan as data, read once: nobody changes it in place."""

Verdict = tuple[str, str, str, str]
_PLACES = re.compile(r"\S+\.yaml:\d+(:\d+)?")


def name_of(path: Path) -> str:
    return f"{path.parent.name}/{path.stem}"


def verdicts(result: Compiled, plain: Callable[[str], str] = str) -> list[Verdict]:
    """Rule, level, subject and sentence of each verdict, sorted. `plain` takes away what was changed on purpose."""
    report = result.report
    said = [(each.rule, str(each.level), each.subject, each.message) for each in report.findings]
    said += [
        (each.rule, "cannot tell", each.subject, "; ".join(label.text for label in each.missing))
        for each in report.undetermined
    ]
    return sorted(
        (rule, level, plain(subject), _PLACES.sub("…", plain(text))) for rule, level, subject, text in said
    )


def changed(node: Any, change: Callable[[Any, tuple[str, ...]], Any], at: tuple[str, ...] = ()) -> Any:
    """The tree with `change(leaf or key, path)` applied to every scalar and every key; a key's path ends in `<key>`."""
    if isinstance(node, dict):
        return {
            change(key, (*at, "<key>")): changed(value, change, (*at, key)) for key, value in node.items()
        }
    if isinstance(node, list):
        return [changed(each, change, at) for each in node]
    return change(node, at)


__all__ = ["BAD_PLANS", "EXAMPLES", "ONE_OF_EACH_RULE", "changed", "compiled", "name_of", "read", "verdicts"]
