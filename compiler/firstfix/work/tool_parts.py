"""The tools of all steps as parts that one borrows or buys, each once.

Takes a build and its tasks. What a person, a document or the shopping list brings is no tool here, and a tool that the plan has in
stock is at hand.
"""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.offers.currency import minor
from firstfix.parts.facts import Fact, Unknown
from firstfix.work.model import Task

# The words of work/tools.py and the parts of the library that serve. None: it is no tool, or a thing of the shopping list.
TOOL_PARTS: dict[str, tuple[str, ...]] = {
    "a second person": (),
    "box knife": ("tool-box-knife",),
    "cable and pipe detector": ("tool-detector",),
    "cable cutter": ("tool-cable-cutter",),
    "cable tester with length measurement": ("tool-tester-length",),
    "computer with a network cord": (),
    "continuity meter": ("tool-continuity-meter",),
    "crimping tool for earth lugs": ("tool-lug",),
    "cutter": ("tool-wire-cutter",),
    "draw cord or rods": ("tool-rods",),
    "drill and bits": ("tool-drill",),
    "eye protection": ("tool-eye-protection",),
    "fibre cleaner": ("fibre-cleaner",),
    "fibre splicer and cleaver": ("tool-splicer",),
    "hook-and-loop ties": (),
    "label printer or marker": ("tool-marker",),
    "ladder": ("tool-ladder",),
    "pen": (),
    "punch-down or crimping tool for the part": ("tool-jack",),
    "red light for fibre": ("tool-fibre-light",),
    "saw or hole cutter": ("tool-hole-cutter",),
    "screwdrivers": ("tool-screwdrivers",),
    "sealant or fire stop as local codes ask": (),
    "settings of the device": (),
    "sheath stripper": ("tool-sheath-stripper",),
    "spade": ("tool-spade",),
    "spanners": ("tool-spanners",),
    "spirit level": ("tool-level",),
    "tape measure": ("tool-tape-measure",),
    "vacuum cleaner": ("tool-vacuum-cleaner",),
}
_Instead = dict[str, tuple[str, ...]]
# Plugs are pressed on with another tool than modules.
_FOR_PLUGS: _Instead = {"punch-down or crimping tool for the part": ("tool-plug",)}
# Fibre that comes with its plugs on is not spliced.
_FOR_FIBRE_PLUGS: _Instead = {"fibre splicer and cleaver": ()}
# A way longer than the rods, which are 30 m, is passed with a string.
_FOR_LONG_WAYS: _Instead = {"draw cord or rods": ("tool-rods", "pull-string")}
_RODS = 30.0
_PUT_ON = "plugs-put-on-"


class ToolLine(NamedTuple):
    """One tool. `price` in minor units of buying it; `steps`: how many steps ask for it."""

    part: str
    title: str
    price: int | Unknown
    steps: int


def tool_lines(build: Build, tasks: Iterable[Task]) -> tuple[ToolLine, ...]:
    """By title."""
    tools = _Tools(build)
    steps: dict[str, int] = {}
    for task in tasks:
        for name in dict.fromkeys(tools.of(task)):
            steps[name] = steps.get(name, 0) + 1
    at_hand = {lot.part for lot in build.stock if lot.had}
    lines = (_line(build, name, count) for name, count in steps.items() if name not in at_hand)
    return tuple(sorted(lines, key=lambda line: (line.title.casefold(), line.part)))


def _line(build: Build, name: str, steps: int) -> ToolLine:
    part = build.library.get(name)
    if part is None:
        return ToolLine(name, name, Unknown("the part library does not hold it"), steps)
    price = part.price
    known = minor(price.typical, build.currency) if isinstance(price, Fact) else price
    return ToolLine(name, part.title, known, steps)


class _Tools:
    def __init__(self, build: Build) -> None:
        self._library = build.library
        self._items = {item.id: item.part for item in build.items}
        self._long_ways = {
            way.id for way in build.ways.values() if isinstance(way.length, Fact) and way.length.high > _RODS
        }
        runs = [piece for piece in build.pieces.values() if piece.kind == RUN]
        # What is terminated is an end, what is tested a run.
        self._runs = {piece.id: piece for piece in runs} | {
            end: piece for piece in runs for end in piece.ends
        }

    def of(self, task: Task) -> Iterator[str]:
        instead = self._instead(task)
        for word in task.tools:
            yield from instead.get(word, TOOL_PARTS.get(word, ()))

    def _instead(self, task: Task) -> _Instead:
        """What the task's own material asks for in place of the usual tools."""
        piece = self._runs.get(task.subject)
        passed = {task.subject, *(piece.route if piece is not None else ())}
        if "draw cord or rods" in task.tools and not self._long_ways.isdisjoint(passed):
            return _FOR_LONG_WAYS
        taken = [self._items[each] for each in task.parts]
        form = self._library[piece.part].cable if piece is not None else None
        if form is not None and form.medium == "fibre":
            return _FOR_FIBRE_PLUGS if any(name.startswith(_PUT_ON) for name in taken) else {}
        kinds = {self._library[name].kind for name in taken if name in self._library}
        return _FOR_PLUGS if "plug" in kinds else {}
