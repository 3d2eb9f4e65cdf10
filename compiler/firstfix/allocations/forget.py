"""Forgetting kept choices on purpose, so that the next build makes them anew."""

from collections.abc import Collection

from firstfix.allocations.choices import Choices, KeptRun, KeptStop, devices_named


def known_names(choices: Choices) -> frozenset[str]:
    """The names of devices and runs about which something is kept."""
    return frozenset(devices_named(choices).union([run.run for run in choices.runs]))


def without(choices: Choices, names: Collection[str]) -> Choices:
    """`choices` without those about `names`, each of them a device's name or a run's.

    Of a device: its host number, its mains feed, the jacks at it, and all jacks of the runs that begin or end at it.
    A run stays the run it is: it keeps its name, also where it has a number.
    """
    if not names:
        return choices
    return choices._replace(
        runs=tuple([_run_without(run, names) for run in choices.runs]),
        hosts=tuple([host for host in choices.hosts if host.device not in names]),
        feeds=tuple([feed for feed in choices.feeds if feed.device not in names]),
        routers=tuple([router for router in choices.routers if router.device not in names]),
    )


def _run_without(run: KeptRun, names: Collection[str]) -> KeptRun:
    ends = {stop.device for stop in (*run.stops[:1], *run.stops[-1:])}
    whole = run.run in names or not ends.isdisjoint(names)
    stops = [KeptStop(stop.device, ()) if whole or stop.device in names else stop for stop in run.stops]
    return run._replace(stops=tuple(stops))
