"""Rules on PoE and warmth: how many powered cables lie in one bundle.

Takes a build; yields outcomes for each way whose cables carry more power than is exempt, and for thin cords in rooms.
"""

from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build.model import Build
from firstfix.build.places import Way
from firstfix.finding.model import Basis, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import Fact, Figure, Unknown
from firstfix.rules.rule import Fine, FineMany, Outcome, Rule, rule
from firstfix.standards.cabling import cabling_limits
from firstfix.standards.installation import installation_limits
from firstfix.standards.poe import classes, poe_limits
from firstfix.standards.table import Limit
from firstfix.units import number, watts

_BUNDLES = Basis(
    "TIA TSB-184-A (2017)",
    "15 K at the bundle's centre, in surroundings up to 45 °C; the count of cables that keeps it from memory, with low confidence",
)
# The gauge from which a cord is thin (annex of ANSI/TIA-568.2-D on 28 AWG cords).
_THIN_AWG = 28


class _Warm(NamedTuple):
    """Powered cables that lie together at `place`: their pieces, the limit for one bundle, what is bundled there as said."""

    place: str
    name: str
    what: str
    powered: int
    limit: Limit
    bundle: Figure
    surroundings: Figure | None


@rule("poe-bundle", Level.WARNING, _BUNDLES)
def poe_bundle(build: Build) -> Iterator[Outcome]:
    """How many cables that carry much power may lie in one bundle, so that they warm each other by no more than 15 K.

    Because: in the middle of a tight bundle warmth finds no way out; the cable passes its 60 °C, loses more, and ages.
    Compares: cables in one bundle that carry more than 60 W <= 24, and powered cords of 28 AWG in one bundle <= 12. 'bundle' at a
        way or in 'cabling' says how many cables are tied together at the most; else all of a way may be. The figures hold in
        surroundings up to 45 °C. They are a rule of thumb: the ampacity tables known to us contradict each other.
    Skips: cables that carry no more than 60 W, which the tables exempt.
    Cannot tell: more such cables in a way than one bundle may hold, and 'bundle' is not said; a way warmer than 45 °C.
    Remedy: smaller bundles, apart from each other; a thicker gauge; a second way.
    """
    exempt = 0
    for each in _gathered(build):
        outcome = _judge(build, each)
        if isinstance(outcome, Fine):
            exempt += 1
        else:
            yield outcome
    yield FineMany(exempt + len(build.ways))


def _gathered(build: Build) -> Iterator[_Warm]:
    much = {row.number for row in classes().values() if row.pse_power_w > poe_limits().bundle_power.value}
    thin: dict[str, bool] = {}
    in_way: dict[str, set[str]] = {}
    in_room: dict[str, set[str]] = {}
    for run in build.power_runs.values():
        hot = isinstance(run.assigned, Fact) and run.assigned.typical in much
        for piece_id in run.pieces:
            piece = build.pieces[piece_id]
            if hot:
                for each in piece.route:
                    in_way.setdefault(each, set()).add(piece_id)
            if piece.part not in thin:
                thin[piece.part] = _is_thin(build, piece.part)
            if thin[piece.part] and not piece.route:
                room = build.devices[build.jacks[piece.ends[0]].device].room
                in_room.setdefault(room, set()).add(piece_id)
    limit = installation_limits().bundle_cables
    for way_id, found in sorted(in_way.items()):
        way = build.ways[way_id]
        what = f"cables that carry more than {watts(poe_limits().bundle_power.value)}"
        yield _Warm(way_id, way.name, what, len(found), limit, way.bundle, _warmer(way))
    for room_id, found in sorted(in_room.items()):
        if room_id in build.rooms:
            name = build.rooms[room_id].name
            unsaid = Unknown("the plan does not say")
            yield _Warm(room_id, name, "powered cords of 28 AWG", len(found), cabling_limits().thin_cord_bundle, unsaid, None)  # fmt: skip


def _is_thin(build: Build, part: str) -> bool:
    form = build.library[part].cable
    return form is not None and isinstance(form.gauge_awg, Fact) and form.gauge_awg.high >= _THIN_AWG


def _warmer(way: Way) -> Figure | None:
    """The way's temperature, where it is above what the figures hold for."""
    warm = way.temperature
    return warm if isinstance(warm, Fact) and warm.high > poe_limits().bundle_ambient.value else None


def _judge(build: Build, warm: _Warm) -> Outcome:
    at = build.provenance.span(warm.place)
    together = warm.powered
    if isinstance(warm.bundle, Fact):
        together = min(together, int(warm.bundle.high))
    if together <= 1:
        return Fine(warm.place)  # one cable by itself is no bundle
    if isinstance(warm.surroundings, Fact):
        ambient = poe_limits().bundle_ambient
        return poe_bundle.cannot_tell(
            warm.place, at,
            f"'{warm.name}' has {number(warm.surroundings.high)} °C and {warm.powered} {warm.what};"
            f" how many of them one bundle may hold is known up to {number(ambient.value)} °C",
        )  # fmt: skip
    if together <= warm.limit.value:
        return Fine(warm.place)
    if isinstance(warm.bundle, Unknown):
        return poe_bundle.cannot_tell(
            warm.place, at,
            f"'{warm.name}' holds {warm.powered} {warm.what}, and {number(warm.limit.value)} may lie in one bundle;"
            " how many are tied together there is not said with 'bundle'",
        )  # fmt: skip
    return poe_bundle.finding(
        f"in '{warm.name}' {together} {warm.what} may lie in one bundle, and {number(warm.limit.value)} is the most that keeps it cool",
        warm.place,
        at,
        related=(
            Label(None, f"{number(warm.limit.value)} in one bundle: {warm.limit.basis}; {warm.limit.note}"),
        ),
        measurement=Measurement(
            f"{warm.what} in one bundle", together, "at most", warm.limit.value, "",
            (Term(f"of {warm.powered} in '{warm.name}', as many as 'bundle' allows", together, warm.bundle.basis),),
        ),
        cures=(Cure(f"tie no more than {number(warm.limit.value)} together there, the bundles apart, and say 'bundle: {number(warm.limit.value)}'"),),
    )  # fmt: skip


RULES: tuple[Rule, ...] = (poe_bundle,)
