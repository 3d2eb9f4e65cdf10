"""Early and late dates and both floats: against the tables of a textbook, another library, and what the words mean."""

from dataclasses import dataclass

import networkx
import pytest
from hypothesis import given, settings

from firstfix.schedule.critical import Dates, critical_path, dates, length
from firstfix.schedule.jobs import Job
from schedule.networks import HOUSE, INSTALL, jobs

# The textbook's answers: early start and finish, late start and finish, total and free float.
HOUSE_TABLE = {
    "A": (0, 2, 0, 2, 0, 0), "B": (2, 6, 2, 6, 0, 0), "C": (6, 16, 6, 16, 0, 0), "D": (16, 22, 20, 26, 4, 0),
    "E": (16, 20, 16, 20, 0, 0), "F": (20, 25, 20, 25, 0, 0), "G": (22, 29, 26, 33, 4, 0), "H": (29, 38, 33, 42, 4, 0),
    "I": (16, 23, 18, 25, 2, 2), "J": (25, 33, 25, 33, 0, 0), "K": (33, 37, 34, 38, 1, 1), "L": (33, 38, 33, 38, 0, 0),
    "M": (38, 40, 42, 44, 4, 4), "N": (38, 44, 38, 44, 0, 0),
}  # fmt: skip


@pytest.mark.parametrize("name", HOUSE_TABLE)
def test_the_textbooks_table(name: str) -> None:
    found = dates(HOUSE)[name]
    shown = (found.early_start, found.early_finish, found.late_start, found.late_finish)
    assert (*shown, found.total_float, found.free_float) == HOUSE_TABLE[name]


def test_the_textbooks_length_and_path() -> None:
    assert length(dates(HOUSE)) == 44
    assert "".join(critical_path(HOUSE, dates(HOUSE))) == "ABCEFJLN"


def test_the_small_installation() -> None:
    found = dates(INSTALL)
    assert length(found) == 13
    path = ("survey", "order", "copper", "terminate", "certify", "commission")
    assert critical_path(INSTALL, found) == path
    assert {name for name, each in found.items() if each.is_critical} == set(path)
    floats = {name: each.total_float for name, each in found.items() if not each.is_critical}
    assert floats == {"mount": 2, "fibre": 2, "splice": 2, "config": 9}


def _longest(made: tuple[Job, ...]) -> int:
    """By networkx: each job an edge as long as it is, each wait one from the beginning of time."""
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for job in made:
        graph.add_edge(f"{job.id}>", f">{job.id}", weight=job.minutes)
        graph.add_edge("start", f"{job.id}>", weight=job.not_before)
        for before in job.before:
            graph.add_edge(f">{before}", f"{job.id}>", weight=0)
    return int(networkx.dag_longest_path_length(graph))


@given(jobs())
@settings(derandomize=True, deadline=None, max_examples=200)
def test_as_long_as_networkx_finds_the_longest_path(made: tuple[Job, ...]) -> None:
    assert length(dates(made)) == _longest(made)


def _lengths(made: tuple[Job, ...], backwards: bool) -> dict[str, int]:
    """From the beginning to where each job begins, or from where each ends to the end: longest paths as shortest of what is negative."""
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for job in made:
        graph.add_edge(f"{job.id}>", f">{job.id}", weight=-job.minutes)
        graph.add_edge("start", f"{job.id}>", weight=0 if backwards else -job.not_before)
        graph.add_edge(f">{job.id}", "end", weight=0)
        for before in job.before:
            graph.add_edge(f">{before}", f"{job.id}>", weight=0)
    source = "end" if backwards else "start"
    found = networkx.single_source_bellman_ford_path_length(graph.reverse() if backwards else graph, source)
    return {job.id: -round(found[f">{job.id}" if backwards else f"{job.id}>"]) for job in made}


@given(jobs())
@settings(derandomize=True, deadline=None, max_examples=200)
def test_each_job_is_as_early_and_as_late_as_the_paths_of_networkx(made: tuple[Job, ...]) -> None:
    found, to, from_ = dates(made), _lengths(made, backwards=False), _lengths(made, backwards=True)
    for job in made:
        each = found[job.id]
        assert each.early_start == to[job.id]
        assert each.late_finish == _longest(made) - from_[job.id]
        assert each.total_float == _longest(made) - to[job.id] - job.minutes - from_[job.id]


@dataclass(frozen=True)
class _Delayed:
    """The same jobs, one of them longer."""

    made: tuple[Job, ...]

    def by(self, name: str, minutes: int) -> dict[str, Dates]:
        longer = (job._replace(minutes=job.minutes + minutes) if job.id == name else job for job in self.made)
        return dict(dates(tuple(longer)))


@given(jobs(most=8))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_a_float_is_by_how_much_a_job_may_be_longer(made: tuple[Job, ...]) -> None:
    """Total float: before the whole is longer. Free float: before anything else begins later."""
    plain, delayed = dates(made), _Delayed(made)
    for name, each in plain.items():
        assert length(delayed.by(name, each.total_float)) == length(plain)
        assert length(delayed.by(name, each.total_float + 1)) == length(plain) + 1
        assert 0 <= each.free_float <= each.total_float
        others = [other for other in plain if other != name]
        free, more = delayed.by(name, each.free_float), delayed.by(name, each.free_float + 1)
        assert all(free[other].early_start == plain[other].early_start for other in others)
        is_late = any(more[other].early_start > plain[other].early_start for other in others)
        assert is_late or length(more) > length(plain)
