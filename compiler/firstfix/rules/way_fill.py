"""Rules on pipes: how full cables make the bore of a way, and whether the plugs of ready-made cords pass it."""

import math
from collections import defaultdict
from collections.abc import Iterator

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.graphs.way_fill import diameters, filled, in_pipes
from firstfix.parts.facts import Fact, Unknown
from firstfix.physics.pathway import fill_fraction, fill_limit, narrowest_bore_mm, plug_diagonal_mm
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, FineMany, Outcome, rule
from firstfix.rules.typical import rests_on
from firstfix.rules.wording import listed
from firstfix.standards.installation import plug_sizes
from firstfix.units import number

_FILL = Basis("NFPA 70 (2017)", "Chapter 9 Table 1, which ANSI/TIA-569 takes over")
_PLUGS = Basis("IEC 60603-7, INF-8074, IEC 61754", "dimensions of plugs, from memory")


@rule("way-fill", Level.WARNING, _FILL)
def way_fill(build: Build) -> Iterator[Outcome]:
    """The cables in a pipe take no more of its bore than the table allows, and fit into it at all.

    Because: cables that are pulled into a pipe that is too full are stretched or stripped, and get stuck half way.
    Compares: the sum of d^2 of the cables / D^2 of the bore <= 53 % for one cable, 31 % for two, 40 % for three and more, a warning;
        the two thickest side by side, and the root of the sum of d^2 [mm] <= D, an error: they cannot lie there at all.
    Skips: ways that are no pipe and say no bore. What lies in the pipe already must be in the plan to be counted.
    Cannot tell: a conduit or buried duct without `bore`, a cable without diameter, unless the others fill it already.
    Remedy: a larger pipe, a second one, a thinner cable, or one fibre for several runs.
    """
    pipes = in_pipes(build)
    yield FineMany(len(build.ways) - len(pipes))
    for way_id, pieces in pipes.items():
        yield _fill(build, build.ways[way_id], pieces) if pieces else Fine(way_id)


def _fill(build: Build, way: Way, pieces: list[Piece]) -> Outcome:
    each, at = way_fill, build.provenance.span(way.id)
    found = filled(build, way, pieces)
    known, unknown = found.known, found.unknown
    if isinstance(way.bore, Unknown):
        lie = "lies" if len(pieces) == 1 else "lie"
        missing = (
            f"the `bore` of the way '{way.name}', in which {_counted(pieces)} {lie}{_would_do(known, pieces)}"
        )
        return each.cannot_tell(way.id, at, missing)
    missing = f"the diameter of {listed(unknown)}" if unknown else ""
    bore = way.bore.low * 1000
    related = (
        *rests_on(way.bore, *known.values()),
        *((Label(None, f"not known: {missing}"),) if missing else ()),
    )
    terms = _terms(known, pieces, bore)
    if (least := found.least) is not None and not at_most(least, bore):
        measurement = Measurement(
            "least bore", least, "at most", bore, "mm", (_least_term(known, pieces, least),), way.bore.basis
        )
        message = f"{_counted(pieces)} in '{way.name}' need a bore of {number(least, 1)} mm at the very least, and it has {number(bore, 1)} mm"
        return each.finding(message, way.id, at, related, measurement, level=Level.ERROR)
    fill, limit = found.fill, found.limit
    if fill is not None and limit is not None and not at_most(fill, limit):
        total = math.fsum(term.value for term in terms)
        measurement = Measurement("fill", total, "at most", limit * 100, "%", terms)
        message = f"{_counted(pieces)} fill {number(fill * 100, 1)} % of the bore of '{way.name}', at most {number(limit * 100)} %"
        return each.finding(message, way.id, at, related, measurement)
    return each.cannot_tell(way.id, at, missing) if missing else Fine(way.id)


def _would_do(known: dict[str, Fact], pieces: list[Piece]) -> str:
    """From which bore on they are no fuller than the table allows, in whole millimetres; nothing where a diameter is missing."""
    thick = tuple(known[piece.part].high * 1000 for piece in pieces if piece.part in known)
    if len(thick) < len(pieces):
        return ""
    bore = math.sqrt(math.fsum(each * each for each in thick) / fill_limit(len(pieces)))
    return f": {math.ceil(max(bore, narrowest_bore_mm(thick)))} mm and more would do"


