"""The way there, from the old network to the new: as text, as Markdown to take along, and as data for programs.

Takes a Way; gives text. Everything in it was worked out before.
"""

import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from firstfix.changeover.minutes import SOURCE
from firstfix.changeover.model import Interruption, Lost, Step, Way, windows
from firstfix.documents.markdown import inline
from firstfix.source.node import clip

FORMAT = 1
_MOST_NAMED = 8
# How many steps the short form on a terminal shows.
_MOST_STEPS = 50
_CAUTION = (
    "Whatever is printed here as a caution is the usual one; local codes and licensed practice come first."
)


def way_data(way: Way) -> dict[str, Any]:
    """For JSON: minutes as whole numbers, devices by name, steps in their order."""
    return {
        "format": FORMAT,
        "station": way.station,
        "minutes": way.minutes,
        "service-minutes": {each.device: each.minutes for each in way.service},
        "management-minutes": {each.device: each.minutes for each in way.management},
        "proven-least": way.is_proven,
        "service-minutes-at-least": way.least_service,
        "steps": [_step_data(step) for step in way.steps],
        "interruptions": [
            {"from": each.first, "to": each.last, "minutes": each.minutes, "devices": list(each.devices)}
            for each in way.interruptions
        ],
        "not-counted": list(way.uncounted),
        "only-renamed": way.renamed,
        "durations": SOURCE,
        "cannot-tell": list(way.doubts),
    }


def _step_data(step: Step) -> dict[str, Any]:
    return {
        "number": step.number,
        "do": [{"id": act.id, "what": act.what, "room": act.room, "back": act.back} for act in step.acts],
        "phase": step.phase,
        "minutes": step.minutes,
        "disconnects": list(step.down),
        "still-disconnected-after": list(step.still_down),
        "not-managed-meanwhile": list(step.unmanaged),
        "check": list(step.checks),
        "cautions": list(step.cautions),
        "breaks": list(step.broken),
        "out-of-reach-after": list(step.locked),
        "set-at-the-device": list(step.on_site),
    }


def way_files(way: Way) -> Mapping[str, bytes]:
    """way-there.md to take along and way-there.json; none where there is nothing to do."""
    if not way.steps:
        return {}
    data = json.dumps(way_data(way), ensure_ascii=False, indent=1, sort_keys=True) + "\n"
    return {"way-there.md": way_markdown(way).encode(), "way-there.json": data.encode()}


def way_lines(way: Way) -> tuple[str, ...]:
    """The sums alone, for a page that has the changes; empty where there is nothing to do."""
    if not way.steps:
        return tuple(f"cannot tell: {each}" for each in way.doubts)
    return (f"{_steps(len(way.steps))}, {_minutes(way.minutes)} of work", *summary(way))


def way_text(way: Way) -> str:
    """The short form for a terminal: the sums, then the first steps; "" where there is nothing to do."""
    if not way.steps:
        return "".join(f"The way there\n  cannot tell: {each}\n" for each in way.doubts)
    lines = [f"The way there ({_steps(len(way.steps))}, {_minutes(way.minutes)} of work)", *summary(way)]
    phase = ""
    for step in way.steps[:_MOST_STEPS]:
        if step.phase != phase:
            phase = step.phase
            lines.append(_phase(phase))
        lines.append(f"{step.number}. {'; '.join(act.what for act in step.acts)} ({_minutes(step.minutes)})")
        lines += [f"   {each}" for each in _warnings(step)]
    if len(way.steps) > _MOST_STEPS:
        lines.append(f"and {len(way.steps) - _MOST_STEPS} more: `-o DIR` writes them")
    return "\n".join([lines[0], *(f"  {clip(line, 400)}" for line in lines[1:])]) + "\n"


def way_markdown(way: Way, title: str = "") -> str:
    """To take along: what to do where, what it disconnects, what to see before going on, and how to go back."""
    return "\n".join(_markdown(way, title)) + "\n"


def _markdown(way: Way, title: str) -> Iterator[str]:
    yield f"# The way there{inline(': ' + title) if title else ''}"
    yield ""
    if not way.steps:
        told = [f"Cannot tell: {each}." for each in way.doubts] or ["Nothing is to be done."]
        yield from (inline(each) for each in told)
        if way.renamed:
            yield inline(_renamed(way.renamed))
        return
    yield f"{_steps(len(way.steps)).capitalize()}, {_minutes(way.minutes)} of work. Do them in this order, and look at each step's check before the next."
    yield ""
    yield from (f"- {inline(line)}" for line in summary(way))
    yield from _sums("Minutes without service, by device", way.service)
    yield from _sums("Minutes in which a device cannot be managed", way.management)
    yield from _interruptions(way.interruptions)
    phase = ""
    for step in way.steps:
        if step is way.steps[0] or step.phase != phase:
            phase = step.phase
            yield f"\n## Steps{', ' + inline(_phase(phase)) if phase else ''}"
        yield from _step(step)
    yield ""
    yield inline(f"Durations: {SOURCE}. {_CAUTION}")


