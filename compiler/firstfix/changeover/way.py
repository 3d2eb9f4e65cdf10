"""The way there: from the network as it is to the network as it is to be, in steps in the best order that was found.

Takes the two builds and which ids of the old one are called otherwise in the new; gives a Way. Each step is looked at on both builds
laid over each other, with just what is plugged in, set and fed by then.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from firstfix.build import ids
from firstfix.build.model import Build
from firstfix.changeover.bundles import bundles_of
from firstfix.changeover.checking import Checks
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.jobs import jobs_between
from firstfix.changeover.model import Interruption, Lost, Step, Way
from firstfix.changeover.network import Network
from firstfix.changeover.order import MOST_COSTS, Course, Effect, best_order
from firstfix.changeover.preference import Preference
from firstfix.changeover.saying import Saying
from firstfix.changeover.sides import Side, side_of
from firstfix.changeover.tidy import Tidy

# Beyond so many, nobody does it in one go, and no order could be proved.
MOST_JOBS = 500
# What bears a name of its own, on a label or in a setting.
_BY_THE_AUTHOR = frozenset({"site", "building", "room", "way", "cabinet", "device", "vlan", "wifi"})


def way_there(
    old: Build, new: Build, names: Mapping[str, str], station: str = "", most_costs: int = MOST_COSTS
) -> Way:
    """`names`: ids of the old build to what the new one calls them (compare.changes knows them). `station`: id of the device by which
    the operator sits; "" for the router, or where there is none the bridge with most links.
    """
    before, after = side_of(old, names), side_of(new, {})
    jobs = jobs_between(before, after)
    renames = sum(1 for each in names if ids.kind(each) in _BY_THE_AUTHOR)
    if len(jobs) > MOST_JOBS:
        many = f"{len(jobs)} jobs are too many to be put in order at once ({MOST_JOBS} at the most): make the change in parts"
        return Way((), "", (), (), (), False, 0, (), renames, (many,))
    bundles = bundles_of(jobs)
    at = station or _station(before, after)
    course = Course(Network(before, after, bundles, at), bundles)
    order, found = best_order(course, most_costs)
    preference = Preference(before, after, bundles)
    goes = Tidy(course, preference).steps(found)
    teller = Teller(course, Saying(before, after), Checks(course, at), preference)
    steps = tuple(teller.steps(goes))
    return Way(
        steps,
        ids.path(at),
        _lost((step.down, step.minutes) for step in steps),
        _lost((step.unmanaged, step.minutes) for step in steps),
        tuple(_interruptions(steps)),
        order.is_proven,
        order.bound[2] if order.bound[:2] == order.cost[:2] else 0,
        teller.uncounted(),
        renames,
        tuple(_doubts(before, after)) if steps else (),
    )


def _station(old: Side, new: Side) -> str:
    """The router that both have; else the bridge of most links."""
    both = sorted(old.devices.keys() & new.devices.keys(), key=ids.natural)
    routers = [device for device in both if new.devices[device].part.routes is True]
    links = Counter(device for lane in new.lanes for device in lane.devices)
    bridges = [device for device in both if new.devices[device].part.bridges is True]
    return next(iter(routers), "") or max(bridges, key=lambda device: links[device], default="")


def _lost(steps: Iterable[tuple[tuple[str, ...], int]]) -> tuple[Lost, ...]:
    total: Counter[str] = Counter()
    for devices, minutes in steps:
        for device in devices:
            total[device] += minutes
    return tuple(
        Lost(device, minutes)
        for device, minutes in sorted(total.items(), key=lambda each: (-each[1], ids.natural(each[0])))
    )


def _interruptions(steps: Sequence[Step]) -> Iterator[Interruption]:
    """Until all are served again, one step must follow the other."""
    open_: list[Step] = []
    for step in steps:
        if step.down or open_:
            open_.append(step)
        if open_ and not step.still_down:
            yield _interruption(open_)
            open_ = []
    if open_:
        yield _interruption(open_)


def _interruption(steps: Sequence[Step]) -> Interruption:
    devices = sorted({device for step in steps for device in step.down}, key=ids.natural)
    return Interruption(
        steps[0].number, steps[-1].number, sum(step.minutes for step in steps), tuple(devices)
    )


def _doubts(old: Side, new: Side) -> Iterator[str]:
    unknown = sorted({ids.path(feed.sink) for side in (old, new) for feed in side.poe if not feed.is_known})
    if unknown:
        yield f"what {', '.join(unknown)} takes by PoE is not known, and counted as nothing"
    for device in sorted(old.devices.keys() & new.devices.keys()):
        part = new.devices[device].part
        if not isinstance(part.bridges, bool):
            yield f"whether {ids.path(device)} bridges between its jacks is not known; it is taken for a bridge"


# Addresses are exchanged: orders.py has both in one go.
_IN_BETWEEN = "in between one of them has a free address of the VLAN: while two have the same, neither is sure to be reached"


class Teller:
    """Steps in words, from the bundles that are done at each."""

    def __init__(self, course: Course, saying: Saying, checks: Checks, preference: Preference) -> None:
        self._course, self._net, self._saying = course, course.network, saying
        self._checks, self._preference = checks, preference

    def uncounted(self) -> tuple[str, ...]:
        both = self._net.bits(frozenset(self._net.union.counted))
        return self._named(both & ~self._course.counted)

    def steps(self, goes: Sequence[int]) -> Iterator[Step]:
        done = 0
        for number, does in enumerate(self.together(goes), 1):
            yield self._step(number, done, does)
            done |= does

    def together(self, goes: Sequence[int]) -> Iterator[int]:
        """Settings of one device that come one after the other, and disconnect nobody, are made in one go."""
        done = held = 0
        place = ""
        for does in goes:
            effect = self._course.effect(done, does)
            here = self._place(does, effect)
            if held and here and here == place:
                held |= does
            else:
                if held:
                    yield held
                held, place = does, here
            done |= does
        if held:
            yield held

    def _place(self, does: int, effect: Effect) -> str:
        quiet = not (effect.down or effect.unmanaged or effect.broken or effect.locked or effect.on_site)
        jobs = self._jobs(does)
        subjects = {job.subject for job in jobs}
        return jobs[0].subject if quiet and len(subjects) == 1 and all(job.is_setting for job in jobs) else ""

    def _jobs(self, does: int) -> list[Job]:
        return [job for bit, each in enumerate(self._course.bundles) if does >> bit & 1 for job in each.jobs]

    def _step(self, number: int, done: int, does: int) -> Step:
        effect, after = self._course.effect(done, does), self._net.look(done | does)
        jobs = sorted(self._jobs(does), key=lambda job: (not job.drops, job.kind, ids.natural(job.id)))
        checks = list(self._checks.of_step(done, does, jobs))
        back = self._named(effect.down & after.served)
        if back:
            checks.append(f"in service again: {', '.join(back)}")
        if len({job.subject for job in jobs if job.kind is Kind.ADDRESS}) > 1:
            checks.insert(0, _IN_BETWEEN)
        return Step(
            number,
            tuple(self._saying.acts(jobs)),
            effect.minutes,
            self._named(effect.down),
            self._named(self._course.counted & ~after.served),
            self._named(effect.unmanaged),
            tuple(dict.fromkeys(checks)),
            tuple(dict.fromkeys(caution for job in jobs for caution in self._saying.cautions(job))),
            tuple(_broken(kind, what) for kind, what in effect.broken),
            self._named(effect.locked),
            tuple(dict.fromkeys(ids.path(job.subject) for job in effect.on_site)),
            self._preference.phase(does),
        )

    def _named(self, devices: int) -> tuple[str, ...]:
        return tuple(sorted((ids.path(each) for each in self._net.names_of(devices)), key=ids.natural))


_BROKEN = {
    "poe": "the PoE budget of {}",
    "outlets": "the mains outlets of {}",
    "load": "the load that {} bears",
}


def _broken(kind: str, what: str) -> str:
    if kind == "loop":
        return f"a loop of {', '.join(ids.path(each) for each in what.split())}, which no spanning tree cuts for sure"
    return _BROKEN[kind].format(ids.path(what))
