"""One piece of cable or cord for each hop: which part, along which ways, how long and by which terms."""

from collections import defaultdict
from collections.abc import Collection
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import RUN, Length, Link, Piece
from firstfix.build.hardware import Device
from firstfix.build.places import Way
from firstfix.build.reasons import LOST_WAY, NO_ROOM
from firstfix.finding.model import Term
from firstfix.parts.facts import AUTHOR, Fact
from firstfix.parts.part import (
    CAGE_FAMILIES,
    FIBRE_FAMILIES,
    CableForm,
    Library,
)
from firstfix.plan.model import ALL, CablingSpec, LinkSpec
from firstfix.resolve.chains import Chain
from firstfix.resolve.ends import EndKey
from firstfix.resolve.equipment import Equipment
from firstfix.resolve.in_phases import link_phase
from firstfix.resolve.jacks import JackField
from firstfix.resolve.kept import Kept
from firstfix.resolve.notes import Notes, named_span, value_span
from firstfix.resolve.phases import PhaseOrder
from firstfix.resolve.piece_ends import copper_module
from firstfix.resolve.places import Places
from firstfix.resolve.routes import Router
from firstfix.resolve.settle import find_part
from firstfix.span import Span
from firstfix.standards.cabinet import cabinet_dimensions

_EXPOSURES = ("indoor", "outdoor", "buried")
_SLOW_TWINAX = "direct-attach-sfp"

# What nearly every piece joins; nothing else is asked of it.
_BOTH_COPPER = ("rj45", "rj45")


class Wiring(NamedTuple):
    links: dict[str, Link]
    pieces: dict[str, Piece]


def resolve_pieces(
    chains: tuple[Chain, ...],
    ends: dict[EndKey, str],
    field: JackField,
    places: Places,
    equipment: Equipment,
    cabling: CablingSpec,
    library: Library,
    phases: PhaseOrder,
    kept: Kept,
    notes: Notes,
) -> Wiring:
    maker = _PieceMaker(field, places, equipment, cabling, library, kept, notes)
    links: dict[str, Link] = {}
    pieces: dict[str, Piece] = {}
    for chain in chains:
        spec = chain.spec
        shown = " – ".join([hop.shown for hop in spec.hops])
        links[chain.id] = Link(
            chain.id,
            shown,
            tuple([each.id for each in chain.devices]),
            spec.lanes,
            spec.spare_for,
            link_phase(chain, phases),
            spec.rate,
        )
        along = maker.along(chain) if spec.along else ()
        if spec.length is not None and fixed_hop(chain.kinds) < 0:
            message = f"'length' is that of a link's one installed run, or of its one cord; this link has {_counted(chain)}"
            notes.gap("length-unplaced", chain.id, message, value_span(spec.written, "length"))
        for index, kind in enumerate(chain.kinds):
            for lane in range(1, spec.lanes + 1):
                near = ends.get((chain.id, index, 1, lane))
                far = ends.get((chain.id, index + 1, 0, lane))
                if near is None or far is None:
                    continue
                piece = maker.piece(chain, index, lane, kind, (near, far), along)
                if piece is not None:
                    pieces[piece.id] = piece
    maker.report_ways()
    return Wiring(links, pieces)


def without_pieces(chains: tuple[Chain, ...], pieces: Collection[str]) -> frozenset[str]:
    """Devices on chains of which a hop has no cable or cord: that has its finding, and nothing more can be concluded about them."""
    if len(pieces) == sum([len(chain.kinds) * chain.spec.lanes for chain in chains]):
        return frozenset()
    return frozenset(
        device.id
        for chain in chains
        if any(
            ids.piece(chain.id, hop + 1, lane + 1) not in pieces
            for hop in range(len(chain.kinds))
            for lane in range(chain.spec.lanes)
        )
        for device in chain.devices
    )


def fixed_hop(kinds: tuple[str, ...]) -> int:
    """Which hop a link's `length` is of: its one installed run, else its one cord; -1 where that is not one hop."""
    if kinds.count(RUN) == 1:
        return kinds.index(RUN)
    return 0 if len(kinds) == 1 else -1


def _counted(chain: Chain) -> str:
    runs = chain.kinds.count(RUN)
    return f"{runs} installed runs" if runs else f"{len(chain.kinds)} cords"


