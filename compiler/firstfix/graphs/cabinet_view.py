"""A build seen by its cabinets: what is mounted where, what its shelves carry, and how far plugged cords stand out.

Takes a build; gives views that the rules on fitting share.
"""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device, Mount
from firstfix.build.model import Build
from firstfix.build.once import once_per_build
from firstfix.finding.model import Term
from firstfix.parts.facts import Fact
from firstfix.parts.part import CableForm, Part
from firstfix.physics.cabinet import plug_reach_mm
from firstfix.span import Span


def part_of(build: Build, mount: Mount) -> Part | None:
    if mount.item in build.devices:
        return build.devices[mount.item].part
    return build.fittings[mount.item].part if mount.item in build.fittings else None


def is_for_rails(part: Part) -> bool:
    """Of what is not, cabinet-height tells; how deep it would be between rails is no question then."""
    return part.rack is not None and part.rack.height != 0


def shown(build: Build, mount: Mount) -> str:
    if mount.is_kept_free:
        return f"what is kept free for '{mount.what}'"
    if mount.item in build.devices:
        return f"'{build.devices[mount.item].name}'"
    return f"'{mount.what}' in unit {mount.low}"


def span_of(build: Build, mount: Mount) -> Span | None:
    written = ids.mount(mount.cabinet, mount.low, mount.high, mount.face, mount.side)
    return build.provenance.span(written) or build.provenance.span(mount.item)


def is_half_width(part: Part | None) -> bool:
    return part is not None and part.rack is not None and part.rack.width == "half"


def share_units(one: Mount, other: Mount) -> bool:
    return one.low <= other.high and other.low <= one.high


@once_per_build
def mounted_in(build: Build) -> dict[str, list[Mount]]:
    """The mounts of each cabinet, lowest first."""
    found: dict[str, list[Mount]] = {cabinet: [] for cabinet in build.cabinets}
    for mount in build.mounts:
        if mount.cabinet in found:
            found[mount.cabinet].append(mount)
    return found


@once_per_build
def carried_by(build: Build) -> dict[str, list[Device]]:
    """By the id of what carries them: a shelf's, or of what else the plan says."""
    found: defaultdict[str, list[Device]] = defaultdict(list)
    if build.cabinets:
        for device in build.devices.values():
            if device.carried_by:
                found[device.carried_by].append(device)
    return dict(found)


def behind_covers(build: Build, cabinet: str) -> list[tuple[Mount, list[Mount]]]:
    """Each thing that stands `over` others, with these."""
    mounts = mounted_in(build)[cabinet]
    return [
        (cover, [each for each in mounts if not each.is_over and each.face == cover.face and share_units(each, cover)])
        for cover in mounts
        if cover.is_over
    ]  # fmt: skip


class Plug(NamedTuple):
    """How far a plugged cord or a cable on its block stands out [m], and the terms of that [mm]."""

    reach: float
    terms: tuple[Term, ...]


NO_PLUG = Plug(0.0, ())


def _plug(name: str, form: CableForm | None, on_block: bool) -> Plug | None:
    """None where the part does not say enough. A cable on a block bends at once; one of fibre is broken out before its end."""
    if form is not None and form.medium == "fibre" and on_block:
        return NO_PLUG
    if form is None or not isinstance(form.bend, Fact) or not isinstance(form.diameter, Fact):
        return None
    if not on_block and not isinstance(form.plug_length, Fact):
        return None
    plug = 0.0 if on_block or not isinstance(form.plug_length, Fact) else form.plug_length.high * 1000
    bend, thick = form.bend.high * 1000, form.diameter.high * 1000
    basis = form.bend.basis
    terms: tuple[Term, ...] = (
        Term(f"least bend of '{name}'", bend, basis),
        Term(f"thickness of '{name}'", thick, basis),
    )
    if plug:
        terms = (Term(f"plug of '{name}'", plug, basis), *terms)
    return Plug(plug_reach_mm(plug, bend, thick) / 1000, terms)


class Plugs:
    """What is plugged into each device. Nobody looks at the pieces one by one before some cord could be too long for its place."""

    def __init__(self, build: Build) -> None:
        self._build = build
        self._of: dict[tuple[str, str], set[str]] | None = None
        used = {piece.part for piece in build.pieces.values()} if build.cabinets else set()
        forms = {name: build.library[name].cable for name in sorted(used)}
        # An installed run bends at once behind a block; of the plugs that are made on site no length is known.
        self._plugs = {
            name: _plug(name, form, on_block=build.library[name].kind != "cord")
            for name, form in forms.items()
        }
        self.longest = max((each.reach for each in self._plugs.values() if each is not None), default=0.0)

    def at(self, device: str, face: str) -> Plug:
        """The longest at this face of a device; panels and outlets have their runs at the rear."""
        found = (self._plugs[name] for name in sorted(self._where().get((device, face), ())))
        return max((each for each in found if each is not None), key=lambda each: each.reach, default=NO_PLUG)

    def unknown(self, device: str, face: str) -> str:
        """A part whose plug or bend nobody stated, "" where there is none."""
        names = sorted(self._where().get((device, face), ()))
        return next((name for name in names if self._plugs[name] is None), "")

    def _where(self) -> dict[tuple[str, str], set[str]]:
        if self._of is None:
            found: defaultdict[tuple[str, str], set[str]] = defaultdict(set)
            jacks = self._build.jacks
            for piece in self._build.pieces.values():
                for end in piece.ends:
                    jack = jacks[end]
                    found[jack.device, jack.face].add(piece.part)
            self._of = dict(found)
        return self._of


plugs_of = once_per_build(Plugs)
"""What is plugged where in a build, found once for all rules that ask."""
