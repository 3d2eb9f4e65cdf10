"""Why a jack: what is on it, what is at the other end, who chose it, what it is set up to carry and for whom."""

from collections.abc import Iterator

from firstfix.build import ids
from firstfix.build.cabling import Piece
from firstfix.build.hardware import Jack
from firstfix.build.model import Build
from firstfix.build.reasons import WORKED_OUT, WRITTEN
from firstfix.explaining.carried import why_carried
from firstfix.explaining.far_end import far_end, other_end
from firstfix.explaining.lines import part_fact, ranges, sections, shown_jack, vlan_names
from firstfix.explaining.model import Explanation, Line
from firstfix.explaining.power import poe_classes
from firstfix.explaining.views import views
from firstfix.source.node import Mapping, Node, Scalar, Sequence
from firstfix.span import Span
from firstfix.units import rate


def explain_jack(build: Build, id_: str) -> Explanation:
    jack = build.jacks[id_]
    device = build.devices[jack.device]
    face = f", {jack.face}" if any(each != id_ for each in _faces(build, jack)) else ""
    parts = sections(
        ("on it", _on_it(build, jack)),
        ("set up", _setup(build, jack)),
        ("power", _power(build, jack)),
        ("the jack itself", _itself(build, jack)),
    )
    title = f"{shown_jack(id_)}{face}, a jack of {device.part.title}"
    return Explanation(id_, "jack", title, build.provenance.span(device.id), parts)


def _faces(build: Build, jack: Jack) -> Iterator[str]:
    for face in ("front", "rear"):
        id_ = ids.jack(build.devices[jack.device].name, jack.name, face)
        if id_ in build.jacks:
            yield id_


def _on_it(build: Build, jack: Jack) -> Iterator[Line]:
    pieces = views(build).pieces.get(jack.id, ())
    if not pieces:
        yield Line("free", "nothing is plugged in or wired to it")
    for piece in pieces:
        at = build.provenance.span(piece.link)
        yield Line(ids.path(piece.id), far_end(build, jack.id, piece), "", f"a part of the run {build.links[piece.link].shown}", at)  # fmt: skip
        yield chosen_jack(build, piece, jack)


def chosen_jack(build: Build, piece: Piece, jack: Jack) -> Line:
    """Why the piece's run has this jack of the device: written in its run, or chosen among those that were free."""
    shown = shown_jack(jack.id)
    device = build.devices[jack.device].name
    for decision in views(build).decisions.get(piece.link, ()):
        if decision.value == shown:
            others = _other_jacks(build, device, decision.others)
            return Line(f"jack of {device}", shown, decision.origin, decision.why, None, others)
    at = hop_span(build, piece.link, shown)
    if at is not None:
        return Line(f"jack of {device}", shown, WRITTEN, "", at)
    return Line(f"jack of {device}", shown, WORKED_OUT, "its other jack here is joined to it inside")


def _other_jacks(build: Build, device: str, names: tuple[str, ...]) -> tuple[str, ...]:
    """Jacks that would have done: those that stayed free, then those that another run has now, and which."""
    taken = {name: far for name in names if (far := _now_to(build, device, name))}
    free = sorted((name for name in names if name not in taken), key=ids.natural)
    return (*ranges(free), *(f"{each} (now to {taken[each]})" for each in sorted(taken, key=ids.natural)))


def _now_to(build: Build, device: str, name: str) -> str:
    for face in ("front", "rear"):
        id_ = ids.jack(device, name, face)
        for piece in views(build).pieces.get(id_, ()):
            return shown_jack(other_end(piece.ends, id_))
    return ""


def hop_span(build: Build, link: str, shown: str) -> Span | None:
    """Where the author named the jack in the run itself."""
    node = build.provenance.node(link)
    if isinstance(node, Mapping):
        node = node.value("run")
    items: list[Node] = node.items if isinstance(node, Sequence) else [node] if node is not None else []
    return next((each.span for each in items if isinstance(each, Scalar) and each.text == shown), None)


def _setup(build: Build, jack: Jack) -> Iterator[Line]:
    setup = build.port_setups.get(jack.id)
    if setup is None:
        return
    untagged = vlan_names(build, (setup.untagged,)) or "none"
    at = _untagged_span(build, jack)
    if at is not None:
        yield Line("untagged", untagged, WRITTEN, "", at)
    else:
        only_tagged = setup.basis == "the plan says so"
        yield Line(
            "untagged",
            untagged,
            WORKED_OUT,
            "the plan says what is tagged only" if only_tagged else setup.basis,
        )
    for vlan in setup.tagged:
        yield Line("tagged", vlan_names(build, (vlan,)), *why_carried(build, jack, vlan))


def _untagged_span(build: Build, jack: Jack) -> Span | None:
    found = (
        build.provenance.written(each.link, "untagged") for each in views(build).channels.get(jack.id, ())
    )
    return next((each for each in found if each is not None), None)


def _power(build: Build, jack: Jack) -> Iterator[Line]:
    for run in views(build).power.get(jack.id, ()):
        if run.source == jack.id:
            yield Line(
                "gives PoE to",
                shown_jack(run.sink),
                WORKED_OUT,
                "the device at the end of its run asks for it",
            )
        else:
            yield Line(
                "takes PoE from", shown_jack(run.source), WORKED_OUT, "the first on the way that gives it"
            )
        yield from poe_classes(run)


def _itself(build: Build, jack: Jack) -> Iterator[Line]:
    part = build.devices[jack.device].part
    yield Line(
        "family", f"{jack.family}, filled by {jack.needs_module}" if jack.needs_module else jack.family
    )
    if part.jack(jack.name) is not None and jack.face == "front" and not jack.needs_module:
        yield part_fact(build, part, "highest rate", jack.rate, rate, "jacks")
    if jack.power:
        yield Line("PoE", "gives it" if jack.power == "gives" else "takes it")
    siblings = [build.jacks[each] for each in build.jacks_of.get(jack.device, ())]
    used = {each.name for each in siblings if each.id in views(build).pieces}
    free = dict.fromkeys(each.name for each in siblings if each.name not in used)
    yield Line("free at this device", ", ".join(ranges(free)) or "no other")
