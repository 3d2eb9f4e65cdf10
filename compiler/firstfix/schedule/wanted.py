"""Whether the order that the plan wants for its steps can be kept; looked at only where a plan wants any."""

from collections.abc import Iterator, Sequence
from collections.abc import Mapping as Lookup

from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.build.reasons import PLAN
from firstfix.build.working import Wanted
from firstfix.finding.collector import MOST_FAULTS
from firstfix.finding.model import Cure, Edit, Finding, Safety
from firstfix.rules.rule import FineMany, Outcome, Rule
from firstfix.rules.work_kinds import STEP_UNKNOWN, STEPS_IN_A_RING
from firstfix.source.node import Mapping, Node, Scalar, clip
from firstfix.source.node import Sequence as ListNode
from firstfix.span import Span
from firstfix.work.step_names import short_names
from firstfix.work.tasks import woven
from firstfix.work.wanted import Link, Unnamed

_woven = once_per_build(woven)
# Of a longer ring, its first links are told.
_MOST_LINKS = 6


def _unknown(build: Build) -> Iterator[Outcome]:
    found = _woven(build)
    yield FineMany(len(found.kept) + len(found.refused))
    for each in found.unnamed[:MOST_FAULTS]:
        yield _no_such(build, each)


def _no_such(build: Build, each: Unnamed) -> Finding:
    at = _place(build, each.wanted, each.text)
    near = tuple(f"'{clip(name)}'" for name in each.may_be)
    if len(near) > 1 and each.is_several:
        message = f"'{clip(each.text)}' may be the step {' or '.join(near)}"
    else:
        message = f"there is no step '{clip(each.text)}'{_hint(each.text, near)}"
    cures: tuple[Cure, ...] = ()
    if at is not None and len(near) == 1:
        cures = (Cure(f"write {near[0]}", (Edit(at, each.may_be[0]),), Safety.NEEDS_REVIEW),)
    return NAMES.finding(message, clip(each.text), at, cures=cures)


def _hint(text: str, near: tuple[str, ...]) -> str:
    if near:
        return f"; did you mean {' or '.join(near)}?"
    number = "numbers change with the plan, and " if text.isdigit() else ""
    return f"; {number}the checklist prints each step's id behind its words"


def _ringed(build: Build) -> Iterator[Outcome]:
    found = _woven(build)
    yield FineMany(len(found.kept))
    names = short_names({task.id: task for task in found.tasks}) if found.refused else {}
    phases = {task.id: task.phase for task in found.tasks}
    for each in found.refused[:MOST_FAULTS]:
        step, before = names[each.step], names[each.before]
        if each.is_later:
            own = phases[each.step] or build.phases[0].name
            why = f"that is of the phase '{phases[each.before]}', which comes after the phase '{own}' of '{step}'"
        elif each.step == each.before:
            why = "that is the same step"
        elif each.ring:
            why = _in_words(each.ring, names)
        else:
            why = "too many others of these wishes close rings to tell which one this closes"
        message = f"'{step}' cannot come after '{before}', and this wish is left out: {why}"
        at = _place(build, each.wanted, each.wanted.before)
        cures = (Cure(_cure(each.is_later, each.step, phases[each.before])),)
        yield RINGS.finding(message, each.step, at, cures=cures)


def _cure(is_later: bool, step: str, phase: str) -> str:
    if is_later and step.startswith("own:"):
        return f"give the step `phase: {phase}`"
    return "take this wish out, or one that the ring is made of"


def _in_words(ring: Sequence[Link], names: Lookup[str, str]) -> str:
    """Backwards, from what was to come first to the step that was to wait for it."""
    links = ring[::-1]
    told = [f"comes after '{names[each.before]}' ({each.why})" for each in links[:_MOST_LINKS]]
    left = len(links) - _MOST_LINKS
    rest = f", and so on over {left} more to '{names[links[-1].before]}'" if left > 0 else ""
    return f"'{names[links[0].after]}' " + ", which ".join(told) + rest


def _place(build: Build, wanted: Wanted, text: str) -> Span | None:
    """Of the step that waits, or of the one that comes first, whichever `text` is."""
    node: Node | None = build.provenance.node(PLAN)
    for key in ("work", "after"):
        node = node.value(key) if isinstance(node, Mapping) else None
    entry = node.entries.get(wanted.step) if isinstance(node, Mapping) else None
    if entry is None:
        return None
    waits, value = entry
    if text == wanted.step and text != wanted.before:
        return waits.span
    if isinstance(value, Mapping) and wanted.before in value.entries:
        return value.entries[wanted.before][0].span
    items = value.items if isinstance(value, ListNode) else (value,)
    return next((each.span for each in items if isinstance(each, Scalar) and each.text == text), value.span)


NAMES = Rule(STEP_UNKNOWN, _unknown)
RINGS = Rule(STEPS_IN_A_RING, _ringed)
WANTED_RULES = (NAMES, RINGS)
