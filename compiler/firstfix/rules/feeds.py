"""Devices with several mains leads: whether a second lead is of any use."""

from collections import defaultdict
from collections.abc import Iterator, Mapping

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.finding.model import COMMON_PRACTICE, Cure, Label, Level
from firstfix.rules.rule import Fine, Outcome, Rule, rule


@rule("feeds-not-apart", Level.WARNING, COMMON_PRACTICE)
def feeds_not_apart(build: Build) -> Iterator[Outcome]:
    """The leads of a device with several do not hang on one and the same strip or UPS.

    Because: a second lead is there for the day the first one's feed fails; when both hang on one thing, both fail with it.
    Compares: all strips and UPSs behind each lead, as far as the wall; none of them is behind every lead.
    Skips: devices with one mains lead. Whether two wall outlets are on one circuit is not looked at.
    Remedy: plug one of the leads into another strip, a UPS of its own, or the wall (`power: [ups, wall]`).
    """
    if not any(feed.inlet > 1 for feed in build.mains_feeds):
        return
    sources: defaultdict[str, list[str]] = defaultdict(list)
    for feed in build.mains_feeds:
        sources[feed.device].append(feed.source)
    for device, mine in sources.items():
        if len(mine) < 2:
            continue
        common = set.intersection(*(_behind(source, sources) for source in mine)) & build.devices.keys()
        if not common:
            yield Fine(device)
            continue
        shared = sorted(common)
        names = " and ".join(f"'{ids.path(each)}'" for each in shared)
        yield feeds_not_apart.finding(
            f"all {len(mine)} mains leads of '{ids.path(device)}' hang on {names}: when that fails, all of them fail",
            device,
            build.provenance.span(device, "power"),
            related=tuple(
                Label(at, f"{ids.path(each)} is behind each of them")
                for each in shared
                if (at := build.provenance.span(each)) is not None
            ),
            cures=(Cure("plug one of the leads into another strip, a UPS of its own, or the wall"),),
        )


def _behind(source: str, sources: Mapping[str, list[str]]) -> set[str]:
    """`source` and all that it is fed by, as far as the wall."""
    found: set[str] = set()
    ahead = [source]
    while ahead:
        each = ahead.pop()
        if each not in found:
            found.add(each)
            ahead += sources.get(each, ())
    return found


RULES: tuple[Rule, ...] = (feeds_not_apart,)
