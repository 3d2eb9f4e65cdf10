"""What the author wants before what, woven into the steps' own precedences: as far as both can hold.

Takes the steps, each with what must precede it, and the plan's `after:`. Gives the steps with what could be added, and what
could not and why: no such step, one of a later phase, or a ring, of which the wish that sorts last by its words is left out.
"""

from collections import deque
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from firstfix.build.phases import PhaseKey
from firstfix.build.working import Wanted
from firstfix.work.model import Precedence, Task
from firstfix.work.step_names import StepNames

# How the reasons of these begin.
SAYS_SO = "the plan says so"
# Each link of a ring is looked for through all steps that may be in one; beyond so many, it is not worth the time.
_MOST_TRIED = 500


class Unnamed(NamedTuple):
    """`text` means none of the steps, and `may_be` those that are like it; or it `is_several`, and means any of them."""

    wanted: Wanted
    text: str
    may_be: tuple[str, ...]
    is_several: bool


class Link(NamedTuple):
    """The step `before` comes before the step `after`, because of `why`."""

    before: str
    after: str
    why: str


class Refused(NamedTuple):
    """`ring`: from `step` on, link by link, to the step that was to come before it; none where that is of a later phase, or
    where there are too many to look for it.
    """

    wanted: Wanted
    step: str
    before: str
    is_later: bool
    ring: tuple[Link, ...]


class Woven(NamedTuple):
    """`kept`: what the author wants and gets. Whatever is not in it is in one of the other two."""

    tasks: tuple[Task, ...]
    kept: tuple[Wanted, ...]
    unnamed: tuple[Unnamed, ...]
    refused: tuple[Refused, ...]


class _Named(NamedTuple):
    wanted: Wanted
    step: str
    before: str


def weave(tasks: Sequence[Task], wanted: Sequence[Wanted], phase_key: PhaseKey) -> Woven:
    """`tasks` are free of rings, and stay so; their order is kept."""
    if not wanted:
        return Woven(tuple(tasks), (), (), ())
    by_id = {task.id: task for task in tasks}
    named, unnamed = _named(wanted, StepNames(tasks))
    held, refused = _held(by_id, named, phase_key)
    more: dict[str, list[Precedence]] = {}
    for each in held:
        more.setdefault(each.step, []).append(Precedence(each.before, _why(each.wanted)))
    woven = tuple(_with(task, more.get(task.id, ())) for task in tasks)
    return Woven(woven, tuple(each.wanted for each in held), unnamed, refused)


def _named(wanted: Sequence[Wanted], names: StepNames) -> tuple[list[_Named], tuple[Unnamed, ...]]:
    found: list[_Named] = []
    unnamed: dict[str, Unnamed] = {}
    for each in wanted:
        meant = [(text, names.named(text)) for text in (each.step, each.before)]
        for text, ids in meant:
            if len(ids) != 1:
                unnamed.setdefault(text, Unnamed(each, text, ids or names.near(text), bool(ids)))
        if all(len(ids) == 1 for _, ids in meant):
            found.append(_Named(each, meant[0][1][0], meant[1][1][0]))
    return found, tuple(unnamed.values())


def _with(task: Task, more: Iterable[Precedence]) -> Task:
    """A precedence that there is already keeps its reason, for that one is not the author's to take back."""
    known = {each.before for each in task.after}
    added = {each.before: each for each in more if each.before not in known}
    return replace(task, after=(*task.after, *added.values())) if added else task


def _why(wanted: Wanted) -> str:
    return f"{SAYS_SO}: {wanted.why}" if wanted.why else SAYS_SO


def _held(
    tasks: Mapping[str, Task], named: Sequence[_Named], phase_key: PhaseKey
) -> tuple[list[_Named], tuple[Refused, ...]]:
    held, refused = [], []
    for each in named:
        is_later = phase_key(tasks[each.before].phase) > phase_key(tasks[each.step].phase)
        if is_later:
            refused.append(Refused(*each, True, ()))
        else:
            held.append(each)
    doubtful = _in_rings(tasks, held)
    if not doubtful:
        return held, tuple(refused)
    suspects = [each for each in held if each.step in doubtful and each.before in doubtful]
    chosen, rings = _one_by_one(_links(tasks, doubtful), suspects)
    safe = [each for each in held if each not in suspects or each in chosen]
    return safe, (*refused, *rings)


def _in_rings(tasks: Mapping[str, Task], named: Iterable[_Named]) -> frozenset[str]:
    """The steps that are in a ring or between two: what is left when first and last steps are taken off, again and again."""
    before = {id_: {each.before for each in task.after} for id_, task in tasks.items()}
    for each in named:
        before[each.step].add(each.before)
    after: dict[str, set[str]] = {id_: set() for id_ in tasks}
    for id_, all_before in before.items():
        for each_before in all_before:
            after[each_before].add(id_)
    left = set(tasks)
    for one, other in ((before, after), (after, before)):
        _take_off(left, one, other)
    return frozenset(left)


def _take_off(left: set[str], needs: Mapping[str, set[str]], needed_by: Mapping[str, set[str]]) -> None:
    count = {id_: len(needs[id_] & left) for id_ in left}
    free = [id_ for id_ in left if not count[id_]]
    while free:
        id_ = free.pop()
        left.discard(id_)
        for each in needed_by[id_] & left:
            count[each] -= 1
            if not count[each]:
                free.append(each)


def _links(tasks: Mapping[str, Task], within: frozenset[str]) -> dict[str, list[Link]]:
    """By the step that comes first."""
    found: dict[str, list[Link]] = {id_: [] for id_ in within}
    for id_ in sorted(within):
        for each in tasks[id_].after:
            if each.before in within:
                found[each.before].append(Link(each.before, id_, each.why))
    return found


def _one_by_one(
    links: dict[str, list[Link]], suspects: Sequence[_Named]
) -> tuple[frozenset[_Named], list[Refused]]:
    chosen, refused = [], []
    for number, each in enumerate(suspects):
        ring = _way(links, each.step, each.before) if number < _MOST_TRIED else ()
        if ring is None:
            links[each.before].append(Link(each.before, each.step, _why(each.wanted)))
            chosen.append(each)
        else:
            refused.append(Refused(*each, False, ring))
    return frozenset(chosen), refused


def _way(links: Mapping[str, Sequence[Link]], start: str, end: str) -> tuple[Link, ...] | None:
    """The shortest chain of links from one step to another; none where they are the same, None where there is none."""
    if start == end:
        return (Link(start, start, "it is the same step"),)
    came: dict[str, Link] = {}
    ahead = deque([start])
    while ahead:
        here = ahead.popleft()
        for link in links[here]:
            if link.after not in came and link.after != start:
                came[link.after] = link
                if link.after == end:
                    return tuple(_back(came, start, end))
                ahead.append(link.after)
    return None


def _back(came: Mapping[str, Link], start: str, end: str) -> Iterator[Link]:
    chain = []
    while end != start:
        chain.append(came[end])
        end = came[end].before
    yield from reversed(chain)
