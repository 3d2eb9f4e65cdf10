"""Every key of the plan language has words and an example, and every example is taken; odd values at every key are judged alike."""

from typing import Any

import pytest

from firstfix.parts.yaml_text import flow_value
from schemas.around import PLACES, key_schema, keys, plan_with
from schemas.differences import explained
from schemas.judging import reader_says, schema, schema_says
from schemas.mutations import FEW_VALUES

KEYS = tuple(keys())
_IDS = [f"{table or 'plan'}-{key}" for table, key in KEYS]


def test_every_table_has_a_place_in_a_plan() -> None:
    assert {table for table, _ in KEYS} == {"", *PLACES}


@pytest.mark.parametrize(("table", "key"), KEYS, ids=_IDS)
def test_every_key_has_words_and_an_example(table: str, key: str) -> None:
    described = key_schema(table, key)
    assert described["description"].endswith(".")
    assert described["examples"]
    for example in described["examples"]:
        plan = plan_with(table, key, example)
        assert schema_says(plan) == [], plan
        assert reader_says(flow_value(plan)) == [], plan


def test_figures_have_words_and_examples() -> None:
    spreads = [
        each["anyOf"][2]["properties"] for name, each in schema()["$defs"].items() if name.endswith("Figure")
    ]
    assert len(spreads) == 10
    for each in spreads:
        assert all(key["description"] and key["examples"] for key in each.values())


@pytest.mark.parametrize(("table", "key"), KEYS, ids=_IDS)
def test_odd_values_are_judged_alike(table: str, key: str) -> None:
    for value in FEW_VALUES:
        plan: dict[str, Any] = plan_with(table, key, value)
        if key != "include":
            reader, by_schema = reader_says(flow_value(plan)), schema_says(plan)
            assert explained(reader, by_schema), f"{plan}\nreader: {reader}\nschema: {by_schema}"


@pytest.mark.parametrize(
    ("table", "key"), [(table, key) for table, key in KEYS if "maximum" in key_schema(table, key)]
)
def test_limits_of_whole_numbers_are_the_readers(table: str, key: str) -> None:
    limits = key_schema(table, key)
    for edge, beyond in ((limits["minimum"], -1), (limits["maximum"], 1)):
        assert reader_says(flow_value(plan_with(table, key, edge))) == []
        assert reader_says(flow_value(plan_with(table, key, edge + beyond)))