def _sums(title: str, lost: Iterable[Lost]) -> Iterator[str]:
    rows = list(lost)
    if rows:
        yield f"\n## {title}\n"
        yield "| device | minutes |"
        yield "| --- | ---: |"
        yield from (f"| {inline(each.device)} | {each.minutes} |" for each in rows)


def _interruptions(found: Iterable[Interruption]) -> Iterator[str]:
    rows = list(found)
    if rows:
        yield "\n## Interruptions\n"
        yield "Once begun, each of these is done through; before and after it everything that was in service is."
        yield ""
        yield "| steps | minutes | without service |"
        yield "| --- | ---: | --- |"
        yield from (f"| {_span(each)} | {each.minutes} | {inline(_named(each.devices))} |" for each in rows)


def _span(each: Interruption) -> str:
    return str(each.first) if each.first == each.last else f"{each.first} to {each.last}"


def _step(step: Step) -> Iterator[str]:
    rooms = ", ".join(dict.fromkeys(act.room for act in step.acts if act.room))
    yield f"\n### {step.number}. {inline(rooms or 'Anywhere')}, {_minutes(step.minutes)}\n"
    yield from (f"- [ ] {inline(act.what)}" for act in step.acts)
    yield from (f"- **{inline(each)}**" for each in _warnings(step))
    yield from (f"- Caution. {inline(each)}" for each in step.cautions)
    yield from (f"- Before the next step: {inline(each)}" for each in step.checks)
    backs = dict.fromkeys(act.back for act in reversed(step.acts))
    yield f"- To go back: {inline('; '.join(backs))}"


def _phase(name: str) -> str:
    return f"phase {name}" if name else "before all phases"


def _warnings(step: Step) -> Iterator[str]:
    """What a step costs, and what is wrong with it although no better was found."""
    if step.down:
        after = f"; still without service after it: {_named(step.still_down)}" if step.still_down else ""
        yield f"disconnects {_named(step.down)}{after}"
    if step.unmanaged:
        yield f"{_named(step.unmanaged)} cannot be managed meanwhile"
    if step.on_site:
        yield f"do it at the device itself, by its console or its own jack: {_named(step.on_site)} cannot be reached over the network"
    if step.locked:
        yield f"afterwards {_named(step.locked)} is out of reach and still has settings to be made"
    for each in step.broken:
        yield f"breaks {each}; no order was found that does not"


def summary(way: Way) -> Iterator[str]:
    """The sums in sentences."""
    if way.service:
        yield f"without service: {_minutes(way.service_minutes)} added up over {_named(f'{each.device} ({each.minutes})' for each in way.service)}"
    else:
        yield "nobody loses service"
    if way.management:
        unmanaged = _named(f"{each.device} ({each.minutes})" for each in way.management)
        yield f"cannot be managed meanwhile: {_minutes(way.management_minutes)} added up over {unmanaged}"
    if way.interruptions:
        longest = max(each.minutes for each in way.interruptions)
        many = len(way.interruptions)
        held = len(windows(way, longest))
        fit = f"{held} window{'s' if held > 1 else ''} of that length {'hold' if held > 1 else 'holds'} them all"
        yield f"{many} interruption{'s' if many > 1 else ''}, the longest of {_minutes(longest)}; {fit}"
    yield _least(way)
    on_site = [step for step in way.steps if step.on_site]
    if on_site:
        yield f"on site: {', '.join(f'step {step.number}' for step in on_site)}"
    if way.station:
        yield f"devices are managed from where {way.station} stands"
    if way.uncounted:
        yield f"not counted, for they are without service in the old or the new plan: {_named(way.uncounted)}"
    if way.renamed:
        yield _renamed(way.renamed)
    yield from (f"cannot tell: {each}" for each in way.doubts)


def _least(way: Way) -> str:
    if way.is_proven:
        return "no other order of the steps costs less: proved"
    if not way.least_service:
        return "no order of the steps was found that costs less, which is not proved: there are too many"
    return f"no order of the steps was found that costs less; each costs at least {_minutes(way.least_service)} without service: proved"


def _renamed(count: int) -> str:
    return f"{count} thing{'s' if count > 1 else ''} only renamed, with nothing to do but the labels"


def _named(names: Iterable[str]) -> str:
    found = list(names)
    more = len(found) - _MOST_NAMED
    return ", ".join(found[:_MOST_NAMED]) + (f" and {more} more" if more > 0 else "")


def _steps(count: int) -> str:
    return "1 step" if count == 1 else f"{count} steps"


def _minutes(count: int) -> str:
    return f"{count} min"
