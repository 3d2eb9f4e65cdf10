"""Rules on what a cable is made of.

Takes a build; yields outcomes for each cable part that is used.
"""

from collections.abc import Iterator

from firstfix.build.cabling import Piece
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact
from firstfix.parts.part import Part
from firstfix.physics.copper import conductor_resistance
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.standards.copper import conductor_materials, resistance_limits
from firstfix.units import metres

_MATERIAL = Basis(
    "ANSI/TIA-568.2-D (2018) and ASTM B566",
    "data cable has copper wires; conductivity of clad wire by class 10A",
)


@rule("conductor-material", Level.ERROR, _MATERIAL)
def conductor_material(build: Build) -> Iterator[Outcome]:
    """Whether the wires of data cables are copper.

    Because: aluminium with a skin of copper has half as much resistance again: PoE arrives weak and warms the cable, and the wire
        breaks in the blocks of panels. No data-cable standard admits it, whatever category is printed on it.
    Compares: the material of each cable and cord that is used. The figure is one conductor's resistance over 100 m.
    Skips: fibre.
    Cannot tell: never
    Remedy: the same cable with copper wires.
    """
    used: dict[str, list[Piece]] = {}
    for piece in build.pieces.values():
        used.setdefault(piece.part, []).append(piece)
    for name, pieces in sorted(used.items()):
        part = build.library[name]
        if part.cable is None or part.cable.conductor not in conductor_materials():
            continue
        if conductor_materials()[part.cable.conductor].compliant:
            yield Fine(f"part:{name}")
        else:
            yield _clad(build, part, pieces)


def _clad(build: Build, part: Part, pieces: list[Piece]) -> Outcome:
    assert part.cable is not None
    material = conductor_materials()[part.cable.conductor]
    limit = resistance_limits().conductor_per_100m
    measurement = None
    if isinstance(part.cable.gauge_awg, Fact):
        gauge = part.cable.gauge_awg.high
        copper = conductor_resistance(gauge, 100)
        clad = conductor_resistance(gauge, 100, conductivity=material.conductivity)
        terms = (
            Term(f"copper of {gauge:g} AWG", copper, "IEC 60028"),
            Term("more for being clad aluminium", clad - copper, str(material.basis)),
        )
        what = f"resistance of one wire of '{part.name}' over 100 m"
        measurement = Measurement(what, clad, "at most", limit.value, "Ω", terms)
    total = sum(each.length.figure.high for each in pieces if isinstance(each.length.figure, Fact))
    links = sorted({each.link for each in pieces})
    spans = [build.provenance.span(link, "cable") for link in links]
    count = f"{len(pieces)} pieces" if len(pieces) > 1 else "1 piece"
    return conductor_material.finding(
        f"'{part.name}' has wires of {material.name.replace('-', ' ')}, which no data-cable standard admits; {count} of it, {metres(total)}",
        f"part:{part.name}",
        spans[0],
        related=(*(Label(span, "also made of it") for span in spans[1:]), *_powered(build, pieces)),
        measurement=measurement,
        cures=(Cure(f"take {metres(total)} of {_copper_like(build, part)}"),),
    )  # fmt: skip


def _powered(build: Build, pieces: list[Piece]) -> tuple[Label, ...]:
    """That PoE goes over it, which IEEE 802.3 specifies over cabling of ISO/IEC 11801 only: copper."""
    clad = {each.id for each in pieces}
    fed = sum(not clad.isdisjoint(run.pieces) for run in build.power_runs.values())
    if not fed:
        return ()
    text = (
        f"PoE goes over it to {fed} {'device' if fed == 1 else 'devices'}: IEEE Std 802.3 specifies it over cabling of ISO/IEC 11801,"
        " which has copper wires (from memory); clad wire loses half as much again and warms its bundle"
    )
    return (Label(None, text),)


def _copper_like(build: Build, part: Part) -> str:
    form = part.cable
    for name, other in sorted(build.library.items()):
        found = other.cable
        if found is None or form is None or other.kind != part.kind or found.conductor != "copper":
            continue
        if (found.medium, found.category, found.rating) == (form.medium, form.category, form.rating):
            return f"'{name}' instead"
    return "the same with copper wires"


RULES: tuple[Rule, ...] = (conductor_material,)
