"""The rule on parts that can't be had: none of them is on the list of what to buy."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.hardware import TO_BUY, Item
from firstfix.build.model import Build
from firstfix.build.reasons import PLAN
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.parts.part import Part
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.wording import listed
from firstfix.rules.would_do import nearly_do, would_do
from firstfix.source.node import Mapping, Scalar, Sequence, clip
from firstfix.span import Span
from firstfix.units import metres

_MOST_PLACES, _MOST_LACKS = 3, 2


@rule("part-sold-out", Level.ERROR, COMMON_PRACTICE)
def part_sold_out(build: Build) -> Iterator[Outcome]:
    """Nothing is to be bought of a part that is sold out.

    Because: the network can't be built from a thing that nobody can get, and everything that hangs on it waits.
    Compares: the parts under `sold-out` in `purchase` with what is to be bought. What is owned, in stock or comes in a box is had already.
    Remedy: another part that does as much, or one that you have, under `stock` or with `owned: true`.
    """
    for name in build.purchase.sold_out:
        part = build.library.get(name)
        if part is None:
            continue
        wanted = [item for item in build.items if item.part == name and item.standing == TO_BUY]
        if not wanted:
            yield Fine(f"part:{name}")
            continue
        others = would_do(build, part)
        which = listed((each.name for each in others), len(others)) if others else ""
        cure = (
            f"take another part: {which} would do where it is used, by the facts of the library"
            if others
            else _nearest(build, part)
        )
        yield part_sold_out.finding(
            f"'{clip(name)}' is sold out, and {_amount(wanted)} of it would have to be bought{_whom(wanted)}",
            f"part:{name}",
            _place(build, name),
            related=tuple(_users(build, wanted)),
            cures=(Cure(cure),),
        )


def _nearest(build: Build, part: Part) -> str:
    near = nearly_do(build, part)
    if not near:
        return "nothing else in the library is of its kind; see what `firstfix parts` lists"
    shown = "; ".join(f"'{each.part.name}' {_and(each.lacks)}" for each in near)
    return f"nothing in the library does all of it; nearest: {shown}"


def _and(lacks: tuple[str, ...]) -> str:
    told = (*lacks[:_MOST_LACKS], "lacks more") if len(lacks) > _MOST_LACKS else lacks
    return " and ".join((", ".join(told[:-1]), told[-1])) if len(told) > 1 else told[0]


def _amount(wanted: list[Item]) -> str:
    length = sum(item.length * item.count for item in wanted)
    return metres(length) if length else str(sum(item.count for item in wanted))


def _whom(wanted: list[Item]) -> str:
    names = sorted({ids.path(item.for_id) for item in wanted if item.for_id}, key=ids.natural)
    return f", for {listed(names, 4)}" if names else ""


def _users(build: Build, wanted: list[Item]) -> Iterator[Label]:
    spans = {build.provenance.span(item.for_id, "part") for item in wanted}
    known = sorted(each for each in spans if each is not None)
    yield from (Label(each, "needs it") for each in known[:_MOST_PLACES])


def _place(build: Build, name: str) -> Span | None:
    """Of its name in the list."""
    wish = build.provenance.node(PLAN)
    for key in ("purchase", "sold-out"):
        wish = wish.value(key) if isinstance(wish, Mapping) else None
    items = wish.items if isinstance(wish, Sequence) else [wish]
    return next((each.span for each in items if isinstance(each, Scalar) and each.text == name), None)


RULES: tuple[Rule, ...] = (part_sold_out,)
