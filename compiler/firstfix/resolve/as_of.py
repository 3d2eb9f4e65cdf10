"""The build as of a phase: what comes later left out, and the power that is given and taken until then reckoned anew.

Takes a plan, its build and a phase; gives a build. What was chosen (jacks, ways, addresses, feeds) is that of the whole network.
"""

from dataclasses import replace

from firstfix.build.model import Build
from firstfix.build.phases import ranks
from firstfix.build.presence import as_of
from firstfix.build.restrict import restricted
from firstfix.plan.model import Plan
from firstfix.resolve.jacks import resolve_jacks
from firstfix.resolve.notes import Notes
from firstfix.resolve.poe import resolve_poe


def build_as_of(plan: Plan, build: Build, phase: str) -> Build:
    """`build` itself as of its last phase. Raises ValueError for a name that is no phase of it; "" is before the first."""
    presence, rank = as_of(build, phase), ranks(build.phases)
    if rank[phase] == len(build.phases):
        return build
    there = tuple(each for each in build.phases if rank[each.name] <= rank[phase])
    made = replace(restricted(build, presence), phases=there)
    return _powered(plan, made) if made.power_sources else made


def _powered(plan: Plan, build: Build) -> Build:
    """Who hands on less takes less."""
    devices = dict(build.devices)
    field = resolve_jacks(devices.values())
    poe = resolve_poe(
        plan,
        dict(build.channels),
        dict(build.pieces),
        dict(build.ways),
        field,
        devices,
        build.library,
        Notes(),
    )
    return replace(build, power_runs=poe.runs, power_sources=poe.sources)
