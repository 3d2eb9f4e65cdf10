"""Which jack each hop of each chain ends at: what is written is honoured, the rest is assigned device by device."""

from collections import defaultdict
from collections.abc import Container
from typing import NamedTuple

from firstfix.algorithms.assign import Wanted, assign
from firstfix.build import ids
from firstfix.build.cabling import RUN
from firstfix.parts.numbering import jack_names
from firstfix.parts.part import COPPER_FAMILIES, TERMINATION_KINDS, JackSpec, Part
from firstfix.resolve.chains import Chain
from firstfix.resolve.jacks import JackField, jack_id
from firstfix.resolve.kept import Kept
from firstfix.resolve.like_ends import with_like_ends
from firstfix.resolve.notes import Notes
from firstfix.resolve.refused_jacks import IN_USE, ONE_FACE, Asked, refusals
from firstfix.resolve.stops import Stop, families_beyond, hop_kind, power_wish, side_of, stops_of, takes_poe

# (link id, index of the device in the chain, side: 0 towards the device before, 1 towards the one after, lane)
EndKey = tuple[str, int, int, int]


def resolve_ends(chains: tuple[Chain, ...], field: JackField, kept: Kept, notes: Notes) -> dict[EndKey, str]:
    """The jack id at each end of each hop. An end without a jack is missing from the result and has a gap."""
    stops: defaultdict[str, list[Stop]] = defaultdict(list)
    for chain in chains:
        for stop in stops_of(chain):
            stops[stop.device.id].append(stop)
    ends: dict[EndKey, str] = {}
    jacks_of_part: dict[str, _PartJacks] = {}
    for _, mine in sorted(stops.items()):
        part = mine[0].device.part
        jacks = jacks_of_part.get(part.name)
        if jacks is None:
            jacks = jacks_of_part[part.name] = _part_jacks(part)
        _DeviceEnds(mine, jacks, field, ends, kept, notes).settle()
    with_like_ends(chains, ends, field, notes)
    return ends


def without_ends(chains: tuple[Chain, ...], ends: dict[EndKey, str]) -> frozenset[str]:
    """Devices on chains of which an end found no jack: that has its finding, and nothing more can be concluded about them."""
    if len(ends) == sum([2 * len(chain.kinds) * chain.spec.lanes for chain in chains]):
        return frozenset()
    return frozenset(
        device.id
        for chain in chains
        for stop in stops_of(chain)
        if any((chain.id, stop.place, side, stop.lane) not in ends for side in stop.sides)
        for device in chain.devices
    )


# Jacks that a run could have had instead are kept for telling why; a panel of four units has 96. With a thousand jacks, each run's would
# fill the machine.
_MOST_OTHERS = 97


class _PartJacks(NamedTuple):
    """A part's jacks by name, each with its place in their order, and which of them give and take PoE. The same for all of a part."""

    places: dict[str, int]
    giving: frozenset[str]
    taking: frozenset[str]


def _part_jacks(part: Part) -> _PartJacks:
    return _PartJacks(
        {spec.name: place for place, spec in enumerate(part.jacks)},
        frozenset(part.gives_poe.jacks if part.gives_poe is not None else ()),
        frozenset(part.takes_poe.jacks if part.takes_poe is not None else ()),
    )


class _Served(NamedTuple):
    """What became of a stop: its jack, or None, and whether that suits it fully or only does in need."""

    stop: Stop
    jack: str | None
    is_full: bool


