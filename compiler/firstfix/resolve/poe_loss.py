"""What a run's cable puts in the way of its power: ohms, from what they are at least to what they may be.

Takes laid pieces, the ways they lie in and the library; gives a Resistance for each run, worked out once for each shape of run.
"""

from typing import NamedTuple

from firstfix.build.cabling import Piece
from firstfix.build.places import Way
from firstfix.finding.model import Term
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.parts.part import Library
from firstfix.physics.constants import REFERENCE_TEMPERATURE_C
from firstfix.physics.copper import Stretch, conductor_resistance, powered_loop
from firstfix.physics.range import OutOfRange
from firstfix.standards.copper import conductor_materials, resistance_limits
from firstfix.standards.poe import poe_limits
from firstfix.units import number


class Resistance(NamedTuple):
    """Loop resistance over the powered pairs [ohm]: `low` with cool cable where nobody says how warm it is, `high` with the
    warmest that a data cable is made for. `terms` make up `low`; `doubts` are the facts that set the two apart."""

    loop: Figure
    terms: tuple[Term, ...] = ()
    doubts: tuple[str, ...] = ()


NO_CLASS = Resistance(Unknown("the class that is granted is not known"))


class _Laid(NamedTuple):
    """One piece as cool and as warm as it may be, its source to show, and what is not known of it."""

    cool: Stretch
    warm: Stretch
    source: str
    doubts: tuple[str, ...]


class Resistances:
    """Big sites repeat the same few shapes of run; each is worked out once."""

    def __init__(self, pieces: dict[str, Piece], ways: dict[str, Way], library: Library) -> None:
        self._pieces = pieces
        self._ways = ways
        self._library = library
        self._known: dict[object, Resistance] = {}

    def of(self, piece_ids: tuple[str, ...], connections: int, pairs: int) -> Resistance:
        pieces = [self._pieces[each] for each in piece_ids]
        shape = (
            tuple([(each.kind, each.part, each.length.figure, each.route) for each in pieces]),
            connections,
            pairs,
        )
        found = self._known.get(shape)
        if found is None:
            found = self._known[shape] = self._work_out(pieces, connections, pairs)
        return found

    def _work_out(self, pieces: list[Piece], connections: int, pairs: int) -> Resistance:
        laid = [self._laid(piece, pairs) for piece in pieces]
        known = [each for each in laid if isinstance(each, _Laid)]
        missing = tuple(dict.fromkeys(each for each in laid if isinstance(each, str)))
        if missing:
            return Resistance(Unknown("; ".join(missing)), (), missing)
        powered = 2 if pairs == 2 else 4
        try:
            cool = powered_loop([each.cool for each in known], connections, powered)  # type: ignore[arg-type]
            warm = powered_loop([each.warm for each in known], connections, powered)  # type: ignore[arg-type]
        except OutOfRange as fault:
            return Resistance(Unknown(str(fault)), (), (str(fault),))
        shown = [each.source for each in known] + [term.source for term in cool.terms[len(known) :]]
        terms = tuple(
            Term(term.what, term.value, source) for term, source in zip(cool.terms, shown, strict=True)
        )
        doubts = tuple(dict.fromkeys(doubt for each in known for doubt in each.doubts))
        return Resistance(Fact(cool.ohms, cool.ohms, warm.ohms, "reckoned from its cables"), terms, doubts)

    def _laid(self, piece: Piece, pairs: int) -> _Laid | str:
        form = self._library[piece.part].cable
        length = piece.length.figure
        if isinstance(length, Unknown):
            return length.why
        if form is None or isinstance(form.gauge_awg, Unknown):
            return f"the part '{piece.part}' does not say its gauge"
        cool, warm, doubts = self._warmth(piece)
        conductivity = conductor_materials()[form.conductor].conductivity
        if form.is_stranded:
            conductivity /= resistance_limits().stranding.value
        what = f"{piece.kind} of '{piece.part}'"
        gauge = form.gauge_awg
        shared = "" if pairs == 2 else ", half of it over four pairs"
        wire = conductor_resistance(gauge.low, 100, cool, conductivity)
        material = "" if form.conductor == "copper" else f" {form.conductor.replace('-', ' ')}"
        return _Laid(
            Stretch(what, length.low, gauge.low, cool, conductivity),
            Stretch(what, length.high, gauge.high, warm, conductivity),
            f"{number(length.low)} m of {gauge.low:g} AWG {'stranded' if form.is_stranded else 'solid'}{material} at {cool:g} °C,"
            f" a wire of it {wire:.4g} Ω per 100 m{shared}; IEC 60028",
            doubts,
        )

    def _warmth(self, piece: Piece) -> tuple[float, float, tuple[str, ...]]:
        """Cable temperature at least and at the most [°C], and the ways of which it is not known.

        Cords in a room count at 20 °C, as the de-rating tables of ANSI/TIA-568 and ISO/IEC 11801 take them (from memory).
        """
        known = [REFERENCE_TEMPERATURE_C]
        doubts = []
        for each in piece.route:
            temperature = self._ways[each].temperature
            if isinstance(temperature, Fact):
                known.append(temperature.high)
            else:
                doubts.append(f"the temperature of the way '{self._ways[each].name}'")
        least = max(known)
        return least, max(least, poe_limits().cable_hottest.value) if doubts else least, tuple(doubts)
