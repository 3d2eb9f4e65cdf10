"""Random slips in whole plans: reader and schema take and refuse the same, but for what differences.py lists."""

import random
from typing import Any

import pytest

from firstfix.parts.yaml_text import flow_value
from schemas.differences import explained
from schemas.judging import reader_says, schema, schema_says, tree_of, value_of
from schemas.mutations import mutated
from schemas.plan_files import part_files, plan_files


def _plans() -> list[Any]:
    """Plans that both take: whole ones, all examples together, the library's parts of each kind."""
    plans = [value_of(tree_of(path.read_text("utf-8"))[0]) for path in plan_files()]
    plans.append({key: each["examples"][0] for key, each in schema()["properties"].items()})
    for path in part_files():
        parts = value_of(tree_of(path.read_text("utf-8"))[0])
        plans.append({"parts": {name: part for name, part in parts.items() if "like" not in part}})
    for plan in plans:
        plan.pop("include", None)
    return plans


def _try(count: int, seed: int) -> dict[bool, int]:
    source = random.Random(seed)  # noqa: S311  # Not for secrets; the same slips each time.
    plans, taken = _plans(), {True: 0, False: 0}
    for _ in range(count):
        plan = mutated(source.choice(plans), source)
        reader, by_schema = reader_says(flow_value(plan)), schema_says(plan)
        assert explained(reader, by_schema), f"{plan}\nreader: {reader}\nschema: {by_schema}"
        taken[not reader] += 1
    return taken


def test_plans_with_a_slip_are_judged_alike() -> None:
    taken = _try(400, seed=2027)
    # Both verdicts are tried, many times.
    assert min(taken.values()) > 80, taken


@pytest.mark.long
def test_many_plans_with_a_slip_are_judged_alike() -> None:
    _try(2000, seed=815)
