"""What can be seen to be right after a step, before the next: only what is so in the network as it stands by then.

Takes the course; gives sentences for a step. What will have power or a link only after a later step is not asked for now.
"""

from collections.abc import Iterable, Iterator, Sequence

from firstfix.build import ids
from firstfix.changeover.job import SETTINGS, Job, Kind
from firstfix.changeover.order import Course
from firstfix.changeover.union import Path, Union
from firstfix.changeover.view import View
from firstfix.changeover.ways import leads_out
from firstfix.parts.part import ACTIVE_KINDS
from firstfix.work.wiring import sealed

_MOST_LINKS = 6


class Checks:
    """`station`: id of the device from which the others are set."""

    def __init__(self, course: Course, station: str) -> None:
        self._net, self._station = course.network, station
        self._union = course.network.union
        self._fed_by = _fed_by(self._union)
        self._fed_over: dict[str, set[str]] = {}
        for sink, feeds in self._union.poe.items():
            for each in feeds:
                for key in each.feed.pieces:
                    self._fed_over.setdefault(key, set()).add(sink)
        self._paths_at: dict[str, list[Path]] = {}
        for path in self._union.paths:
            for token in {*path.pieces, *path.lane.devices, *path.lane.through}:
                self._paths_at.setdefault(token, []).append(path)

    def of_step(self, done: int, does: int, jobs: Sequence[Job]) -> Iterator[str]:
        """`jobs`: all of the bundles of `does`; what is so once `done` and they are done."""
        before, after = self._net.view(done), self._net.view(done | does)
        started = self._started(before, after, jobs)
        yield from self._closed(jobs)
        yield from self._answers(after, started, self._net.look(done | does).managed)
        yield from self._settings(after, jobs)
        yield from self._links(before, after, {*started, *_touched(jobs)})

    def _closed(self, jobs: Sequence[Job]) -> Iterator[str]:
        build = self._union.new.build
        for way in (build.ways[job.subject] for job in jobs if job.kind is Kind.CLOSE):
            exposure = "outdoor" if leads_out(build, way) else way.exposure
            yield f"holes of {way.name}: {sealed(exposure)}"

    def _settings(self, after: View, jobs: Sequence[Job]) -> Iterator[str]:
        for job in jobs:
            if job.kind in SETTINGS and after.is_powered(job.subject):
                yield f"{ids.path(job.subject)} shows what was set, and it is stored for its next start"

    def _started(self, before: View, after: View, jobs: Sequence[Job]) -> list[str]:
        """What gets power by this step, or had none while it was done; only what somebody said what feeds it."""
        off = {job.turned for job in jobs}
        return sorted(
            (
                device
                for device in self._downstream(_touched(jobs))
                if self._is_told(device)
                and after.is_powered(device)
                and (device in off or not before.is_powered(device))
            ),
            key=ids.natural,
        )

    def _is_told(self, device: str) -> bool:
        return device in self._union.poe or any(side.feeds.get(device) for side in self._union.sides)

    def _downstream(self, touched: Iterable[str]) -> set[str]:
        """Devices whose power can depend on these devices and pieces."""
        waiting = [sink for each in touched for sink in (each, *self._fed_over.get(each, ()))]
        found: set[str] = set()
        while waiting:
            device = waiting.pop()
            if device in self._union.known_devices and device not in found:
                found.add(device)
                waiting += self._fed_by.get(device, ())
        return found

    def _answers(self, after: View, started: Iterable[str], managed: int) -> Iterator[str]:
        for device in started:
            answers = device != self._station and self._net.bit(device) & managed
            verb = "has started" if _is_active(after, device) else "gives power"
            from_there = f" and answers from {ids.path(self._station)}" if answers and self._station else ""
            yield f"{ids.path(device)} {verb}{from_there}"

    def _links(self, before: View, after: View, touched: Iterable[str]) -> Iterator[str]:
        """Lanes that are plugged in from end to end, with power at both ends, and were not before."""
        near = {path.at: path for each in touched for path in self._paths_at.get(each, ())}
        fresh = [path for _, path in sorted(near.items()) if _is_up(after, path) and not _is_up(before, path)]
        for path in fresh[:_MOST_LINKS]:
            yield f"{' – '.join(map(ids.path, path.lane.jacks))}: both ends show a link"
        if len(fresh) > _MOST_LINKS:
            yield f"{len(fresh) - _MOST_LINKS} more links show at both ends"


def _fed_by(union: Union) -> dict[str, list[str]]:
    """Source to what it feeds in either plan."""
    found: dict[str, list[str]] = {}
    for side in union.sides:
        for sink, sources in side.feeds.items():
            for source in sources:
                found.setdefault(source, []).append(sink)
        for feed in side.poe:
            found.setdefault(feed.source, []).append(feed.sink)
    return found


def _touched(jobs: Iterable[Job]) -> list[str]:
    """Devices that come or are turned, and pieces that come."""
    return [
        each
        for job in jobs
        for each in (*job.adds, *((job.subject,) if job.turned or job.kind is Kind.PUT_IN else ()))
    ]


def _is_up(view: View, path: Path) -> bool:
    return view.is_live(path) and all(map(view.is_powered, path.lane.devices))


def _is_active(view: View, device: str) -> bool:
    return any(side.devices[device].part.kind in ACTIVE_KINDS for side in view.versions_of(device))