class _PieceMaker:
    def __init__(
        self,
        field: JackField,
        places: Places,
        equipment: Equipment,
        cabling: CablingSpec,
        library: Library,
        kept: Kept,
        notes: Notes,
    ) -> None:
        self._jacks = field.jacks
        self._places = places
        self._cabling = cabling
        self._library = library
        self._notes = notes
        self._router = Router(places, kept)
        self._is_cut_off = False  # routes are no longer looked for, and that has been said
        self._units = {mount.item: (mount.low + mount.high) / 2 for mount in equipment.mounts if mount.item}
        self._worst_exposure: dict[tuple[tuple[str, ...], str, str], int] = {}
        self._allowance = "the plan's cabling" if cabling.written else "common practice, no source"
        slack = cabling.slack
        self._slack = Term(f"slack of {slack:g} m at each end", 2 * slack, self._allowance)
        self._dressing = Term("dressing at both ends", 2 * cabling.dressing, self._allowance)
        self._sold: dict[tuple[str, float], float] = {}
        self._no_way: defaultdict[str, set[tuple[Span, str]]] = defaultdict(set)
        self._terms_at: dict[str, list[Term]] = {}
        self._terms_of_way: dict[str, Term] = {}
        self._forms: dict[tuple[str, str], CableForm | None] = {}
        geometry = cabinet_dimensions()
        self._unit_m = geometry.rack_unit.value / 1000
        self._across = Term("across the front", geometry.panel_width.value / 1000, "IEC 60297-3-100")

    def along(self, chain: Chain) -> tuple[str, ...]:
        found: list[str] = []
        for name in chain.spec.along:
            way_id = ids.way(name)
            if way_id in self._places.ways:
                found.append(way_id)
            elif self._notes.provenance.span(way_id) is None:
                known = (way.name for way in self._places.ways.values())
                at = named_span(chain.spec.written, "along", name)
                self._notes.unknown_name(chain.id, name, "way", known, at)
        return tuple(found)

    def piece(
        self, chain: Chain, index: int, lane: int, kind: str, ends: tuple[str, str], along: tuple[str, ...]
    ) -> Piece | None:
        near, far = chain.devices[index], chain.devices[index + 1]
        piece_id = ids.piece(chain.id, index + 1, lane)
        families = (self._jacks[ends[0]].family, self._jacks[ends[1]].family)
        owned = chain.spec.owned
        is_owned = owned != "" and (owned == ALL or kind == RUN)
        if kind == RUN:
            route, problem = self._route(chain, near, far, along)
            part = self._cable(chain.spec, families, route, near, far)
        else:
            route, problem = (), ""
            part = self._cord(chain.spec, families, near, far)
        if chain.spec.length is not None and index == fixed_hop(chain.kinds):
            length = self._as_written(chain, chain.spec.length, kind, part, is_owned)
            if kind != RUN and near.cabinet and near.cabinet == far.cabinet:
                length = length._replace(needed=self._within_cabinet(near, far))
        elif kind == RUN:
            length = self._run_length(near, far, route, problem)
        else:
            length = self._cord_length(near, far, part, chain)
        if self._form(part, chain) is None:
            return None
        return Piece(piece_id, chain.id, kind, part, ends, route, length, "", is_owned)

    def _as_written(self, chain: Chain, metres: float, kind: str, part: str, is_owned: bool) -> Length:
        """The author's own figure takes the place of what would be reckoned. A cord that is bought must be sold so long."""
        terms = (Term("length that the plan states", metres, AUTHOR),)
        if kind == RUN:
            return Length(terms, (), 0.0)
        sold = self._lengths_sold(part)
        if is_owned or not sold or any(abs(each - metres) < 1e-6 for each in sold):
            return Length(terms, (), metres)
        at = value_span(chain.spec.written, "length")
        message = f"no '{part}' is sold in a length of {metres:g} m; there are {', '.join(f'{each:g}' for each in sold)} m"
        self._notes.gap("cord-length", chain.id, message, at)
        return Length(terms, (), 0.0)

    def _route(
        self, chain: Chain, near: Device, far: Device, along: tuple[str, ...]
    ) -> tuple[tuple[str, ...], str]:
        if not near.room or not far.room:
            return (), NO_ROOM
        # Ways asked for belong to the hop that leaves a room; a chain rarely has more than one such hop.
        route, problem, too_much = self._router.route(
            near.room, far.room, along if near.room != far.room else ()
        )
        if too_much:
            if not self._is_cut_off:
                self._is_cut_off = True
                self._notes.gap("plan-size", chain.id, problem, chain.spec.written.node.span)
            return route, problem
        if problem and self._may_be_lost(near, far):
            return route, LOST_WAY
        if problem:
            self._no_way[problem].add((chain.spec.written.node.span, chain.id))
        return route, problem

    def report_ways(self) -> None:
        """One gap for each two rooms that nothing joins, at the first run that needs it."""
        for problem, runs in sorted(self._no_way.items()):
            at, chain = min(runs)
            needing = f"; {len(runs)} runs need one" if len(runs) > 1 else ""
            self._notes.gap("no-way", chain, problem + needing, at)

    def _may_be_lost(self, near: Device, far: Device) -> bool:
        """Whether a way that has a finding of its own may lead there."""
        rooms = {self._places.rooms[each.room].name for each in (near, far)}
        return self._notes.has_lost_way or not rooms.isdisjoint(self._notes.in_doubt)

    def _cable(
        self, spec: LinkSpec, families: tuple[str, str], route: tuple[str, ...], near: Device, far: Device
    ) -> str:
        if spec.cable:
            return spec.cable
        worst = self._exposure(route, near.room, far.room)
        if self._is_for_light(families):
            return self._fibre(worst)
        return (self._cabling.indoor, self._cabling.outdoor, self._cabling.buried)[worst]

    def _is_for_light(self, families: tuple[str, str]) -> bool:
        """A cage takes light, but for one that is to reach a copper jack and for which there is a copper module."""
        if families == _BOTH_COPPER:
            return False
        lit = [each for each in families if each in CAGE_FAMILIES or each in FIBRE_FAMILIES]
        return bool(lit) and not ("rj45" in families and copper_module(self._library, lit[0]))

    def _fibre(self, exposure: int) -> str:
        """The cabling's fibre, in the jacket that the way asks for where the library has it."""
        stem = self._cabling.fibre.removesuffix("-indoor")
        fitting = f"{stem}-{_EXPOSURES[exposure]}"
        return fitting if fitting in self._library else self._cabling.fibre

    def _exposure(self, route: tuple[str, ...], near: str, far: str) -> int:
        key = (route, near, far)
        worst = self._worst_exposure.get(key)
        if worst is None:
            worst = self._worst_exposure[key] = self._worst_of(route, near, far)
        return worst

    def _worst_of(self, route: tuple[str, ...], near: str, far: str) -> int:
        exposures = [_EXPOSURES.index(self._places.ways[each].exposure) for each in route]
        rooms = self._places.rooms
        if any(room in rooms and rooms[room].is_outdoors for room in (near, far)):
            exposures.append(1)
        return max(exposures, default=0)

    def _cord(self, spec: LinkSpec, families: tuple[str, str], near: Device, far: Device) -> str:
        if spec.cord:
            return spec.cord
        if families == _BOTH_COPPER:
            return self._copper_cord(near, far)
        if families[0] in CAGE_FAMILIES and families[1] in CAGE_FAMILIES:
            return self._direct_attach(families)
        if self._is_for_light(families):
            fibre = self._library.get(self._cabling.fibre)
            grade = fibre.cable.category if fibre is not None and fibre.cable is not None else ""
            plug = "sc" if set(families) == {"sc"} and f"cord-sc-{grade}" in self._library else "lc"
            return f"cord-{plug}-{grade}"
        return self._copper_cord(near, far)

    def _copper_cord(self, near: Device, far: Device) -> str:
        """The cabling's cord; in the open air its kind for outdoors, where the library has it. A cabinet keeps rain off."""
        in_cabinet = near.cabinet and near.cabinet == far.cabinet
        if not in_cabinet and self._exposure((), near.room, far.room):
            for_outdoors = f"{self._cabling.cords}-{_EXPOSURES[1]}"
            if for_outdoors in self._library:
                return for_outdoors
        return self._cabling.cords

    def _direct_attach(self, families: tuple[str, str]) -> str:
        """The cabling's twinax cord; the library's for 1 Gb/s where both cages are for SFP and the cabling's is for SFP+ alone."""
        chosen = self._library.get(self._cabling.direct_attach)
        only_fast = chosen is not None and chosen.cable is not None and chosen.cable.family == "sfp-plus"
        if set(families) == {"sfp"} and only_fast and _SLOW_TWINAX in self._library:
            return _SLOW_TWINAX
        return self._cabling.direct_attach

    def _form(self, part: str, chain: Chain) -> CableForm | None:
        """The part's cable form; a part that is none, or is unknown, is reported once."""
        written = chain.spec.written
        key = "cable" if part == chain.spec.cable else "cord" if part == chain.spec.cord else ""
        if (part, key) in self._forms:
            return self._forms[part, key]
        at = value_span(written, key) if key else value_span(self._cabling.written, "") or written.span
        found = find_part(part, chain.id, self._library, self._notes, at)
        if found is not None and found.cable is None:
            self._notes.gap(
                "part-kind", chain.id, f"the part '{part}' is a {found.kind}, not a cable or cord", at
            )
        self._forms[part, key] = None if found is None else found.cable
        return self._forms[part, key]

    def _run_length(self, near: Device, far: Device, route: tuple[str, ...], problem: str) -> Length:
        terms: list[Term] = []
        missing: list[str] = [problem] if problem else []
        for way_id in route:
            way = self._places.ways[way_id]
            if isinstance(way.length, Fact):
                terms.append(self._way_term(way, way.length))
            else:
                missing.append(way.length.why)
        for device in (near, far):
            terms.extend(self._end_terms(device))
        terms.append(self._slack)
        return Length(tuple(terms), tuple(dict.fromkeys(missing)), 0.0)

    def _way_term(self, way: Way, length: Fact) -> Term:
        known = self._terms_of_way.get(way.id)
        if known is None:
            known = Term(f"way '{way.name}'", length.typical, length.basis)
            self._terms_of_way[way.id] = known
        return known

    def _end_terms(self, device: Device) -> list[Term]:
        """From where ways enter the room to the device, and for one in a cabinet up to its unit, from the cabinet's floor."""
        known = self._terms_at.get(device.id)
        if known is not None:
            return known
        terms: list[Term] = []
        room = self._places.rooms.get(device.room)
        if room is not None and isinstance(room.drop, Fact):
            terms.append(
                Term(f"drop in '{room.name}' to '{device.name}'", room.drop.typical, room.drop.basis)
            )
        unit = self._unit(device)
        if unit:
            terms.append(
                Term(
                    f"rise to unit {unit:g} for '{device.name}'",
                    round(unit * self._unit_m, 3),
                    "IEC 60297-3-100",
                )
            )
        self._terms_at[device.id] = terms
        return terms

    def _lengths_sold(self, part: str) -> tuple[float, ...]:
        found = self._library.get(part)
        return found.cable.lengths if found is not None and found.cable is not None else ()

    def _shortest_sold(self, part: str, needed: float) -> float:
        """The shortest length of a cord that is sold and long enough, or 0."""
        return next((each for each in self._lengths_sold(part) if each + 1e-9 >= needed), 0.0)

    def _unit(self, device: Device) -> float:
        return self._units.get(device.carried_by or device.id, 0.0) if device.cabinet else 0.0

    def _within_cabinet(self, near: Device, far: Device) -> tuple[Term, ...]:
        rise = abs(self._unit(near) - self._unit(far)) * self._unit_m
        return (Term("from unit to unit", round(rise, 3), "IEC 60297-3-100"), self._across, self._dressing)

    def _cord_length(self, near: Device, far: Device, part: str, chain: Chain) -> Length:
        if near.cabinet and near.cabinet == far.cabinet:
            terms = self._within_cabinet(near, far)
        else:
            words = f"from '{near.name}' to '{far.name}' in the room"
            terms = (Term(words, self._cabling.desk_cord, self._allowance),)
        needed = sum([term.value for term in terms])
        sold = self._sold.get((part, needed))
        if sold is None:
            sold = self._sold[part, needed] = self._shortest_sold(part, needed)
        lengths = () if sold else self._lengths_sold(part)
        if lengths:
            self._notes.gap(
                "cord-length",
                chain.id,
                f"no '{part}' is sold as long as {needed:.2f} m; the longest is {lengths[-1]:g} m",
                chain.spec.written.span,
            )
        return Length(terms, (), sold)
