"""Why a thing is as it is: the decisions about a name, written by the author or worked out, and what else was possible."""

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.build.reasons import Decision


def explain_choice(build: Build, name: str) -> tuple[Decision, ...]:
    """Decisions about the thing called `name`: a device, `device/jack`, a way, a VLAN, a cabinet, or a link's id.

    A device's decisions include those of the runs that touch it.
    """
    return tuple(each for each in build.decisions if _concerns(build, each, name))


def _concerns(build: Build, decision: Decision, name: str) -> bool:
    if name in (decision.subject, ids.path(decision.subject)):
        return True
    if decision.value == name:
        return True
    link = build.links.get(decision.subject)
    return link is not None and f"device:{name}" in link.hops


def known_names(build: Build) -> frozenset[str]:
    """Names that may be asked for, whether or not there was anything to decide about them."""
    things = (*build.devices, *build.cabinets, *build.ways, *build.vlans, *build.rooms, *build.links)
    jacks = (ids.path(each) for each in build.jacks)
    return frozenset((*map(ids.path, things), *things, *jacks))