def _counted(pieces: list[Piece]) -> str:
    return "1 cable" if len(pieces) == 1 else f"{len(pieces)} cables"


def _least_term(known: dict[str, Fact], pieces: list[Piece], least: float) -> Term:
    """Why no bore below `least` can do: the one cable, the two thickest beside each other, or all their areas."""
    thick = sorted((known[each.part].high * 1000 for each in pieces if each.part in known), reverse=True)
    listed_ = "; ".join(
        sorted(f"'{name}' {number(fact.high * 1000, 2)} mm, {fact.basis}" for name, fact in known.items())
    )
    if len(thick) == 1:
        return Term("the cable itself", least, listed_)
    beside = sum(thick[:2])
    how = (
        "the two thickest beside each other"
        if least == beside
        else f"√ of the sum of d², for {len(thick)} cables"
    )
    return Term(how, least, listed_)


def _terms(known: dict[str, Fact], pieces: list[Piece], bore: float) -> tuple[Term, ...]:
    """By part, in percent: n d^2 / D^2."""
    counts: defaultdict[str, int] = defaultdict(int)
    for piece in pieces:
        counts[piece.part] += 1
    return tuple(
        Term(
            f"{counts[name]} of '{name}', {number(fact.high * 1000, 2)} mm in {number(bore, 1)} mm",
            round(100 * counts[name] * fill_fraction((fact.high * 1000,), bore), 3),
            fact.basis,
        )
        for name, fact in known.items()
    )


@rule("plug-in-way", Level.ERROR, _PLUGS)
def plug_in_way(build: Build) -> Iterator[Outcome]:
    """A cord that is pulled through a pipe with its plugs on passes it.

    Because: a plug is wider than its cord, and two cords that fit are still not to be pulled past each other's plugs.
    Compares: the diagonal of the plug [mm] <= the bore, else an error; with the thickest other cable beside it, else a warning.
    Skips: cable without plugs; ways that say no bore.
    Cannot tell: a plug whose size the tables do not know, another cable beside it without diameter.
    Remedy: pull cable and put its plugs on afterwards, or a larger pipe; pull cords first.
    """
    for way_id, pieces in in_pipes(build).items():
        way = build.ways[way_id]
        if not isinstance(way.bore, Fact):
            continue
        for name in sorted({piece.part for piece in pieces if build.library[piece.part].kind == "cord"}):
            yield _passes(
                build, way, way.bore, name, [piece for piece in pieces if piece.part == name], pieces
            )


def _passes(build: Build, way: Way, bore: Fact, name: str, own: list[Piece], pieces: list[Piece]) -> Outcome:
    each, at = plug_in_way, build.provenance.span(own[0].link) or build.provenance.span(way.id)
    form = build.library[name].cable
    family = "" if form is None else form.family or ("rj45" if form.medium == "copper" else "")
    if family not in plug_sizes():
        return each.cannot_tell(own[0].id, at, f"the size of the plugs of '{name}'")
    size = plug_sizes()[family]
    plug, limit = plug_diagonal_mm(size.width_mm, size.height_mm), bore.low * 1000
    others = [piece for piece in pieces if piece.id != own[0].id]
    known, unknown = diameters(build, others)
    thickest = max(known.items(), key=lambda each: each[1].high, default=None)
    beside = 0.0 if thickest is None else thickest[1].high * 1000
    shape = f"{number(size.width_mm, 1)} by {number(size.height_mm, 1)} mm"
    if at_most(plug + beside, limit):
        return (
            each.cannot_tell(own[0].id, at, f"the diameter of {listed(unknown)}")
            if unknown
            else Fine(own[0].id)
        )
    alone = not at_most(plug, limit)
    terms = (
        Term(f"diagonal of the plug, {shape}", plug, str(size.basis)),
        Term("thickest cable beside it", beside, "the diameter of its part"),
    )
    measurement = Measurement("bore needed", plug if alone else plug + beside, "at most", limit, "mm", terms[: 1 if alone else 2], bore.basis)  # fmt: skip
    past = "" if alone else f" past a cable of {number(beside, 1)} mm"
    message = f"the plug of '{name}', {shape}, does not pass '{way.name}' of {number(limit, 1)} mm{past}"
    cure = Cure("pull cable, and put its plugs on afterwards")
    level = Level.ERROR if alone else Level.WARNING
    return each.finding(message, own[0].id, at, rests_on(bore), measurement, (cure,), level, size.basis)
