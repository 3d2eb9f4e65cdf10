"""A part entry for a plan out of a handful of figures from a data sheet.

What the kind asks for and nobody gave is `unknown`, with what it takes, an example, and the rules that cannot tell without it. The
facts are those of needed_facts and of the reader; the entry is read back before anybody sees it.
"""

from collections.abc import Iterator
from collections.abc import Mapping as Table
from typing import NamedTuple

from firstfix.finding.collector import Collector
from firstfix.finding.model import Finding
from firstfix.parts.fact_forms import fact_form, facts_of, parts_of, pattern_of, written_fact
from firstfix.parts.facts import DATA_SHEET
from firstfix.parts.library_files import library
from firstfix.parts.needed_facts import missing_facts
from firstfix.parts.part import Part
from firstfix.parts.read import read_parts
from firstfix.parts.reading import UNKNOWN
from firstfix.parts.yaml_text import flow, scalar
from firstfix.source.reader import parse

# A fact that is added may ask for others: PoE given asks for a budget. No kind takes more rounds.
_MOST_ROUNDS = 6
_ELSE = "  # What else such a part may say, by examples:"


class SheetFault(Exception):
    """What was given makes no part. The text is one sentence for who gave it."""


class Value(NamedTuple):
    """A value as YAML text, and a comment that goes behind it."""

    text: str
    comment: str = ""


class Asked(NamedTuple):
    """What somebody typed: `like` another part of the library, or "" for one from the ground up; facts with YAML text."""

    kind: str
    name: str
    like: str
    facts: Table[str, str]


def part_entry(asked: Asked, rules_on: Table[str, tuple[str, ...]]) -> str:
    """The entry as text, below `parts:`. `rules_on`: for a fact, the ids of the rules that cannot tell without it.

    Raises SheetFault where a value is not what its fact takes.
    """
    return _Sheet(asked, rules_on).text()


