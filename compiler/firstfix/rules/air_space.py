"""The rule on clear space: what a part asks for above and below itself, against what its cabinet's layout leaves.

Takes a build; yields one outcome for each thing in a cabinet that asks for clear space.
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device, Mount
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level, Measurement, Term
from firstfix.parts.facts import AUTHOR, Fact, Figure, Unknown
from firstfix.parts.part import Part
from firstfix.physics.cabinet import opening_height_mm, panel_height_mm
from firstfix.physics.range import at_most
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.rules.typical import rests_on
from firstfix.units import millimetres, watts

_MM_PER_M = 1000.0


class _Clear(NamedTuple):
    """Millimetres that are clear on a side, of what, what ends them, and units kept free among them.

    `lasting`: millimetres of them that stay clear when what units are kept free for has come.
    """

    terms: tuple[Term, ...]
    blocker: str
    kept: tuple[Mount, ...]
    lasting: float

    @property
    def mm(self) -> float:
        return sum(term.value for term in self.terms)


class _Layouts:
    """Mounts of each cabinet by unit, looked up while walking away from a thing."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._at: defaultdict[tuple[str, int], tuple[Mount, ...]] = defaultdict(tuple)
        self.of: dict[str, Mount] = {}
        for occupancy in build.occupancy:
            self._at[occupancy.cabinet, occupancy.unit] = occupancy.mounts
        for mount in build.mounts:
            if mount.item:
                self.of.setdefault(mount.item, mount)

    def beyond(self, mount: Mount, step: int) -> _Clear:
        """What is clear above (1) or below (-1) a mount's units, as far as it goes."""
        units, lasting, kept = 0, 0, list[Mount]()
        unit, end = (
            (mount.high + 1, self._build.cabinets[mount.cabinet].units + 1)
            if step > 0
            else (mount.low - 1, 0)
        )
        blocker = "the top of the cabinet" if step > 0 else "the floor of the cabinet"
        # A mount outside the cabinet, which is a finding of its own, begins beyond the end.
        while unit * step < end * step:
            blocking = self._blocking(mount, unit)
            if blocking is not None:
                blocker = self._name(blocking)
                break
            kept += [each for each in self._at[mount.cabinet, unit] if each.is_kept_free and each not in kept]
            units += 1
            lasting += not kept
            unit += step
        where = "above" if step > 0 else "below"
        term = Term(f"{units}U {where} it", _units_mm(units), "IEC 60297-3-100")
        return _Clear((term,), blocker, tuple(kept), _units_mm(lasting))

    def _blocking(self, mount: Mount, unit: int) -> Mount | None:
        for other in self._at[mount.cabinet, unit]:
            beside = bool(mount.side and other.side and mount.side != other.side)
            if not (other.is_kept_free or beside or other.face != mount.face or self._is_cover(other)):
                return other
        return None

    def _is_cover(self, mount: Mount) -> bool:
        """A cover closes the front only; behind it is air. What a hinged one stands over is mounted by itself."""
        fitting = self._build.fittings.get(mount.item)
        return fitting is not None and fitting.part.kind == "cover-panel"

    def _name(self, mount: Mount) -> str:
        device = self._build.devices.get(mount.item)
        return f"'{device.name}'" if device is not None else f"'{mount.what}'"


def _units_mm(units: int) -> float:
    return opening_height_mm(units) if units else 0.0


@rule("clear-space", Level.WARNING, COMMON_PRACTICE)
def clear_space(build: Build) -> Iterator[Outcome]:
    """Whether each thing in a cabinet has the clear space above and below that it asks for to stay cool.

    Because: a thing without a fan sheds its heat upwards; a neighbour right above it keeps the warmth in, and both grow old fast.
    Compares: clear height above (below) it [mm] >= what its part asks for (`cooling: {above: …, below: …}`). Clear are units with
        nothing in them, cover panels, and units kept free, as long as they are; on a shelf, what its units leave over its height.
        Above the highest unit nothing is taken to be clear.
    Skips: things that ask for none; below a thing that stands on a shelf; what is too tall for its shelf (shelf-space has it).
    Cannot tell: a part without a fan that does not say what it asks for, one on a shelf that does not say its height.
    Remedy: leave a unit free above it, or a range of units that is taller for its shelf.
    """
    if not build.cabinets:
        return
    layouts: _Layouts | None = None
    for device in build.devices.values():
        cooling = device.part.cooling
        if not device.cabinet or cooling is None or device.cabinet not in build.cabinets:
            continue
        layouts = layouts or _Layouts(build)
        yield from _judge(build, device, layouts)


