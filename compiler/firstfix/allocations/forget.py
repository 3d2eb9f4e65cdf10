"""Forgetting kept choices on purpose, so that the next build makes them anew."""

from collections import Counter
from collections.abc import Collection

from firstfix.allocations.choices import Choices, KeptRun, KeptStop, devices_named


def known_names(choices: Choices) -> frozenset[str]:
    """The names of devices and runs, and of labelled places, about which something is kept."""
    return frozenset(
        devices_named(choices).union(
            [run.run for run in choices.runs], [label.name for label in choices.labels]
        )
    )


def without(choices: Choices, names: Collection[str]) -> Choices:
    """`choices` without those about `names`, each of them a device's name or a run's, or that of a place with a label.

    Of a device: its host number, its mains feed, and the jacks at it; where it ends one run only, also that one's jack at the other end.
    What lies between stays: panels and outlets have installed runs at their rears, which nobody moves for a cord.
    A run stays the run it is: it keeps its name, also where it has a number.
    """
    if not names:
        return choices
    count = Counter(stop.device for run in choices.runs for stop in _ends(run))
    single = frozenset(name for name in names if count[name] == 1)
    return choices._replace(
        runs=tuple([_run_without(run, names, single) for run in choices.runs]),
        hosts=tuple([host for host in choices.hosts if host.device not in names]),
        feeds=tuple([feed for feed in choices.feeds if feed.device not in names]),
        routers=tuple([router for router in choices.routers if router.device not in names]),
        labels=tuple([label for label in choices.labels if label.name not in names]),
    )


def _run_without(run: KeptRun, names: Collection[str], single: Collection[str]) -> KeptRun:
    """`single`: those of the names that end no other run."""
    ends = _ends(run)
    forgotten = {stop.device for stop in ends} if any(stop.device in single for stop in ends) else set[str]()
    is_named = run.run in names
    stops = [
        KeptStop(stop.device, ()) if is_named or stop.device in names or stop.device in forgotten else stop
        for stop in run.stops
    ]
    return run._replace(stops=tuple(stops))


def _ends(run: KeptRun) -> tuple[KeptStop, ...]:
    return *run.stops[:1], *run.stops[1:][-1:]