class _Sheet:
    """The entry while it is filled in. `_pattern`: the part of the library that has most of what was given."""

    def __init__(self, asked: Asked, rules_on: Table[str, tuple[str, ...]]) -> None:
        self._asked = asked
        self._rules_on = rules_on
        self._values = {fact: Value(text) for fact, text in asked.facts.items()}
        self._pattern = asked.like or _nearest_part(asked)
        self._fill()

    def text(self) -> str:
        """With a head that says what to do with it."""
        name = self._asked.name
        unknown = sum(value.text == UNKNOWN for value in self._values.values())
        head = (
            f"# A part of your own. {_count(unknown)}",
            f"# Copy it into your plan and write {{part: {name}}} at a device. Its figures count as those of a data sheet.",
            "parts:",
        )
        return "\n".join([*head, *(f"  {line}" for line in self._lines())]) + "\n"

    def _fill(self) -> None:
        """Rounds of reading and adding what is missing; then it must read without a fault."""
        self._name_jacks_with_poe()
        for _ in range(_MOST_ROUNDS):
            part, _faults = self._read()
            missing = () if part is None else tuple(missing_facts(part))
            added = {fact: value for need in missing for fact, value in self._unfilled(need.split(" or "))}
            if not added:
                break
            self._values |= added
        self._name_jacks_with_poe()
        part, faults = self._read()
        if faults:
            raise SheetFault(faults[0].message)

    def _name_jacks_with_poe(self) -> None:
        """PoE is given at some jacks, and taken at jack 1 unless the part has another: as in the pattern that its jacks are from."""
        tables = {fact.partition(".")[0] for fact in self._values}
        for fact in ("gives-poe.jacks", "takes-poe.jacks"):
            is_open = fact.partition(".")[0] in tables and fact not in self._values and not self._asked.like
            if is_open and (fact == "gives-poe.jacks" or self._has(fact)):
                self._values |= self._as_pattern(fact)

    def _unfilled(self, facts: list[str]) -> Iterator[tuple[str, Value]]:
        """Of facts of which one is enough, the one that the pattern has: unknown, or as the pattern has it."""
        fact = next((each for each in facts if self._has(each)), facts[0])
        form = fact_form(self._asked.kind, fact)
        if not form.may_be_unknown:
            yield from self._as_pattern(fact).items()
            return
        rules = ", ".join(self._rules_on.get(fact, ()))
        hints = (
            f"{form.takes}, such as {form.example}" if form.example not in ("", UNKNOWN) else form.takes,
            f"or '{', '.join(each for each in facts if each != fact)}'" if len(facts) > 1 else "",
            f"without it {rules} cannot tell" if rules else "",
        )
        yield fact, Value(UNKNOWN, "; ".join(filter(None, hints)))

    def _has(self, fact: str) -> bool:
        return fact in library()[self._pattern].said if self._pattern else False

    def _as_pattern(self, fact: str) -> dict[str, Value]:
        name = self._pattern if self._has(fact) else pattern_of(self._asked.kind, fact)
        node = written_fact(name, fact)
        return {} if node is None else {fact: Value(flow(node, ("rate",)), f"as '{name}' has; check it")}

    def _read(self) -> tuple[Part | None, tuple[Finding, ...]]:
        faults = Collector()
        tree = parse("\n".join(self._lines()).encode(), self._asked.name, faults)
        found = {} if tree is None else read_parts(tree, library(), faults, DATA_SHEET)
        return found.get(self._asked.name), tuple(faults.findings)

    def _lines(self) -> Iterator[str]:
        """The entry itself; tables in block style with a line for each fact, and what else could be said as comments."""
        yield f"{self._asked.name}:"
        yield f"  like: {scalar(self._asked.like)}" if self._asked.like else f"  kind: {self._asked.kind}"
        if "title" not in self._values:
            yield f"  # title: What lists call it; left out, it is '{self._asked.name.replace('-', ' ')}'"
        yield f"  basis: {DATA_SHEET}"
        by_key: dict[str, list[str]] = {}
        for fact in dict.fromkeys((*facts_of(self._asked.kind), *self._values)):
            by_key.setdefault(fact.partition(".")[0], []).append(fact)
        later: list[str] = []
        for key, facts in by_key.items():
            if not any(fact in self._values for fact in facts):
                later += self._not_said(key)
            elif facts == [key]:
                yield f"  {key}: {self._valued(key)}"
            else:
                yield f"  {key}:"
                yield from (f"    {line}" for fact in facts if fact != key for line in self._below(fact))
        if later:
            like = self._asked.like
            yield f"  # What it has from '{like}', typical of its kind:" if like else _ELSE
            yield from later

    def _valued(self, fact: str) -> str:
        value = self._values[fact]
        return f"{value.text}  # {value.comment}" if value.comment else value.text

    def _below(self, fact: str) -> Iterator[str]:
        """A fact in its table; a comment where nobody needs it, or where the part that this one is like says it."""
        below = fact.partition(".")[2]
        if fact in self._values:
            yield f"{below}: {self._valued(fact)}"
        elif self._asked.like:
            node = written_fact(self._asked.like, fact)
            yield from () if node is None else (f"# {below}: {flow(node)}",)
        else:
            form = fact_form(self._asked.kind, fact)
            yield f"# {below}: {form.example}" + (f"  # {form.takes}" if form.takes else "")

    def _not_said(self, key: str) -> Iterator[str]:
        name = self._asked.like or pattern_of(self._asked.kind, key)
        node = written_fact(name, key)
        if node is not None:
            yield f"  # {key}: {flow(node)}"


def _nearest_part(asked: Asked) -> str:
    """The part of the kind that says most of the facts that were given; the first of several."""
    known = library()
    return max(parts_of(asked.kind), key=lambda name: len(known[name].said & asked.facts.keys()), default="")


def _count(unknown: int) -> str:
    if not unknown:
        return "Nothing that its kind asks for is unknown."
    facts = "1 fact is" if unknown == 1 else f"{unknown} facts are"
    return f"{facts} unknown: replace what your data sheet says."
