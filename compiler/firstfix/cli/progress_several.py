"""Words that mean several steps, or lines, at once: `everything`, `phase:NAME`, and a kind of step such as `pull:`.

What is recorded already is left as it is recorded.
"""

from collections.abc import Container, Mapping, Sequence

from firstfix.cli.trouble import TroubleError
from firstfix.finding.fit import cut
from firstfix.source.nearest import did_you_mean
from firstfix.work.model import Task

EVERYTHING = "everything"
_PHASE = "phase:"


def several_steps(
    text: str, known: Mapping[str, Task], recorded: Container[str], phases: Sequence[str]
) -> tuple[Task, ...] | None:
    """The steps that `text` means and that are not recorded, sorted by id; None where it means a single one. Raises TroubleError."""
    if text != EVERYTHING and not text.startswith(_PHASE) and not text.endswith(":"):
        return None
    meant = [task for id_, task in known.items() if _is_meant(text, id_, task, phases)]
    if not meant:
        raise TroubleError(_none(text, known, phases))
    found = tuple(sorted((each for each in meant if each.id not in recorded), key=lambda each: each.id))
    if not found:
        raise TroubleError(f"all {len(meant)} steps of '{cut(text, 80)}' are recorded as done already")
    return found


def _is_meant(text: str, id_: str, task: Task, phases: Sequence[str]) -> bool:
    if text == EVERYTHING:
        return True
    if text.startswith(_PHASE):
        # What names no phase is done with the first.
        return (task.phase or next(iter(phases), "")) == text.removeprefix(_PHASE) != ""
    return id_.startswith(text)


def _none(text: str, known: Mapping[str, Task], phases: Sequence[str]) -> str:
    if text.startswith(_PHASE):
        name = text.removeprefix(_PHASE)
        if name in phases:
            return f"the phase '{cut(name, 60)}' has no steps"
        why = did_you_mean(name, phases) if phases else "; the plan has no phases"
        return f"there is no phase '{cut(name, 60)}'{why}"
    kinds = {f"{id_.partition(':')[0]}:" for id_ in known}
    return f"there are no steps '{cut(text, 60)}'{did_you_mean(text, kinds)}"
