"""What the rules on PoE share: the class that a power run was granted, who is at its ends.

Takes a build and one of its power runs.
"""

from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.parts.facts import Fact, Figure
from firstfix.rules.typical import rests_on as rests_on
from firstfix.standards.poe import PoeClass, classes


def device_of(build: Build, jack: str) -> str:
    return build.jacks[jack].device


def name_of(build: Build, jack: str) -> str:
    return build.devices[device_of(build, jack)].name


def granted_row(run: PowerRun) -> PoeClass | None:
    """The row of the class that the run was granted, or None where none was or it is not known."""
    return classes()[int(run.assigned.typical)] if isinstance(run.assigned, Fact) else None


def class_named(figure: Figure) -> str:
    return f"class {int(figure.typical)}" if isinstance(figure, Fact) else "an unknown class"
