"""A plan's text read as far as the typed plan, and the faults of the reading, each with its place."""

from firstfix.finding.collector import Collector
from firstfix.parts.library_files import library
from firstfix.plan.model import Plan
from firstfix.plan.read import read_plan
from firstfix.source.node import Mapping
from firstfix.source.reader import parse


def read(text: str) -> tuple[Plan, list[str]]:
    """The plan, and its faults as "LINE:COLUMN: MESSAGE"."""
    collector = Collector()
    tree = parse(text.encode(), "plan.yaml", collector)
    assert isinstance(tree, Mapping)
    found = read_plan(tree, library(), collector)
    return found, [
        f"{each.primary}: {each.message}".removeprefix("plan.yaml:") for each in collector.findings
    ]


def plan(text: str) -> Plan:
    """The plan of a text without faults."""
    found, said = read(text)
    assert said == []
    return found
