"""Kept choices as the passes ask for them: by what they are about, with renames followed, and what nobody asked for at the end.

A choice stays where it is still possible. What the plan says comes first, and of two kept choices that exclude each other the one whose
subject sorts first stays; the other is worked out anew, and that is said.
"""

from collections.abc import Iterable, Mapping
from typing import TypeVar

from firstfix.allocations.choices import (
    NO_CHOICES,
    Choice,
    Choices,
    KeptFeed,
    KeptHost,
    KeptLabel,
    KeptRoute,
    KeptRouter,
    KeptRun,
)
from firstfix.allocations.renamed import renamed
from firstfix.finding.collector import MOST_FAULTS
from firstfix.resolve.notes import Notes

# How many of the choices that are about nothing are named.
_MOST_NAMED = 6

_One = TypeVar("_One", KeptRun, KeptHost, KeptFeed, KeptRoute, KeptRouter, KeptLabel)


class Kept:
    """The kept choices of one plan, over one resolve: each pass asks for its own and says what it could not keep."""

    def __init__(self, choices: Choices, renames: Mapping[str, str], notes: Notes) -> None:
        self._notes = notes
        self._said = 0
        self._idle: dict[str, Choice] = {}
        self.has_any = choices != NO_CHOICES
        choices = renamed(choices, renames) if renames and self.has_any else choices
        # Runs are told apart by more than their names: resolve/kept_runs.py.
        self.runs = choices.runs
        self._hosts = self._first_of(choices.hosts)
        self._feeds = self._first_of(choices.feeds)
        self._routes = self._first_of(choices.routes)
        self._routers = self._first_of(choices.routers)
        self._labels = self._first_of(choices.labels)

    def _first_of(self, choices: tuple[_One, ...]) -> dict[str, _One]:
        """By what they are about. Where one is kept twice, the one whose choice sorts first stays."""
        found: dict[str, _One] = {}
        for each in sorted(choices, key=lambda each: each[:-1]):
            first = found.setdefault(each.about, each)
            if first is not each:
                self.twice(
                    each,
                    f"the {each.about} is kept twice, as {first.chosen} and as {each.chosen}",
                    first.chosen,
                )
        self._idle.update(found)
        return found

    def host(self, device: str, vlan: str) -> KeptHost | None:
        return (self._hosts and self._asked(self._hosts.get(KeptHost(device, vlan, 0).about))) or None

    def feed(self, device: str, inlet: int) -> KeptFeed | None:
        return (self._feeds and self._asked(self._feeds.get(KeptFeed(device, inlet, "", 0).about))) or None

    def route(self, low: str, high: str) -> KeptRoute | None:
        return (self._routes and self._asked(self._routes.get(KeptRoute((low, high), ()).about))) or None

    def router(self) -> KeptRouter | None:
        return (self._routers and self._asked(self._routers.get(KeptRouter("").about))) or None

    def label(self, kind: str, name: str) -> KeptLabel | None:
        return (self._labels and self._asked(self._labels.get(KeptLabel(kind, name, "").about))) or None

    def _asked(self, choice: _One | None) -> _One | None:
        if choice is not None:
            self._idle.pop(choice.about, None)
        return choice

    def twice(self, loser: Choice, message: str, winner: str) -> None:
        """Two kept choices exclude each other; `winner` keeps what `loser` would have had."""
        self._say("kept-twice", loser, f"{message}; {winner}, which sorts first, stays")

    def impossible(self, choice: Choice, message: str) -> None:
        self._say("kept-impossible", choice, f"{message}, so it is worked out anew")

    def _say(self, rule: str, choice: Choice, message: str) -> None:
        """A hostile file can hold a hundred thousand contradictions; nobody reads past the first few hundred."""
        self._said += 1
        if self._said <= MOST_FAULTS:
            self._notes.gap(rule, choice.about, message, choice.at)

    def idle(self, runs: Iterable[KeptRun]) -> None:
        """These runs are not in the plan."""
        self._idle.update((f"{each.about} as {each.chosen}", each) for each in runs)

    def finish(self) -> None:
        """Says what is kept for nothing, in one sentence, and how much was not said."""
        if self._said > MOST_FAULTS:
            message = f"{self._said - MOST_FAULTS:,} further kept choices could not stay"
            self._notes.gap("kept-impossible", "kept", message, None)
        if not self._idle:
            return
        named = sorted(each.about for each in self._idle.values())
        more = f" and {len(named) - _MOST_NAMED:,} more" if len(named) > _MOST_NAMED else ""
        first = min(self._idle.values(), key=lambda each: each.at or ())
        message = f"kept for nothing that the plan leaves open: {', '.join(named[:_MOST_NAMED])}{more}"
        self._notes.gap("kept-idle", "kept", message, first.at)
