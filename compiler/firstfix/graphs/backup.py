"""Which devices stay up when the mains goes: whatever hangs on a UPS, through strips, and through PoE from what hangs on it.

Takes a build and what of it is live; gives one domain for each UPS. A device with two feeds may be in two domains.
How long a battery lasts is not said here: parts do not tell what their batteries hold.
"""

from collections import defaultdict
from typing import NamedTuple

from firstfix.build.ids import natural
from firstfix.build.model import Build
from firstfix.build.power import PowerRun
from firstfix.build.presence import EVERYTHING, Presence
from firstfix.parts.facts import Fact

BY_MAINS = "mains lead"
BY_POE = "PoE"


class Held(NamedTuple):
    """`device` is fed by `source`, the next thing towards the UPS, over a mains lead or by PoE."""

    device: str
    source: str
    how: str


class BackupDomain(NamedTuple):
    """What one UPS keeps up, in the natural order of ids, itself left out."""

    ups: str
    holds: tuple[Held, ...]


def backup_domains(build: Build, presence: Presence = EVERYTHING) -> tuple[BackupDomain, ...]:
    """One for each UPS that is live, in order of ids."""
    fed = _feeds_by_source(build, presence)
    ups = sorted(
        each.id for each in build.devices.values() if each.part.kind == "ups" and presence.has(each.id)
    )
    return tuple(BackupDomain(each, _held(each, fed)) for each in ups)


def stays_up(build: Build, presence: Presence = EVERYTHING) -> frozenset[str]:
    """Ids of the devices that still have power without the mains, UPSs among them."""
    domains = backup_domains(build, presence)
    return frozenset(
        [domain.ups for domain in domains] + [held.device for domain in domains for held in domain.holds]
    )


def _held(ups: str, fed: dict[str, list[Held]]) -> tuple[Held, ...]:
    found: dict[str, Held] = {}
    ahead = [ups]
    while ahead:
        for each in fed.get(ahead.pop(), ()):
            if each.device != ups and each.device not in found:
                found[each.device] = each
                ahead.append(each.device)
    return tuple(sorted(found.values(), key=lambda each: natural(each.device)))


def _feeds_by_source(build: Build, presence: Presence) -> dict[str, list[Held]]:
    found: defaultdict[str, list[Held]] = defaultdict(list)
    for feed in build.mains_feeds:
        if feed.source in build.devices and presence.has(feed.device, feed.source):
            found[feed.source].append(Held(feed.device, feed.source, BY_MAINS))
    for run in build.power_runs.values():
        held = Held(build.jacks[run.sink].device, build.jacks[run.source].device, BY_POE)
        if _gives(run) and presence.has(held.device, held.source, run.channel, *run.pieces):
            found[held.source].append(held)
    return found


def _gives(run: PowerRun) -> bool:
    """A run that was denied its class gives nothing. One whose watts are unknown is taken to feed."""
    return not (isinstance(run.granted, Fact) and run.granted.high <= 0)
