"""The rule on plugs: whether a thing's own plug goes into the outlet that feeds it.

Takes a build; yields outcomes for each thing that says its plug's letter; things sold with whatever a country has are left out.
"""

from collections.abc import Iterator

from firstfix.build.hardware import Device
from firstfix.build.model import Build
from firstfix.finding.model import Basis, Cure, Label, Level
from firstfix.parts.facts import Unknown
from firstfix.parts.forms import PLUGS
from firstfix.rules.mains_loads import ELECTRICIAN
from firstfix.rules.rule import Fine, Outcome, Rule, rule
from firstfix.standards.mains import plug_fits

_PLUGS = Basis("IEC/TR 60083 (2015)", "world survey of plugs, letters as the trade uses them, from memory")
_LOCAL = "local"


@rule("plug-fits", Level.ERROR, _PLUGS)
def plug_fits_outlet(build: Build) -> Iterator[Outcome]:
    """Whether the plug of a thing that has its own goes into the outlet that feeds it.

    Because: gear bought abroad or second-hand has another country's plug, and a traveller's adaptor behind a cabinet gets hot.
    Compares: the letter of the thing's plug (`mains: {shape: G}` of its part) with that of the outlet: the strip's `sockets`, else
        the plan's `mains: {plug: F}`. A goes into B, C into most with two round holes, E and F into each other.
    Skips: parts whose plug is 'local', and leads with IEC 60320 couplers at their ends, of which mains-outlets tells.
    Cannot tell: a plan that does not say which plug its outlets take.
    Remedy: the same thing with the plug of the country, or a lead with it, if it is one that comes off.
    """
    letters = {
        name for name in {device.part.mains.shape for device in build.devices.values()} if _is_letter(name)
    }
    if not letters:
        return
    for feed in build.mains_feeds:
        device = build.devices[feed.device]
        if device.part.mains.shape in letters and device.part.mains.inlet in ("plug", "adaptor"):
            yield _judge(build, device, feed.source)


def _is_letter(shape: object) -> bool:
    return isinstance(shape, str) and shape != _LOCAL and shape in PLUGS


def _judge(build: Build, device: Device, source: str) -> Outcome:
    plug, at = device.part.mains.shape, build.provenance.span(device.id, "part")
    strip = build.devices.get(source)
    sockets = strip.part.mains.sockets if strip is not None else _LOCAL
    if isinstance(sockets, Unknown):
        assert strip is not None
        return plug_fits_outlet.cannot_tell(
            device.id, at, f"the outlets of '{strip.part.name}' (`mains: {{sockets: …}}`)"
        )
    if sockets == _LOCAL:
        if isinstance(build.mains.plug, Unknown):
            return plug_fits_outlet.cannot_tell(device.id, at, build.mains.plug.why)
        sockets = build.mains.plug
    if plug == sockets or (plug, sockets) in plug_fits():
        return Fine(device.id)
    where = f"'{strip.name}'" if strip is not None else f"'{build.rooms[source].name}'"
    return plug_fits_outlet.finding(
        f"'{device.name}' has a plug of kind {plug}, and the outlets of {where} take kind {sockets}",
        device.id,
        at,
        related=(
            Label(build.provenance.span(source, "part") or build.provenance.span(source), "feeds it"),
            ELECTRICIAN,
        ),
        cures=(Cure(f"take it with a plug of kind {sockets}; a traveller's adaptor is none for good"),),
    )


RULES: tuple[Rule, ...] = (plug_fits_outlet,)
