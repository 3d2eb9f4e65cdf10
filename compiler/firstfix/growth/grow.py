"""How far a plan can grow, spot by spot: the search, what else is near, and what would lift the first limit.

Takes a plan, its build and report, and a function that compiles another plan in its place; gives a Growth for each. It writes nothing, and the
same plan gives the same answer.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Protocol

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.finding.model import Report
from firstfix.graphs.headroom import FILL, Headroom
from firstfix.graphs.way_fill import in_pipes
from firstfix.growth.anew import moved, price_of_moved, words_of_moved
from firstfix.growth.lifting import Candidate, candidates
from firstfix.growth.limits import LEASES, Key, behind, further, leases, nearest, reckoned, rows, with_missing
from firstfix.growth.model import MOST, Behind, Growth, Lift, Spot, Trouble
from firstfix.growth.more import UNCHANGED, Change, marker, with_more
from firstfix.growth.search import most_that_fit
from firstfix.growth.spots import in_kinds, spots
from firstfix.growth.verdicts import Before, before, doubts, troubles
from firstfix.plan.model import Plan
from firstfix.purchase.lifted import price_of_change, price_of_part


class Compile(Protocol):
    """Another plan in the place of the one, what was chosen for that kept, but for the jacks of the devices in `anew`."""

    def __call__(self, plan: Plan, anew: tuple[str, ...] = ()) -> tuple[Build, Report]: ...


# Ways of lifting that are compiled, and those that are told.
_MOST_TRIED, _MOST_TOLD = 10, 2
# Below so many cables in a pipe, how many may fill it depends on their number; see growth.search.
_FEW = 2


def growths(
    plan: Plan,
    build: Build,
    report: Report,
    wanted: Callable[[tuple[Spot, ...]], tuple[Spot, ...]],
    compile_variant: Compile,
    most_devices: int,
) -> tuple[Growth, ...]:
    """Of those spots that `wanted` takes, in order of their kinds; reckoned only, for a plan of more than `most_devices`.

    `compile_variant` must keep what was chosen for the plan as it is.
    """
    chosen = sorted(wanted(spots(plan, build)), key=in_kinds)
    if len(build.devices) > most_devices:
        now = rows(build) if chosen else {}
        return tuple(reckoned_growth(build, now, spot) for spot in chosen if spot.switch)
    return tuple(growth(plan, build, report, spot, compile_variant) for spot in chosen)


def growth(plan: Plan, build: Build, report: Report, spot: Spot, compile_variant: Compile) -> Growth:
    """Exact."""
    mark = marker(plan)
    site = _Site(plan, build, spot, compile_variant, mark, before(report, mark), rows(build))
    one_build, one_report = site.made(1, UNCHANGED)
    near = behind(build, site.now, rows(one_build))
    if spot.switch:
        near = with_missing(near, reckoned(build, site.now, spot))
    few = any(each.what == FILL and len(in_pipes(build)[each.id]) < _FEW for each in near)
    site.few = few
    count, first = site.search(UNCHANGED, 0, nearest(near))
    lifts, tried = site.lifts(count, first, near) if first else ((), 0)
    touched = frozenset(each.id for each in near)
    return Growth(spot, count, not first, first, near, doubts(one_report, touched, mark), lifts, True, tried)


def reckoned_growth(build: Build, now: dict[Key, Headroom], spot: Spot) -> Growth:
    """Without compiling anything: the nearest of the limits that can be reckoned from one build."""
    near = reckoned(build, now, spot)
    count = min(nearest(near), MOST)
    return Growth(spot, count, count == MOST, (), near, (), (), False)


@dataclass(slots=True)
class _Site:
    """One spot of one plan, with what was compiled for it. `now`: what is left of everything, before. `few`: see search."""

    plan: Plan
    build: Build
    spot: Spot
    compile_variant: Compile
    mark: str
    before: Before
    now: dict[Key, Headroom]
    few: bool = False
    _made: dict[tuple[int, Change], tuple[Build, Report]] = field(default_factory=dict)

    def made(self, number: int, change: Change) -> tuple[Build, Report]:
        key = number, change
        if key not in self._made:
            grown = with_more(self.plan, self.build, self.spot, number, change)
            self._made[key] = self.compile_variant(grown, change.anew)
        return self._made[key]

    def judged(self, number: int, change: Change) -> tuple[Trouble, ...]:
        build, report = self.made(number, change)
        return (*troubles(report, self.before, self.mark), *self._without_lease(build))

    def search(self, change: Change, fits: int, guess: int) -> tuple[int, tuple[Trouble, ...]]:
        """`fits`: so many are known to fit."""
        return most_that_fit(lambda number: self.judged(number, change), fits, guess, self.few)

    def _without_lease(self, build: Build) -> tuple[Trouble, ...]:
        """No rule minds who borrows addresses; but where the plan's own devices are more than are lent, some get none."""
        return tuple(
            Trouble(LEASES, row.id, "warning", f"'{ids.path(row.id)}' lends {row.limit:g} addresses, and {row.used:g} devices borrow one")
            for row in leases(build)
            if (row.left or 0) < 0 and row.used != self.now[row.what, row.id, row.of].used
        )  # fmt: skip

    def lifts(
        self, count: int, first: tuple[Trouble, ...], near: tuple[Behind, ...]
    ) -> tuple[tuple[Lift, ...], int]:
        """The cheapest that lets one more in, and the next that goes further; and how many were compiled to find them."""
        found: list[Lift] = []
        tried = 0
        for candidate in candidates(self.build, self.spot, first, count):
            if tried == _MOST_TRIED or len(found) == _MOST_TOLD:
                break
            tried += 1
            if not self.judged(count + 1, candidate.change):
                lift = self._lift(candidate, count, near)
                # What costs more and goes no further is of no use.
                if lift is not None and (not found or lift.more > found[-1].more):
                    found.append(lift)
        return tuple(found), tried

    def _lift(self, candidate: Candidate, count: int, near: tuple[Behind, ...]) -> Lift | None:
        change = candidate.change
        guess = count + 1 + further(rows(self.made(count + 1, change)[0]), near)
        most, then = self.search(change, count + 1, guess)
        if change.anew:
            return self._anew(change, count, most, then)
        if candidate.part:
            price, unpriced = price_of_part(self.build, candidate.part)
        else:
            price, unpriced = price_of_change(
                self.made(count, UNCHANGED)[0] if count else self.build, self.made(count, change)[0]
            )
        return Lift(candidate.words, price, unpriced, most, not then, then)

    def _anew(self, change: Change, count: int, most: int, then: tuple[Trouble, ...]) -> Lift | None:
        """None where installed runs would have to be made off again: nobody does that to plug in one more."""
        what = moved(self.made(count, UNCHANGED)[0], self.made(most, change)[0])
        if what.installed:
            return None
        price, unpriced = price_of_moved(self.build, what)
        return Lift(words_of_moved(change.anew[0], what), price, unpriced, most, not then, then)
