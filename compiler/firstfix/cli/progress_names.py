"""What `firstfix progress` was asked about, by the names that people type: a step, a line of the shopping list, a run.

Each gives the one thing that is meant, or raises TroubleError with half a sentence that names the nearest.
"""

from collections.abc import Iterable, Mapping

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.purchase.needs import Need
from firstfix.remaining.reckon import run_id
from firstfix.source.nearest import did_you_mean
from firstfix.work.model import Task
from firstfix.work.step_names import StepNames

_MOST_NAMED = 6
_WHERE = "a step goes by its id, which follows the step's words in the checklist, as in '· fit:device/core'"


def step_named(text: str, known: Mapping[str, Task]) -> Task:
    """By its id, or without the kind of its subject where that leaves one: `fit:core`."""
    names = StepNames(known.values())
    found = names.named(text)
    if len(found) == 1:
        return known[found[0]]
    if found:
        raise TroubleError(f"'{cut(text, 80)}' may be {' or '.join(found)}; write which")
    if text.isascii() and text.isdigit():
        raise TroubleError(_no_number(text))
    near = names.near(text)
    hint = f"; did you mean {_either(near)}?" if near else f"; {_WHERE}"
    raise TroubleError(f"there is no step '{cut(text, 80)}'{hint}")


def _no_number(text: str) -> str:
    """The numbers are not taken: a step that is put in moves all that follow it."""
    return f"'{cut(text, 20)}' is a step's number, and numbers change with the plan; {_WHERE}"


def line_named(name: str, known: Mapping[str, Need]) -> Need:
    """A line of the shopping list by its short name: `cord-cat6/1m`."""
    if name in known:
        return known[name]
    same_part = [each for each in known if each.partition("/")[0] == name]
    hint = f"; it has {_either(same_part, ', ')}" if same_part else did_you_mean(name, known)
    raise TroubleError(f"the shopping list has no line '{cut(name, 80)}'{hint}")


def run_named(text: str, runs: Mapping[str, Piece], build: Build) -> Piece:
    """By its name, or by its link's alone where that has one run."""
    if text in runs:
        return runs[text]
    found = [piece for piece in runs.values() if ids.path(piece.link) == text]
    if len(found) == 1:
        return found[0]
    touching = found or [each for each in runs.values() if _touches(build, each, text)]
    names = sorted((run_id(each) for each in touching), key=natural)
    said = f"; {'it has' if found else 'runs there are'} {_either(names, ', ')}"
    raise TroubleError(
        f"there is no installed run '{cut(text, 80)}'{said if names else did_you_mean(text, runs)}"
    )


def _touches(build: Build, piece: Piece, named: str) -> bool:
    """Whether a run ends at this device or jack, or its link at this device."""
    ends = (ids.path(end).removesuffix("@rear") for end in piece.ends)
    devices = (build.devices[build.jacks[end].device].name for end in piece.ends)
    hops = build.links[piece.link].hops if piece.link in build.links else ()
    return named in {*ends, *devices, *(ids.path(hop) for hop in hops)}


def _either(names: Iterable[str], between: str = " or ") -> str:
    shown = list(names)
    more = f"{between}{len(shown) - _MOST_NAMED} more" if len(shown) > _MOST_NAMED else ""
    return between.join(f"'{cut(each, 80)}'" for each in shown[:_MOST_NAMED]) + more
