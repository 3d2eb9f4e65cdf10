"""The facts of a part in small groups: what surrounds it, how it is cooled, and what only some kinds have.

A group that does not apply to a part is None there; a figure or word that nobody gave is Unknown.
Base units as in units.py: metres, watts, kilograms, degrees Celsius, seconds.
"""

from typing import NamedTuple

from firstfix.parts.facts import NOT_SAID, Figure, Unknown

Word = str | Unknown
YesNo = bool | Unknown

PLACES = ("indoor", "outdoor", "buried")
EARS = ("included", "bought apart", "none")
MOUNTINGS = ("wall", "floor", "desk")
FRONTS = ("open", "glass door", "solid door", "meshed door")
COVERS = ("blank", "brush", "mesh", "rings", "hinged")
FASTENERS = ("cage nut", "clip nut", "clip stud", "screw", "bolt", "wall plug")
HEADS = ("pan", "flat", "countersunk", "hexagon", "knob", "stud")
PATHWAYS = ("conduit", "bend", "duct", "trunking", "clip", "gland", "tape", "tray")
WIRES = ("solid", "stranded", "either")
PROTECTIONS = ("none", "fuse", "breaker", "earth-leakage breaker")
# Plugs and sockets by the letters of IEC/TR 60083's world survey as the trade uses them; "local" where the
# thing is sold with whatever its country has. Couplers by the sheets of IEC 60320-1 (from memory).
PLUGS = ("local", *"ABCDEFGHIJKLMNO")
COUPLERS = ("C6", "C8", "C14", "C20")
SOCKETS = (*PLUGS, "C5", "C7", "C13", "C15", "C19")
# Reaction to fire of cables by EN 50575 with EN 13501-6: the class, without its marks for smoke, drops and acid.
FIRE_CLASSES = ("Aca", "B1ca", "B2ca", "Cca", "Dca", "Eca", "Fca")


class Exposure(NamedTuple):
    """Where a part may be: `place`; whether sunlight may reach it (`uv`); `ingress`, its IEC 60529 code.

    `coldest` and `warmest`: the air it works in (a cable: lies in), °C.
    """

    place: Word = NOT_SAID
    uv: YesNo = NOT_SAID
    ingress: Word = NOT_SAID
    coldest: Figure = NOT_SAID
    warmest: Figure = NOT_SAID


class Cooling(NamedTuple):
    """`by`: passive or fan. Clear space it asks for `above` and `below` it, metres."""

    by: Word = NOT_SAID
    above: Figure = NOT_SAID
    below: Figure = NOT_SAID


class Size(NamedTuple):
    """Width and height in metres of what stands by itself, its feet included; its depth is with its rack form."""

    width: Figure = NOT_SAID
    height: Figure = NOT_SAID


class CabinetForm(NamedTuple):
    """What a cabinet bears and how it opens. `load`: kilograms it carries beside its own weight.

    `before_rails`: metres from the rails to the closed front. `swing`: clear metres that its door needs to open.
    An open front has neither.
    `clear_width`: metres between its rails. `rails_back`: metres by which these can be set back from there at the most, which its
    usable depth lessens by.
    """

    mounting: Word = NOT_SAID
    front: Word = NOT_SAID
    load: Figure = NOT_SAID
    before_rails: Figure = NOT_SAID
    swing: Figure = NOT_SAID
    clear_width: Figure = NOT_SAID
    rails_back: Figure = NOT_SAID


class ShelfForm(NamedTuple):
    """`load` in kilograms; `clear_width` in metres for what stands on it; slots that ties go through."""

    load: Figure = NOT_SAID
    clear_width: Figure = NOT_SAID
    tie_slots: YesNo = NOT_SAID


class CoverForm(NamedTuple):
    """`clear_under`: metres behind a hinged front before what it covers; `swing`: metres in front to open it.

    `screw_head`: the tallest head of a screw, metres, that it closes over or sits on.
    """

    form: Word = NOT_SAID
    clear_under: Figure = NOT_SAID
    swing: Figure = NOT_SAID
    screw_head: Figure = NOT_SAID


class FastenerForm(NamedTuple):
    """`head_height` and `length` (below the head) in metres."""

    form: Word = NOT_SAID
    head: Word = NOT_SAID
    head_height: Figure = NOT_SAID
    length: Figure = NOT_SAID


class Optics(NamedTuple):
    """A transceiver's light: nm; the mean level it sends (its least) and the least it can read, dBm."""

    wavelength: Figure = NOT_SAID
    sends: Figure = NOT_SAID
    reads: Figure = NOT_SAID

    @property
    def budget_db(self) -> float | None:
        """The loss that is left for the fibre and its joints at the worst, dB."""
        if isinstance(self.sends, Unknown) or isinstance(self.reads, Unknown):
            return None
        return self.sends.low - self.reads.high


class Battery(NamedTuple):
    """A backup's: volt-amperes, watt hours when new, and points of (load in watts, seconds it lasts)."""

    apparent: Figure = NOT_SAID
    energy: Figure = NOT_SAID
    lasts: tuple[tuple[float, float], ...] = ()


class SurgeForm(NamedTuple):
    """Jacks towards the `line` and towards what is `guarded`; how its `earth` is joined; PoE class it bears."""

    line: str = ""
    guarded: str = ""
    earth: Word = NOT_SAID
    poe_class: Figure = NOT_SAID


class LowVoltage(NamedTuple):
    """What a splitter gives: volts, watts at its lead, and the efficiency (0 to 1) of making them from PoE."""

    voltage: Figure = NOT_SAID
    power: Figure = NOT_SAID
    efficiency: Figure = NOT_SAID


class PathwayForm(NamedTuple):
    """Bores and lengths in metres. `clamps`: the diameters that a gland or clip holds, least to most.

    Trunking has no bore; its `inside` is the side of the smaller square that fits.
    """

    form: Word = NOT_SAID
    inside: Figure = NOT_SAID
    outside: Figure = NOT_SAID
    length: Figure = NOT_SAID
    clamps: Figure = NOT_SAID


class EarthLead(NamedTuple):
    """Cross-section of its copper in square millimetres; length in metres."""

    area: Figure = NOT_SAID
    length: Figure = NOT_SAID
