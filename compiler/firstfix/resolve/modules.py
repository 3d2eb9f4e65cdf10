"""Whether the plan's jack module fills the openings it is meant for, its plug suits the wires, and both are as good as the cable.

Takes what each end of a run comes to; leaves gaps that the rules module-fits and module-category report.
"""

from firstfix.build.hardware import Device, Jack
from firstfix.parts.part import Library, Part
from firstfix.plan.model import CablingSpec
from firstfix.resolve.notes import Notes, value_span
from firstfix.standards.twisted_pair import categories


class Modules:
    """Each opening, module and cable is looked at once, however many jacks there are of it."""

    def __init__(self, cabling: CablingSpec, library: Library, notes: Notes) -> None:
        self._name = cabling.jacks
        self._at = value_span(cabling.written, "jacks")
        self._plug = cabling.plugs
        self._plug_at = value_span(cabling.written, "plugs")
        self._library = library
        self._notes = notes
        self._known: dict[tuple[str, str], tuple[tuple[str, str], ...]] = {}
        self._plugged: set[str] = set()

    def put_on(self, device: Device, cable: str) -> None:
        """A plug on the end of an installed run; each cable is told of once, since all its ends get the same plug."""
        if cable in self._plugged:
            return
        self._plugged.add(cable)
        for rule, message in self._judge_plug(self._library.get(self._plug), self._library.get(cable)):
            at = self._plug_at or self._notes.provenance.span(device.id)
            self._notes.gap(rule, device.id, f"'{device.name}': {message}", at)

    def fill(self, jack: Jack, device: Device, cable: str) -> None:
        key = (jack.needs_module, cable)
        if key not in self._known:
            self._known[key] = self._judge(*key)
        for rule, message in self._known[key]:
            at = self._at or self._notes.provenance.span(device.id)
            self._notes.gap(rule, device.id, f"'{device.name}': {message}", at)

    def _judge(self, opening: str, cable: str) -> tuple[tuple[str, str], ...]:
        module = self._library.get(self._name)
        if module is None or module.kind != "jack-module":
            return ()
        found = []
        if module.fits != opening:
            kind = f"{module.fits} openings" if module.fits else "no opening that it names"
            found.append(
                ("module-fits", f"the module '{module.name}' is for {kind}, and these are {opening}")
            )
        if _is_lower(module, self._library.get(cable)):
            found.append(("module-category", _lower(module, self._library[cable])))
        return tuple(found)

    def _judge_plug(self, plug: Part | None, cable: Part | None) -> list[tuple[str, str]]:
        if plug is None or plug.kind != "plug" or cable is None or cable.cable is None:
            return []
        found = []
        wires = "stranded" if cable.cable.is_stranded else "solid"
        if plug.wire in ("solid", "stranded") and plug.wire != wires:
            found.append(
                (
                    "module-fits",
                    f"the plug '{plug.name}' is for {plug.wire} wires, and those of '{cable.name}' are {wires}",
                )
            )
        if _is_lower(plug, cable):
            found.append(("module-category", _lower(plug, cable)))
        return found


def _is_lower(module: Part, cable: Part | None) -> bool:
    """By rank: one of a higher can replace one of a lower. A category that nobody published is not compared."""
    known = categories()
    form = None if cable is None else cable.cable
    if form is None or form.category not in known or module.category not in known:
        return False
    return known[module.category].rank < known[form.category].rank


def _lower(module: Part, cable: Part) -> str:
    better = cable.cable.category if cable.cable is not None else ""
    what = "plug" if module.kind == "plug" else "module"
    return (
        f"the {what} '{module.name}' is of category {module.category}, its cable '{cable.name}' of the better {better}: "
        f"the channel is no better than category {module.category}"
    )
