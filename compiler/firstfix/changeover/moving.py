"""A run that lies there already and changes jacks, in words: which of its ends goes from where to where, and how."""

from collections.abc import Iterable

from firstfix.build import ids
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.replugging import WIRED, held, moved, replugged
from firstfix.changeover.settings import device_of
from firstfix.changeover.sides import Laid, Side


class Moving:
    """Of two sides, with their runs under the new names of their jacks."""

    def __init__(self, old: Side, new: Side) -> None:
        self._old, self._new = old, new
        self._lies = replugged(old, new)
        self._moved: dict[str, tuple[str, ...]] = {}
        for now, was in self._lies.items():
            self._moved[now] = moved(new.laid[now], old.laid[was])
            self._moved[was] = moved(old.laid[was], new.laid[now])

    def is_moved(self, job: Job) -> bool:
        return job.subject in self._moved

    def is_same(self, out: Job, into: Job) -> bool:
        """`into` connects the run that `out` takes off."""
        return (
            out.kind is Kind.UNPLUG and into.kind is Kind.JOIN and self._lies.get(into.subject) == out.subject
        )

    def at(self, laid: Laid) -> tuple[str, ...]:
        """The ends at which there is something to do."""
        return self._moved.get(laid.key, laid.ends)

    def whole(self, out: Job, into: Job) -> tuple[str, str]:
        """What to do, and the way back. The ends on both sides are in the order of their devices, which are the same."""
        leaves, goes = self._moved[out.subject], self._moved[into.subject]
        where = [
            f"from {jack_words(one)} to {jack_words(other)}" for one, other in zip(leaves, goes, strict=True)
        ]
        return (
            f"Move {self._ends(into, where)}",
            f"connect it at {' and '.join(map(jack_words, leaves))} again",
        )

    def half(self, job: Job) -> tuple[str, str]:
        """The same where something else is done between taking it off and connecting it."""
        jacks = [jack_words(end) for end in self._moved[job.subject]]
        if job.kind is Kind.UNPLUG:
            return f"Take {self._ends(job, [f'out of {jack}' for jack in jacks])}", "connect it there again"
        return f"Put {self._ends(job, [f'into {jack}' for jack in jacks])}", "take it out again"

    def _ends(self, job: Job, where: Iterable[str]) -> str:
        side = self._old if job.kind is Kind.UNPLUG else self._new
        laid = side.laid[job.subject]
        run = " – ".join(ids.path(device_of(end)) for end in laid.ends)
        said: list[str] = []
        for end, place in zip(self._moved[laid.key], where, strict=True):
            how = held(side, laid, end)
            of_run = "" if said else f" of the run {run}"
            made = ", made anew and tested" if how == WIRED and side is self._new else ""
            said.append(f"the {how}{of_run} {place}{made}")
        return ", and ".join(said)


def jack_words(jack: str) -> str:
    return ids.path(jack).removesuffix("@rear")
