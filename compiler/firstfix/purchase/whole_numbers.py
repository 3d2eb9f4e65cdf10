"""A linear model in whole numbers, solved by HiGHS to a proven optimum, the same one each time.

One thread, a fixed seed and no gap. Everything in the objective is whole, so a bound within less than 1 of a solution proves it.
A search that grows too large is ended by the work it has done, never by a clock, so that it ends the same everywhere.
"""

import math
from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

if TYPE_CHECKING:
    from highspy import HighsLp  # slow to import, so only where something is to be solved

# Nodes of the search. Orders of 200 lines in 8 shops were proven at the first one; each of theirs takes some milliseconds.
_MOST_NODES = 20_000
# Work of one question: figures in its rows, times how often the solver looks at whether it may go on. Measured: a million takes some
# two seconds, and 200 lines in 8 shops are proven with 0.5 million.
MOST_WORK = 2_000_000
# A small model's looks are not for nothing, either; and a large one gets so many looks that it finds something.
_LEAST_FIGURES, _LEAST_LOOKS = 100, 25
# Name of a column, which is its place.
Column = int
_Terms = Sequence[tuple[Column, int]]


class Row(NamedTuple):
    """`least` <= sum of (column, factor) <= `most`."""

    terms: tuple[tuple[Column, int], ...]
    least: float
    most: float


class Solved(NamedTuple):
    """The value of each column, and of the objective; `bound`: no values make that less. Equal to it but for a search that was ended."""

    values: tuple[int, ...]
    objective: int
    bound: int


class Unproved(RuntimeError):
    """The search was ended before it found anything, or proved that there is nothing."""


class Work:
    """How much searching may still be done, shared by however many questions; what it counts is the same on every machine."""

    def __init__(self, most: int = MOST_WORK) -> None:
        self.left = most
        self.done = 0

    def spend(self, amount: int) -> None:
        self.left -= amount
        self.done += amount

    def is_over(self) -> bool:
        return self.left <= 0


class WholeNumbers:
    """Columns from nothing up to a bound, rows over them, and an objective to make least."""

    def __init__(self) -> None:
        self._most: list[int] = []
        self._rows: list[Row] = []

    def column(self, most: int) -> Column:
        self._most.append(most)
        return len(self._most) - 1

    def at_least(self, terms: Iterable[tuple[Column, int]], least: int) -> None:
        self._rows.append(Row(tuple(terms), least, math.inf))

    def at_most(self, terms: Iterable[tuple[Column, int]], most: int) -> None:
        self._rows.append(Row(tuple(terms), -math.inf, most))

    def least(self, objective: _Terms, only: Iterable[Row] = (), work: Work | None = None) -> Solved | None:
        """The values that make `objective` least, with the rows `only` of this question; None where no values obey every row.

        Ended once `work` is over, though not before something can have been found.
        """
        import highspy
        import numpy

        rows = [*self._rows, *only]
        if not self._most:
            # A plan in which there is nothing to buy; the solver takes no model without columns.
            return Solved((), 0, 0) if all(row.least <= 0 <= row.most for row in rows) else None
        lp = highspy.HighsLp()
        lp.num_col_, lp.num_row_ = len(self._most), len(rows)
        costs = numpy.zeros(len(self._most))
        for column, factor in objective:
            costs[column] += factor
        lp.col_cost_ = costs
        lp.col_lower_ = numpy.zeros(len(self._most))
        lp.col_upper_ = numpy.array(self._most, dtype=float)
        lp.row_lower_ = numpy.array([row.least for row in rows])
        lp.row_upper_ = numpy.array([row.most for row in rows])
        lp.integrality_ = [highspy.HighsVarType.kInteger] * len(self._most)
        lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
        lp.a_matrix_.start_ = numpy.cumsum([0, *(len(row.terms) for row in rows)], dtype=numpy.int32)
        lp.a_matrix_.index_ = numpy.array(
            [column for row in rows for column, _ in row.terms], dtype=numpy.int32
        )
        lp.a_matrix_.value_ = numpy.array([float(factor) for row in rows for _, factor in row.terms])
        return self._solved(lp, objective, work if work is not None else Work())

    def _solved(self, lp: "HighsLp", objective: _Terms, work: Work) -> Solved | None:
        import highspy

        # The class that people use prints a line of its own as it is made; this is the one below it.
        solver = highspy._core._Highs()
        for option, value in (
            ("output_flag", False), ("threads", 1), ("random_seed", 0), ("mip_rel_gap", 0.0), ("mip_abs_gap", 0.5),
            ("mip_max_nodes", _MOST_NODES), ("mip_feasibility_tolerance", 1e-9), ("primal_feasibility_tolerance", 1e-9),
        ):  # fmt: skip
            solver.setOptionValue(option, value)
        solver.passModel(lp)
        _end_by_work(solver, len(lp.a_matrix_.index_), work)
        solver.run()
        status = solver.getModelStatus()
        if status in (highspy.HighsModelStatus.kInfeasible, highspy.HighsModelStatus.kUnboundedOrInfeasible):
            return None
        is_ended = status in (highspy.HighsModelStatus.kSolutionLimit, highspy.HighsModelStatus.kInterrupt)
        if status != highspy.HighsModelStatus.kOptimal and not (
            is_ended and solver.getSolution().value_valid
        ):
            raise Unproved(solver.modelStatusToString(status))
        values = tuple(round(value) for value in solver.getSolution().col_value)
        found = sum(values[column] * factor for column, factor in objective)
        return Solved(
            values, found, min(_certain(solver.getInfo().mip_dual_bound), found) if is_ended else found
        )


def _certain(bound: float) -> int:
    """The bound is a sum of floats: a little less of it is certain. Nothing here costs less than nothing."""
    return math.ceil(bound - 1e-3) if math.isfinite(bound) else 0


def _end_by_work(solver: Any, figures: int, work: Work) -> None:
    import highspy

    looks = 0

    def look(_kind: Any, _message: str, _found: Any, answer: Any, _data: Any) -> None:
        nonlocal looks
        looks += 1
        work.spend(figures + _LEAST_FIGURES)
        if work.is_over() and looks >= _LEAST_LOOKS:
            answer.user_interrupt = True

    solver.setCallback(look, None)
    solver.startCallback(highspy.cb.HighsCallbackType.kCallbackMipInterrupt)
