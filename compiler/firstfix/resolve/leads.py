"""Which mains lead joins an inlet to an outlet: its own plug, or a cord whose two ends suit both.

Shapes are a plug's letter, `local` for whatever the country has, or a sheet of IEC 60320-1, whose connectors and inlets go in
pairs: C13 goes onto C14.
"""

from firstfix.parts.forms import Word
from firstfix.parts.layers import parts_of_kind
from firstfix.parts.part import Library, Mains, Part
from firstfix.standards.mains import plug_fits

LOCAL = "local"
# What goes onto what: IEC 60320-1, standard sheets (from memory).
_PAIRS = (("C5", "C6"), ("C7", "C8"), ("C13", "C14"), ("C15", "C16"), ("C19", "C20"))
_MATE = {one: other for pair in _PAIRS for one, other in (pair, pair[::-1])}
# What an inlet is where its part does not say.
_USUAL_INLET = "C14"


class Leads:
    """The mains cords of a library, by what is at their two ends."""

    def __init__(self, library: Library) -> None:
        self._cords: dict[tuple[str, ...], str] = {}
        for part in sorted(parts_of_kind(library, "power-cord"), key=_by_name):
            if part.cable is not None:
                self._cords.setdefault(part.cable.ends, part.name)
                self._cords.setdefault(part.cable.ends[::-1], part.name)

    def cord(self, mains: Mains, sockets: Word) -> str:
        """The cord for an inlet that needs one, at an outlet of this shape; "" where the library has none."""
        inlet = mains.shape if isinstance(mains.shape, str) else _USUAL_INLET
        outlet = sockets if isinstance(sockets, str) else LOCAL
        at_outlet = _MATE.get(outlet, LOCAL)
        return self._cords.get((at_outlet, _MATE.get(inlet, inlet)), "")

    def problem(self, mains: Mains, sockets: Word) -> str:
        """Why the lead does not go into such an outlet, in words that follow the device's name; or nothing."""
        shape = mains.shape
        if not isinstance(sockets, str) or not isinstance(shape, str):
            return ""
        if mains.inlet == "coupler":
            return (
                ""
                if self.cord(mains, sockets)
                else f"has a {shape} inlet, and no mains cord joins that to {_shown(sockets)}"
            )
        fits = (
            shape == sockets
            or (LOCAL in (shape, sockets) and not {shape, sockets} & _MATE.keys())
            or (shape, sockets) in plug_fits()
        )
        return "" if fits else f"has a wall plug, which does not go into {_shown(sockets)}"


def _by_name(part: Part) -> str:
    return part.name


def _shown(sockets: str) -> str:
    return "a wall outlet" if sockets == LOCAL else f"{sockets} outlets"
