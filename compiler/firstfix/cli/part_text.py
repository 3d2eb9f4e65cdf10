"""One part in full, for people: each figure with its basis, and what is not known said in words."""

from collections.abc import Callable, Iterator
from itertools import groupby

from firstfix.cli.columns import columns
from firstfix.cli.part_groups import group_rows, mains_rows
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.forms import YesNo
from firstfix.parts.part import CABLE_KINDS, MATERIAL_KINDS, JackSpec, Part
from firstfix.units import kilograms, metres, millimetres, number, rate, watts


def part_page(part: Part) -> str:
    rows = [row for row in _rows(part) if row[1]]
    return f"{part.name}  {part.kind}\n{columns(rows, '  ')}"


def _rows(part: Part) -> Iterator[tuple[str, str]]:
    yield "title", part.title
    yield "like", part.like
    yield "note", part.note
    yield from _body(part)
    yield from _electric(part)
    yield from _cable(part)
    yield from group_rows(part)
    yield "jacks", "; ".join(_jacks(part.jacks))
    yield "fits", part.fits
    yield "category", part.category
    yield "in the box", _counted(part.in_box)
    yield "needs", _counted(part.needs)
    yield "pack", f"{part.pack} pieces" if part.pack > 1 else ""
    if isinstance(part.price, Fact):
        per = " a metre" if part.kind == "cable" else ""
        yield "price", f"{number(part.price.typical)}{per} (an invented example; your plan's own replaces it)"


def _body(part: Part) -> Iterator[tuple[str, str]]:
    if part.rack is not None:
        yield "height", f"{part.rack.height}U, {part.rack.width} width" if part.rack.height else ""
        yield "depth", _figure(part.rack.depth, millimetres)
        if "front-depth" in part.said:
            yield "before the rails", _figure(part.rack.front_depth, millimetres)
            yield "for plugs behind", _figure(part.rack.plug_space, millimetres)
    if part.units:
        yield "height", f"{part.units}U"
        yield "usable depth", _figure(part.usable_depth, millimetres)
        yield "rails", f"{part.rails}, thread {part.thread}" if part.thread else part.rails
    yield "weight", _figure_if_apt(part, part.weight, kilograms)


def _electric(part: Part) -> Iterator[tuple[str, str]]:
    yield "draw", _figure_if_apt(part, part.draw, watts)
    if part.takes_poe is not None:
        yield "takes PoE", f"class {_figure(part.takes_poe.poe_class, number)}"
    if part.gives_poe is not None:
        gives = part.gives_poe
        yield "gives PoE", f"up to class {_figure(gives.poe_class, number)} at {len(gives.jacks)} jacks"
        yield "PoE budget", _figure(gives.budget, watts)
        yield "budget counts", gives.counts.why if isinstance(gives.counts, Unknown) else gives.counts
        yield "when fed", ", ".join(f"class {granted}: {watts(given)}" for granted, given in gives.when_fed)
    yield "mains inlet", part.mains.inlet
    if part.mains.outlets:
        yield "mains outlets", f"{part.mains.outlets}, all together {_figure(part.mains.rating, watts)}"
    if part.mains.inlet:
        yield from mains_rows(part)
    if part.bridges is not False:
        yield "bridges", _yes_no(part.bridges)
        yield "spanning tree", _yes_no(part.spanning_tree)
        yield "knows VLANs", _yes_no(part.vlan_aware)
    if part.routes is not False:
        yield "routes", _yes_no(part.routes)


def _cable(part: Part) -> Iterator[tuple[str, str]]:
    if part.cable is None:
        return
    cable = part.cable
    grade = f"category {cable.category}" if cable.medium == "copper" else cable.category.upper()
    yield "medium", f"{cable.medium}, {grade}" if cable.category else cable.medium
    if cable.medium == "copper":
        yield "conductor", f"{cable.conductor}, {'stranded' if cable.is_stranded else 'solid'}"
        yield "gauge", _figure(cable.gauge_awg, lambda value: f"AWG {number(value)}")
        yield "screen", "yes" if cable.is_screened else "no"
    yield "rating", cable.rating
    yield "least bend", _figure(cable.bend, millimetres)
    yield "reaction to fire", cable.fire_class if isinstance(cable.fire_class, str) else ""
    yield "sold in", ", ".join(map(metres, cable.lengths))


def _figure_if_apt(part: Part, figure: Figure, shown: Callable[[float], str]) -> str:
    """Nobody misses the weight of a label or the draw of a cable."""
    is_stuff = part.kind in (*CABLE_KINDS, *MATERIAL_KINDS)
    return "" if is_stuff and isinstance(figure, Unknown) else _figure(figure, shown)


def _figure(figure: Figure, shown: Callable[[float], str]) -> str:
    if isinstance(figure, Unknown):
        return f"not known: {figure.why}"
    return f"{_spread(figure, shown)} ({figure.basis})"


def _spread(figure: Fact, shown: Callable[[float], str]) -> str:
    if figure.low == figure.high:
        return shown(figure.typical)
    return f"{shown(figure.low)} to {shown(figure.high)}, typically {shown(figure.typical)}"


def _yes_no(value: YesNo) -> str:
    if isinstance(value, Unknown):
        return f"not known: {value.why}"
    return "yes" if value else "no"


def _jacks(jacks: tuple[JackSpec, ...]) -> Iterator[str]:
    """Neighbours of one kind together: "1 to 16: rj45, 1 Gb/s"."""
    for spec, group in groupby(jacks, key=lambda jack: jack._replace(name=jack.name.rstrip("0123456789"))):
        names = [jack.name for jack in group]
        named = names[0] if len(names) == 1 else f"{names[0]} to {names[-1]}"
        speed = f", {rate(spec.rate.high)}" if isinstance(spec.rate, Fact) else ""
        side = ", towards the line" if spec.side == "outside" else ""
        module = f", takes a module ({spec.needs_module})" if spec.needs_module else ""
        yield f"{named}: {spec.family}{speed}{module}{side}"


def _counted(things: tuple[tuple[str, int], ...]) -> str:
    return ", ".join(f"{count} {name}" for name, count in things)
