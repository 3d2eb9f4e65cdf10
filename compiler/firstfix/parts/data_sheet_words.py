"""`poe-budget='65 W'`, `ports=8`: what people call facts when they read them off a data sheet, as facts and YAML text.

A fact goes by its own name ('gives-poe.budget'), by its last word where no other fact of the kind ends in it ('budget'), or by one of
the few words that a data sheet has and the plan language hasn't.
"""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from firstfix.finding.collector import Collector
from firstfix.parts.data_sheet import SheetFault
from firstfix.parts.fact_forms import facts_of, parts_of
from firstfix.parts.library_files import library
from firstfix.parts.part import KINDS
from firstfix.parts.yaml_text import flow, scalar
from firstfix.source.nearest import did_you_mean
from firstfix.source.node import clip
from firstfix.source.reader import parse
from firstfix.units import LENGTH, RATE, QuantityFault, parse_quantity

PORTS, PORT_RATE = "ports", "rate"
# What lists call a part, and what else is to be said of it.
_WORDS = ("title", "note")
_LONGEST = 500
_OPENS = ("{", "[")
# As `firstfix parts` prints a figure: "2 W to 8 W, typically 4 W", with its basis in brackets.
_QUANTITY = r"[+-]?[0-9.]{1,15} ?[^\s,()]{0,8}"
_SPREAD = re.compile(
    rf"(?P<least>{_QUANTITY}) to (?P<most>{_QUANTITY})(?:, typically (?P<typical>{_QUANTITY}))?(?: \([a-z ']+\))?"
)


def facts_given(kind: str, pairs: Iterable[str]) -> dict[str, str]:
    """Facts with their values as YAML text, from `FACT=VALUE` pairs. Raises SheetFault with one sentence."""
    found: dict[str, str] = {}
    rest: dict[str, str] = {}
    for pair in pairs:
        word, equals, value = pair.partition("=")
        if not equals or not word or not value.strip():
            raise SheetFault(f"'{clip(pair)}' is no FACT=VALUE such as \"draw='9 W'\"")
        if len(value) > _LONGEST or not value.isprintable():
            raise SheetFault(
                f"the value of '{clip(word)}' is no single line of at most {_LONGEST} characters"
            )
        if word in (PORTS, PORT_RATE):
            rest[word] = value.strip()
            continue
        fact = _fact(kind, _by_value(word, value.strip()))
        if fact in found:
            raise SheetFault(f"'{fact}' is given twice")
        found[fact] = _yaml(word, value.strip())
    if PORT_RATE in rest and PORTS not in rest and "jacks" not in found and _has_one_jack(kind):
        rest[PORTS] = "1"
    return {**found, **_ports(rest, found)}


def _by_value(word: str, value: str) -> str:
    """A height in millimetres is that of a thing's body; one in units is that on rails."""
    is_length = word == "height" and isinstance(parse_quantity(value, LENGTH), float)
    return "size.height" if is_length else word


def _has_one_jack(kind: str) -> bool:
    """Whether most parts of the kind have a single jack, so that nobody needs to say how many."""
    counts = [len(library()[name].jacks) for name in parts_of(kind)]
    return 2 * counts.count(1) > len(counts)


def _fact(kind: str, word: str) -> str:
    known = facts_of(kind)
    for candidate in _meant(kind, word):
        if candidate in known:
            return candidate
    if word in _facts_of_any_kind() or word in _WORDS:
        return word
    ending = [fact for fact in known if fact.rpartition(".")[2] == word]
    if len(ending) == 1:
        return ending[0]
    if ending:
        raise SheetFault(f"'{clip(word)}' could be {' or '.join(map(repr, ending))}; write one of these")
    hint = did_you_mean(word, [*known, *(fact.rpartition(".")[2] for fact in known), PORTS])
    raise SheetFault(f"no {kind} in the library has a fact '{clip(word)}'{hint}")


@lru_cache(maxsize=1)
def _facts_of_any_kind() -> frozenset[str]:
    return frozenset(fact for kind in KINDS for fact in facts_of(kind))


def _meant(kind: str, word: str) -> Iterator[str]:
    """The word itself; `poe-...` of what the part gives or takes, whichever more parts of the kind do."""
    yield word
    if word.startswith("poe-"):
        below = "jacks" if word == "poe-ports" else word.removeprefix("poe-")
        parts = [library()[name] for name in parts_of(kind)]
        gives = sum(part.gives_poe is not None for part in parts)
        takes = sum(part.takes_poe is not None for part in parts)
        tables = ("gives-poe", "takes-poe") if gives >= takes else ("takes-poe", "gives-poe")
        yield from (f"{table}.{below}" for table in tables)


def _yaml(word: str, value: str) -> str:
    """A table or a list as it is, in YAML's flow style; anything else as one scalar."""
    spread = _SPREAD.fullmatch(value)
    if spread is not None:
        typical = f", typical: {scalar(spread['typical'])}" if spread["typical"] else ""
        return f"{{least: {scalar(spread['least'])}{typical}, most: {scalar(spread['most'])}}}"
    if not value.startswith(_OPENS):
        return scalar(value)
    faults = Collector()
    tree = parse(value.encode(), word, faults)
    if tree is None or faults.findings:
        raise SheetFault(f"the value of '{clip(word)}' is not YAML: {faults.findings[0].message}")
    return flow(tree)


def _ports(given: dict[str, str], found: dict[str, str]) -> dict[str, str]:
    """`ports=8` and `rate='1 Gb/s'`: eight modular jacks of that rate."""
    if not given:
        return {}
    if PORTS not in given:
        raise SheetFault("'rate' goes with 'ports', such as \"ports=8 rate='1 Gb/s'\"")
    if "jacks" in found:
        raise SheetFault("'ports' and 'jacks' say the same; give one of them")
    count = given[PORTS]
    if not count.isascii() or not count.isdigit() or not 1 <= int(count) <= 512:
        raise SheetFault(f"'ports' is a whole number from 1 to 512, not '{clip(count)}'")
    rate = given.get(PORT_RATE, "unknown")
    parsed = 0.0 if rate == "unknown" else parse_quantity(rate, RATE)
    if isinstance(parsed, QuantityFault):
        raise SheetFault(
            f"'rate' is {RATE.name}: {parsed.problem}; write '{(parsed.suggestions or (RATE.example,))[0]}'"
        )
    names = "1" if int(count) == 1 else f"1-{int(count)}"
    return {"jacks": f"{{{names}: {{family: rj45, rate: {rate}}}}}"}
