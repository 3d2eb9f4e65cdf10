"""Rules over the choices that an earlier build made: those that cannot stay, and those that stand in another run's way."""

from collections.abc import Callable, Iterator

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.reasons import KEPT, Gap
from firstfix.finding.kinds import Kind
from firstfix.finding.model import PLAN_LANGUAGE, Cure, Level
from firstfix.rules.rule import FineMany, Outcome, Rule


@once_per_build
def _kept_count(build: Build) -> int:
    return len([None for each in build.decisions if each.origin == KEPT])


def _no_cure(_: Gap) -> tuple[Cure, ...]:
    return ()


def _choose_anew(gap: Gap) -> tuple[Cure, ...]:
    name = ids.path(gap.subject)
    return (Cure(f"choose anew about '{name}': firstfix build PLAN -o DIR --choose-anew {name}"),)


def _kept_rule(id: str, level: Level, help: str, cures: Callable[[Gap], tuple[Cure, ...]] = _no_cure) -> Rule:
    def check(build: Build) -> Iterator[Outcome]:
        for gap in build.gaps:
            if gap.rule == id:
                yield each.finding(gap.why, gap.subject, gap.at, cures=cures(gap))
        yield FineMany(_kept_count(build))

    check.__doc__ = help
    each = Rule(Kind(id, level, help, PLAN_LANGUAGE), check)
    return each


RULES: tuple[Rule, ...] = (
    _kept_rule(
        "kept-in-the-way", Level.ERROR,
        """A run finds a jack without others having to give up theirs.

    Because: jacks that an earlier build chose stay, since something may be plugged in there; so a run can come away empty although
        another arrangement would serve all.
    Compares: how many runs are served at a device, with how many would be if nothing were kept there.
    Remedy: `firstfix build PLAN -o DIR --choose-anew DEVICE` chooses that device's jacks anew; `firstfix diff` shows which cords move.
    """,
        _choose_anew,
    ),
    _kept_rule(
        "kept-second-best", Level.NOTE,
        """A run that needs power finds a jack that gives it, without others having to give up theirs.

    Because: a jack that gives power may be kept for a run that needs none.
    Compares: how many runs get a jack that suits them fully, with how many would if nothing were kept at the device.
    Remedy: `firstfix build PLAN -o DIR --choose-anew DEVICE`, or write the jack that you want.
    """,
        _choose_anew,
    ),
    _kept_rule(
        "kept-twice", Level.WARNING,
        """A kept choice is kept for one thing.

    Because: two branches that each add a device choose without knowing of each other, and may choose the same.
    Compares: the kept jacks, host numbers, outlets and numbers of runs with one another. Where two are the same, the one stays whose
        run or device sorts first (where one thing is kept in two ways, the way that sorts first); the other is worked out anew.
    Remedy: look where the other one is now, move it if it is plugged in already, and build once; that settles it.
    """,
    ),
    _kept_rule(
        "kept-impossible", Level.NOTE,
        """A kept choice is still possible.

    Because: what the plan says comes before what an earlier build chose, and parts, rooms and subnets change.
    Compares: each kept choice with the plan as it is now. One that is not possible is worked out anew.
    Remedy: none is needed; `firstfix check PLAN --why NAME` says what was chosen instead.
    """,
    ),
    _kept_rule(
        "kept-idle", Level.NOTE,
        """What is kept is about something that the plan leaves open.

    Because: the next build drops what is kept for nothing. Until then, a device that comes back gets its jack and address again.
    Compares: the kept choices with the plan's runs, devices and rooms.
    Remedy: none is needed, if you did remove them; otherwise mend the name, or say `was:` of the new one.
    """,
    ),
)  # fmt: skip