def _judge(build: Build, device: Device, layouts: _Layouts) -> Iterator[Outcome]:
    cooling = device.part.cooling
    assert cooling is not None
    mount = layouts.of.get(device.carried_by or device.id)
    if mount is None:
        return
    at = build.provenance.span(device.id, "part")
    if device.carried_by and _is_too_tall(device, mount):
        return
    if isinstance(cooling.above, Unknown):
        if cooling.by == "passive":
            missing = f"how much clear space '{device.part.name}' asks for (`cooling: {{above: …}}`)"
            yield clear_space.cannot_tell(device.id, at, missing)
        return
    found = list(_sides(build, device, mount, layouts))
    yield from found or [Fine(device.id)]


def _sides(build: Build, device: Device, mount: Mount, layouts: _Layouts) -> Iterator[Outcome]:
    cooling = device.part.cooling
    assert cooling is not None
    if isinstance(cooling.above, Fact) and cooling.above.high > 0:
        own = _over_itself(device, mount)
        if isinstance(own, Unknown):
            yield clear_space.cannot_tell(device.id, build.provenance.span(device.id, "part"), own.why)
        else:
            beyond = layouts.beyond(mount, 1)
            terms = (own, *beyond.terms) if own.value else beyond.terms
            clear = beyond._replace(terms=terms, lasting=own.value + beyond.lasting)
            yield from _compare(build, device, cooling.above, clear, "above")
    if isinstance(cooling.below, Fact) and cooling.below.high > 0 and not device.carried_by:
        yield from _compare(build, device, cooling.below, layouts.beyond(mount, -1), "below")


def _over_itself(device: Device, mount: Mount) -> Term | Unknown:
    """What its own units (its shelf's) leave over it."""
    part, given = device.part, mount.high - mount.low + 1
    if not device.carried_by:
        units = part.rack.height if part.rack is not None else given
        return Term("left in its own units", _units_mm(max(0, given - units)), AUTHOR)
    tall = _height_mm(part)
    if tall is None:
        return Unknown(f"the height of '{part.name}' (`size: {{height: …}}`)")
    return Term(f"{given}U for its shelf less its own height", max(0.0, opening_height_mm(given) - tall), AUTHOR)  # fmt: skip


def _is_too_tall(device: Device, mount: Mount) -> bool:
    tall = _height_mm(device.part)
    return tall is not None and not at_most(tall, opening_height_mm(mount.high - mount.low + 1))


def _height_mm(part: Part) -> float | None:
    if part.size is not None and isinstance(part.size.height, Fact):
        return part.size.height.high * _MM_PER_M
    return panel_height_mm(part.rack.height) if part.rack is not None and part.rack.height else None


def _compare(build: Build, device: Device, asked: Figure, clear: _Clear, where: str) -> Iterator[Outcome]:
    assert isinstance(asked, Fact)
    wanted = asked.high * _MM_PER_M
    at = build.provenance.span(device.id, "part")
    source = f"what '{device.part.name}' asks for, {asked.basis}"
    measurement = Measurement(
        f"clear space {where} '{device.name}'", clear.mm, "at least", wanted, "mm", clear.terms, source
    )
    shown = f"'{device.name}' asks for {millimetres(asked.high)} of clear space {where} it"
    if not at_most(wanted, clear.mm):
        yield clear_space.finding(
            f"{shown}, and has {millimetres(clear.mm / _MM_PER_M)} before {clear.blocker}",
            device.id, at, rests_on(asked), measurement,
            (Cure(f"leave a unit free {where} it, or move it"),),
        )  # fmt: skip
        return
    if clear.kept and not at_most(wanted, clear.lasting):
        first = clear.kept[0]
        spans = (Label(build.provenance.span(_mount_id(each)), _kept_words(each)) for each in clear.kept)
        yield clear_space.finding(
            f"{shown}, and has it only until '{first.what}' comes into the units kept free for it",
            device.id, at, tuple(spans), measurement,
            (Cure(f"keep one more unit free {where} '{device.name}'"),), Level.NOTE,
        )  # fmt: skip


def _mount_id(mount: Mount) -> str:
    return ids.mount(mount.cabinet, mount.low, mount.high, mount.face, mount.side)


def _kept_words(mount: Mount) -> str:
    heat = f", which will give off {watts(mount.heat.high)}" if isinstance(mount.heat, Fact) else ""
    return f"kept free for '{mount.what}'{heat}"


RULES: tuple[Rule, ...] = (clear_space,)
