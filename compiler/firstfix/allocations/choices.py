"""The choices that are kept from one build to the next. Never a length or a sum: those follow from the plan alone.

Everything is held by the author's own names, so that a line of the file says what it is about. Of each choice, `about` says in words
what it decides (two choices with the same `about` contradict each other), `chosen` what became of it, `at` where it stands in the file.
"""

from typing import NamedTuple

from firstfix.span import Span


class KeptStop(NamedTuple):
    """One place of a run: the device, and the jacks taken there by name, lane after lane; none where they were forgotten.

    In a device that a run enters and leaves by jacks of its own choice, each lane has two, the one towards the run's first end first.
    """

    device: str
    jacks: tuple[str, ...]


class KeptRun(NamedTuple):
    """One run: its name (`core--desk#2`), its places in order, and a digest of all that it says beside them ("" for nothing)."""

    run: str
    stops: tuple[KeptStop, ...]
    says: str
    at: Span | None = None

    @property
    def about(self) -> str:
        return f"run {self.run}"

    @property
    def chosen(self) -> str:
        return ", ".join(f"{stop.device}/{'+'.join(stop.jacks)}" for stop in self.stops)


class KeptHost(NamedTuple):
    """A device's host number in its VLAN: the distance of its address from the subnet's first."""

    device: str
    vlan: str
    host: int
    at: Span | None = None

    @property
    def about(self) -> str:
        return f"host number of {self.device} in {self.vlan}"

    @property
    def chosen(self) -> str:
        return str(self.host)


class KeptFeed(NamedTuple):
    """What feeds a mains inlet: a device's name or a room's `site/room`, and which of its outlets, from 1."""

    device: str
    inlet: int
    source: str
    outlet: int
    at: Span | None = None

    @property
    def about(self) -> str:
        return f"mains feed of {self.device}" + (f" at inlet {self.inlet}" if self.inlet > 1 else "")

    @property
    def chosen(self) -> str:
        return f"outlet {self.outlet} of {self.source}"


class KeptRoute(NamedTuple):
    """The ways from one room to another, in order. `rooms` are `site/room`, the one that sorts first in front."""

    rooms: tuple[str, str]
    ways: tuple[str, ...]
    at: Span | None = None

    @property
    def about(self) -> str:
        return f"route from {self.rooms[0]} to {self.rooms[1]}"

    @property
    def chosen(self) -> str:
        return ", ".join(self.ways)


class KeptRouter(NamedTuple):
    """The router that holds the gateway address of each subnet."""

    device: str
    at: Span | None = None

    @property
    def about(self) -> str:
        return "router that holds the gateway addresses"

    @property
    def chosen(self) -> str:
        return self.device


class KeptLabel(NamedTuple):
    """A thing's own part of its identifier. `kind` is site, building, room or cabinet; `name` its path, `site/room`."""

    kind: str
    name: str
    label: str
    at: Span | None = None

    @property
    def about(self) -> str:
        return f"label of the {self.kind} {self.name}"

    @property
    def chosen(self) -> str:
        return self.label


LABELLED_KINDS = ("site", "building", "room", "cabinet")

Choice = KeptRun | KeptHost | KeptFeed | KeptRoute | KeptRouter | KeptLabel


class Choices(NamedTuple):
    """All kept choices of one plan."""

    runs: tuple[KeptRun, ...] = ()
    hosts: tuple[KeptHost, ...] = ()
    feeds: tuple[KeptFeed, ...] = ()
    routes: tuple[KeptRoute, ...] = ()
    routers: tuple[KeptRouter, ...] = ()
    labels: tuple[KeptLabel, ...] = ()


NO_CHOICES = Choices()


def devices_named(choices: Choices) -> set[str]:
    """The names of all devices about which something is kept."""
    found = {stop.device for run in choices.runs for stop in run.stops}
    found.update([each.device for each in choices.hosts])
    found.update([each.device for each in choices.feeds])
    found.update([each.device for each in choices.routers])
    return found