class _DeviceEnds:
    """All stops at one device."""

    def __init__(
        self,
        stops: list[Stop],
        jacks: _PartJacks,
        field: JackField,
        ends: dict[EndKey, str],
        kept: Kept,
        notes: Notes,
    ) -> None:
        self._stops = stops
        self._device = stops[0].device
        self._part = self._device.part
        self._field = field
        self._ends = ends
        self._kept = kept
        self._notes = notes
        self._taken: dict[str, Stop] = {}
        self._prefix = jack_id(self._device, "")
        self._terminates = self._part.kind in TERMINATION_KINDS
        # By name, since a part's own tuples would be searched from the front for every jack of every stop.
        self._places, self._giving, self._taking = jacks

    def settle(self) -> None:
        open_stops: list[Stop] = []
        for stop in self._stops:
            name = self._fixed(stop)
            if name is None:
                open_stops.append(stop)
            elif name:
                self._occupy(stop, name)
        if not open_stops:
            return
        written = frozenset(self._taken)
        staying = self._keep(open_stops)
        rest = [stop for stop in open_stops if stop.key not in staying] if staying else open_stops
        served = [*staying.values(), *self._choose(rest)]
        self._report([each for each in served if not each.is_full], open_stops, written, bool(staying))

    def _fixed(self, stop: Stop) -> str | None:
        """The one jack that the author wrote (with lanes, the next ones in turn); None if it is ours to choose, "" if at fault."""
        asked = jack_names(stop.asked) if stop.asked else None
        if asked is None:
            return None
        known = self._places
        if len(asked) == 1 and stop.lane == 1 and asked[0] in known:
            return asked[0]
        unknown = [name for name in asked if name not in known]
        if unknown:
            at = stop.chain.spec.hops[stop.place].node.span
            if stop.lane == 1 and stop.sides[0] == min(stop.sides):
                message = f"'{self._device.name}' has no jack '{unknown[0]}'; it has {_listed(self._part)}"
                self._notes.gap("name-unknown", stop.chain.id, message, at)
            return ""
        if len(asked) > 1:
            return None
        place = known[asked[0]] + stop.lane - 1
        jacks = self._part.jacks
        # Lanes of one aggregate are alike; after the last copper jack comes a cage on many switches.
        if place >= len(jacks) or jacks[place].family != jacks[known[asked[0]]].family:
            at = stop.chain.spec.hops[stop.place].node.span
            message = f"{stop.chain.spec.lanes} lanes from jack {asked[0]} on need more jacks than '{self._device.name}' has"
            self._notes.gap("jacks-exhausted", stop.chain.id, message, at)
            return ""
        return jacks[place].name

    def _jack_ids(self, stop: Stop, name: str) -> tuple[str, ...]:
        """The jack ids that a stop takes when it uses jack `name`, in the order of its sides."""
        here = self._prefix + name
        if self._terminates:
            rear = here + "@rear"
            return tuple([rear if hop_kind(stop, side) == RUN else here for side in stop.sides])
        if len(stop.sides) == 1:
            return (here,)
        other = self._field.partner.get(here, here)
        return here, other

    def _occupy(self, stop: Stop, name: str) -> None:
        jacks = self._jack_ids(stop, name)
        if len(jacks) == 1 and jacks[0] not in self._taken:
            self._taken[jacks[0]] = stop
            self._ends[stop.chain.id, stop.place, stop.sides[0], stop.lane] = jacks[0]
            return
        clash = next((each for each in jacks if each in self._taken), None)
        if clash is None and len(set(jacks)) == len(jacks):
            for side, each in zip(stop.sides, jacks, strict=True):
                self._taken[each] = stop
                self._ends[stop.chain.id, stop.place, side, stop.lane] = each
            return
        at = stop.chain.spec.hops[stop.place].node.span
        shown = f"{self._device.name}/{name}"
        if clash is None:
            which = "installed runs" if hop_kind(stop, 0) == RUN else "cords"
            message = f"'{shown}' has {which} on both sides of this run; its front takes a cord and its rear an installed run"
        else:
            holder = self._taken[clash]
            # By their places in the plan, not by the order in which runs are settled.
            first, at = sorted((holder.chain.spec.hops[holder.place].node.span, at))
            face = f" at its {self._field.jacks[clash].face}" if self._part.kind in TERMINATION_KINDS else ""
            message = f"the jack '{shown}' is wired twice{face}; the first time at {first.file}:{first.line}:{first.column}"
        self._notes.gap("jack-used-twice", f"jack:{shown}", message, at)

    def _keep(self, stops: list[Stop]) -> dict[tuple[str, int], _Served]:
        """Gives each stop the jack it had, where that is still possible. Of two with the same jack the run that sorts first keeps it."""
        staying: dict[tuple[str, int], _Served] = {}
        weak: list[Stop] = []
        for stop in sorted((each for each in stops if each.kept), key=lambda each: each.key):
            wish = power_wish(stop)
            if problem := self._unsuited(stop):
                self._give_up(stop, problem)
            elif wish is not None and stop.kept not in wish:
                weak.append(stop)
            else:
                self._stay(stop, staying, True)
        for stop in weak:
            if self._wanted(stop, self._terms(stop), self._taken).best:
                self._give_up(stop, "it has not the power that the run needs, and another jack has")
            else:
                self._stay(stop, staying, False)
        return staying

    def _stay(self, stop: Stop, staying: dict[tuple[str, int], _Served], is_full: bool) -> None:
        # A thing in line may stand the other way round than it did.
        name = self._oriented(stop, stop.kept)
        holder = self._holder(stop, name)
        if holder is None:
            self._occupy(stop, name)
            staying[stop.key] = _Served(stop, name, is_full)
            self._notes.keep(stop.chain.id, _attribute(stop), f"{self._device.name}/{name}", "ends")
        elif holder.key in staying:
            assert stop.chain.kept is not None
            other = f"'{ids.path(holder.chain.id)}'"
            message = f"'{self._device.name}/{name}' is kept for '{ids.path(stop.chain.id)}' and for {other}"
            self._kept.twice(stop.chain.kept.run, message, other)
        else:
            self._give_up(stop, f"the plan gives it to '{ids.path(holder.chain.id)}'")

    def _give_up(self, stop: Stop, why: str) -> None:
        assert stop.chain.kept is not None
        was = f"'{self._device.name}/{stop.kept}' was kept for the run '{ids.path(stop.chain.id)}'"
        self._kept.impossible(stop.chain.kept.run, f"{was}, and {why}")

    def _holder(self, stop: Stop, name: str) -> Stop | None:
        return next((self._taken[each] for each in self._jack_ids(stop, name) if each in self._taken), None)

    def _unsuited(self, stop: Stop) -> str:
        """Why the kept jack does not suit the run any more, or nothing."""
        place = self._places.get(stop.kept)
        if place is None:
            return f"'{self._device.name}' has no such jack now"
        spec, terms = self._part.jacks[place], self._terms(stop)
        if terms.names is not None and spec.name not in terms.names:
            return f"the plan asks for {stop.asked}"
        if spec.family not in terms.families:
            return "what lies beyond does not fit it now"
        if terms.names is None and spec.side != terms.side:
            return "it is on the wrong side of the device now"
        if self._terminates and len(set(self._jack_ids(stop, spec.name))) < len(stop.sides):
            return "the run needs both of its faces now"
        return ""

    def _choose(self, stops: list[Stop]) -> list[_Served]:
        """Gives each stop a jack, as far as there is one. A panel's jack has two faces: who finds no jack of which both are free
        shares one."""
        served = self._choose_apart(stops)
        left = [each.stop for each in served if each.jack is None]
        while self._terminates and left:
            more = self._choose_apart(left)
            served = [*(each for each in served if each.jack is not None), *more]
            if all(each.jack is None for each in more):
                break
            left = [each.stop for each in more if each.jack is None]
        return served

    def _choose_apart(self, stops: list[Stop]) -> list[_Served]:
        wanted = self._all_wanted(stops, self._taken)
        chosen = assign(wanted)
        served: list[_Served] = []
        for stop, each in zip(stops, wanted, strict=True):
            name = chosen.get(stop.key)
            served.append(_Served(stop, name, name in each.best))
            if name is None:
                continue
            name = self._oriented(stop, name)
            self._occupy(stop, name)
            others = tuple([other for other in (each.best + each.also)[:_MOST_OTHERS] if other != name])
            why = _why(name, each, self._part)
            shown = f"{self._device.name}/{name}"
            self._notes.decide(stop.chain.id, _attribute(stop), shown, "ends", why, others)
        return served

    def _report(
        self, poorly: list[_Served], everyone: list[Stop], written: frozenset[str], has_kept: bool
    ) -> None:
        """What could not be served, and whether it could be, if kept choices moved."""
        if not poorly:
            return
        better = self._without_kept(everyone, written, poorly) if has_kept else frozenset()
        used = len({self._field.jacks[each].name for each in self._taken})
        for stop, name, _ in poorly:
            if stop.key in better:
                self._in_the_way(stop, name)
            elif name is None:
                self._exhausted(stop, used)

    def _without_kept(
        self, everyone: list[Stop], written: frozenset[str], poorly: list[_Served]
    ) -> frozenset[tuple[str, int]]:
        """Those of `poorly` that are served better in an arrangement which keeps nothing and serves more, or more of them fully."""
        wanted = self._all_wanted(everyone, written)
        chosen = assign(wanted)
        best = {each.key: frozenset(each.best) for each in wanted}
        unserved = len([None for each in poorly if each.jack is None])
        now = len(everyone) - unserved, len(everyone) - len(poorly)
        then = len(chosen), sum([name in best[key] for key, name in chosen.items()])
        if then <= now:
            return frozenset()
        return frozenset(
            stop.key
            for stop, name, _ in poorly
            if stop.key in chosen and (name is None or chosen[stop.key] in best[stop.key])
        )

    def _in_the_way(self, stop: Stop, name: str | None) -> None:
        at = stop.chain.spec.hops[stop.place].node.span
        run, device = ids.path(stop.chain.id), self._device.name
        if name is None:
            message = (
                f"'{device}' has no free jack for the run '{run}', and would have one if kept choices moved"
            )
            self._notes.gap("kept-in-the-way", self._device.id, message, at)
        else:
            message = f"the run '{run}' gets the jack '{device}/{name}', which gives it no power, and would get a better one if kept choices moved"
            self._notes.gap("kept-second-best", self._device.id, message, at)

    def _exhausted(self, stop: Stop, used: int) -> None:
        at = stop.chain.spec.hops[stop.place].node.span
        asked = f" of {stop.asked}" if stop.asked else ""
        terms = self._terms(stop)
        why = refusals(self._part.jacks, terms, lambda name: self._hindrance(stop, name))
        message = (
            f"'{self._device.name}' has no free jack{asked} that suits this run; "
            f"{used} of its {len(self._part.jacks)} are in use: {why}"
        )
        self._notes.gap("jacks-exhausted", stop.chain.id, message, at)

    def _terms(self, stop: Stop) -> Asked:
        asked = frozenset(jack_names(stop.asked) or ()) if stop.asked else None
        return Asked(asked, families_beyond(stop), side_of(stop))

    def _all_wanted(self, stops: list[Stop], taken: Container[str]) -> list[Wanted]:
        """As `_wanted` for each; stops that ask for the same share one pair of lists."""
        known: dict[tuple[object, ...], Wanted] = {}
        found: list[Wanted] = []
        for stop in stops:
            kinds = tuple([hop_kind(stop, side) for side in stop.sides]) if self._terminates else ()
            terms = self._terms(stop)
            alike = (*terms, stop.sides, kinds, power_wish(stop))
            one = known.get(alike)
            if one is None:
                one = known[alike] = self._wanted(stop, terms, taken)
            found.append(one._replace(key=stop.key))
        return found

    def _wanted(self, stop: Stop, terms: Asked, taken: Container[str]) -> Wanted:
        """What a stop could have of what is not `taken`, in order of liking."""
        asked, families, side = terms
        usable = [
            spec
            for spec in self._part.jacks
            if (asked is None or spec.name in asked)
            and (spec.side == side or asked is not None)
            and spec.family in families
            and self._is_free(stop, spec.name, taken)
        ]
        if len(stop.sides) == 2 and self._part.passes:
            # Its two jacks belong together, so either of them stands for both: see `_oriented`.
            near = {each.far: each.near for each in self._part.passes}
            return Wanted(
                stop.key, tuple(dict.fromkeys(near.get(spec.name, spec.name) for spec in usable)), ()
            )
        suits = power_wish(stop)
        ranked = sorted(usable, key=lambda spec: (self._waste(spec, suits is None), self._order(spec)))
        if suits is None:
            return Wanted(stop.key, tuple(spec.name for spec in ranked), ())
        best = tuple(spec.name for spec in ranked if spec.name in suits)
        return Wanted(stop.key, best, tuple(spec.name for spec in ranked if spec.name not in suits))

    def _waste(self, spec: JackSpec, has_no_wish: bool) -> tuple[int, int]:
        """Liking: copper before light; a jack that gives PoE, or the one that takes it, is left to those who need it."""
        cage = 0 if spec.family in COPPER_FAMILIES else 1
        power = 0
        if has_no_wish:
            if spec.name in self._giving:
                power = 1
            if self._giving and spec.name in self._taking:
                power = 2
        return cage, power

    def _order(self, spec: JackSpec) -> int:
        return self._places[spec.name]

    def _is_free(self, stop: Stop, name: str, taken: Container[str]) -> bool:
        jacks = self._jack_ids(stop, name)
        return len(set(jacks)) == len(jacks) and not any(each in taken for each in jacks)

    def _hindrance(self, stop: Stop, name: str) -> str:
        if self._is_free(stop, name, self._taken):
            return ""
        return IN_USE if len(set(self._jack_ids(stop, name))) == len(stop.sides) else ONE_FACE

    def _oriented(self, stop: Stop, name: str) -> str:
        """Which way round a thing stands in line: an injector gives towards what takes PoE; a protector's line side, its near
        jack, faces the run that comes in from outside. The name is that of the jack towards the device before."""
        if len(stop.sides) < 2 or not self._part.passes:
            return name
        pair = next((each for each in self._part.passes if name in (each.near, each.far)), None)
        if pair is None:
            return name
        if any(each.power == "injects" for each in self._part.passes):
            near_first = takes_poe(stop.chain.devices[-1]) and not takes_poe(stop.chain.devices[0])
        else:
            near_first = hop_kind(stop, 0) == RUN or hop_kind(stop, 1) != RUN
        asked, families, _ = self._terms(stop)
        allowed = [
            each
            for each in (pair.near, pair.far)
            if (asked is None or each in asked) and self._family(each) in families
        ]
        wanted = pair.near if near_first else pair.far
        return wanted if wanted in allowed or not allowed else allowed[0]

    def _family(self, name: str) -> str:
        place = self._places.get(name)
        return "" if place is None else self._part.jacks[place].family


def _attribute(stop: Stop) -> str:
    return f"jack at {stop.device.name}" + (f" lane {stop.lane}" if stop.chain.spec.lanes > 1 else "")


def _why(name: str, wanted: Wanted, part: Part) -> str:
    if name in wanted.also:
        return "no jack that suits it fully is free"
    gives = part.gives_poe
    if gives is not None and name in gives.jacks and wanted.also:
        return "the lowest free jack that gives the power this run needs"
    return "the lowest free jack that suits this run and leaves the others served"


def _listed(part: Part) -> str:
    names = [spec.name for spec in part.jacks]
    if len(names) <= 6:
        return ", ".join(names) if names else "no jacks"
    return (
        f"{names[0]} to {names[-1]}"
        if all(map(str.isdigit, names))
        else f"{', '.join(names[:3])} … {names[-1]}"
    )
