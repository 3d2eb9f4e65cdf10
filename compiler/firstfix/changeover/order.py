"""The order of a changeover: which bundle after which, and what each of them costs those who use the network.

Costs are compared in this order: rules that are broken (a loop, a budget), settings that can only be made at the device itself, minutes
without service added up over the devices, minutes without being managed.
"""

from collections.abc import Mapping, Sequence
from functools import reduce
from operator import or_
from typing import NamedTuple

from firstfix.algorithms.cheapest_order import Cost, Option, Order, cheapest_order, plus
from firstfix.algorithms.moved_about import moved_about
from firstfix.changeover.bounds import Bounds
from firstfix.changeover.bundles import Bundle
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.network import Network

# Costs that are reckoned before the best order so far is taken; some seconds' work for a network of 40 devices. In a larger one each
# takes longer, in proportion to its lanes, so that fewer are.
MOST_COSTS = 1200
_MOST_LANES_SEEN = 60_000
FREE: Cost = (0, 0, 0, 0)


class Effect(NamedTuple):
    """What doing some bundles in one go does: bits of devices that are down meanwhile and that can't be managed meanwhile; rules broken
    afterwards; devices that are out of reach afterwards with something still to set; jobs to be done at the device itself.
    """

    minutes: int
    down: int
    unmanaged: int
    broken: tuple[tuple[str, str], ...]
    locked: int
    on_site: tuple[Job, ...]


class Course:
    """What there is to do, and what it does when it is done after these and before those."""

    def __init__(self, network: Network, bundles: Sequence[Bundle]) -> None:
        self.network, self.bundles = network, bundles
        first, last = network.look(0), network.look(network.all_done)
        self.counted = first.served & last.served
        self.watched = first.managed & last.managed
        self.options = tuple(_options(bundles, network.union.depths()))
        self._follows = [
            sum(1 << at for at, each in enumerate(bundles) if each.needs >> bit & 1)
            for bit in range(len(bundles))
        ]
        self._settings = self._settings_by_device()

    def _settings_by_device(self) -> tuple[tuple[int, int], ...]:
        """(device's bit, bundles that set something in it)"""
        found: dict[int, int] = {}
        for bit, bundle in enumerate(self.bundles):
            for job in bundle.jobs:
                if self.is_from_afar(job):
                    device = self.network.bit(job.subject)
                    found[device] = found.get(device, 0) | 1 << bit
        return tuple(sorted(found.items()))

    def is_from_afar(self, job: Job) -> bool:
        """It is a setting of something that can be managed over the network; all else is done at the device anyway."""
        return job.is_setting and job.subject in self.network.union.manageable

    def effect(self, done: int, does: int) -> Effect:
        bundles = [bundle for bit, bundle in enumerate(self.bundles) if does >> bit & 1]
        jobs = [job for bundle in bundles for job in bundle.jobs]
        hands = frozenset(_in_hands(jobs))
        looks = [self.network.look(done), self.network.look(done | does)]
        if hands:
            looks.append(self.network.look(done, hands))
        served, managed = self.counted, self.watched
        for look in looks:
            served, managed = served & look.served, managed & look.managed
        return Effect(
            sum(bundle.minutes for bundle in bundles),
            self.counted & ~served,
            self.watched & ~managed,
            looks[1].broken,
            self._locked(done | does) & ~self._locked(done),
            self._on_site(jobs, looks[0].managed),
        )

    def _on_site(self, jobs: Sequence[Job], managed: int) -> tuple[Job, ...]:
        """Settings of what cannot be reached."""
        return tuple(
            job for job in jobs if self.is_from_afar(job) and not self.network.bit(job.subject) & managed
        )

    def _locked(self, done: int) -> int:
        managed = self.network.look(done).managed
        return sum(device for device, needs in self._settings if needs & ~done and not device & managed)

    def needs(self, does: int) -> int:
        """What must be done before these bundles."""
        return self._together([self.bundles[at].needs for at in _bits(does)]) & ~does

    def cost(self, done: int, option: int) -> Cost:
        return self.cost_of(done, self.options[option].does)

    def cost_of(self, done: int, does: int) -> Cost:
        effect = self.effect(done, does)
        return (
            len(effect.broken),
            effect.locked.bit_count() + len(effect.on_site),
            effect.minutes * effect.down.bit_count(),
            effect.minutes * effect.unmanaged.bit_count(),
        )

    def at_least(self, bit: int, done: int, left: int) -> Cost:
        """What a bundle costs at the least after `done` and before `left`: before, while and after it is done at the best that may
        stand then."""
        network, own = self.network, 1 << bit
        must = self.bundles[bit].needs | done
        must |= self._together([self.bundles[at].needs for at in _bits(done)])
        later = left | self._together([self._follows[at] for at in _bits(left)])
        may = network.all_done & ~later
        before = may & ~own & ~self._follows[bit]
        looks = [network.at_best(must, before), network.at_best(must | own, may)]
        hands = frozenset(_in_hands(self.bundles[bit].jobs))
        if hands:
            looks.append(network.at_best(must, before, hands))
        served, managed = self.counted, self.watched
        for look in looks:
            served, managed = served & look.served, managed & look.managed
        minutes = self.bundles[bit].minutes
        down, unmanaged = self.counted & ~served, self.watched & ~managed
        on_site = self._on_site(self.bundles[bit].jobs, looks[0].managed)
        return (0, len(on_site), minutes * down.bit_count(), minutes * unmanaged.bit_count())

    @staticmethod
    def _together(masks: list[int]) -> int:
        return reduce(or_, masks, 0)

    def first(self) -> int:
        """What can be done before all else, since nobody notices it and nothing is worse for it."""
        managed = self.network.look(0).managed
        done = 0
        for bit, bundle in _until_nothing_changes(self.bundles):
            reachable = all(
                not self.is_from_afar(job) or self.network.bit(job.subject) & managed for job in bundle.jobs
            )
            if reachable and not bundle.needs & ~done and all(job.inert for job in bundle.jobs):
                done |= 1 << bit
        return done

    def last(self, first: int) -> int:
        """What can be left until all else is done."""
        late = 0
        for bit, bundle in _until_nothing_changes(self.bundles[::-1]):
            at = len(self.bundles) - 1 - bit
            own, follows = 1 << at, self._follows[at]
            inert = all(job.inert and not job.is_setting for job in bundle.jobs)
            if inert and not follows & ~late and not own & first:
                late |= own
        return late


def _until_nothing_changes(bundles: Sequence[Bundle]) -> list[tuple[int, Bundle]]:
    """Bundles come in the order of their kinds, which is not quite that of their needs: twice round finds nearly all."""
    return [*enumerate(bundles), *enumerate(bundles)]


def _bits(mask: int) -> list[int]:
    return [at for at in range(mask.bit_length()) if mask >> at & 1]


def _in_hands(jobs: Sequence[Job]) -> list[str]:
    """Devices and cords that are out of use while jobs are done."""
    return [each for job in jobs for each in (*job.drops, *((job.turned,) if job.turned else ()))]


def _options(bundles: Sequence[Bundle], depth: Mapping[str, int]) -> list[Option]:
    """Each bundle by itself; and a cord drawn and another plugged in its stead, in one go, which comes first.

    Of jobs of a kind those at the link farthest from the station come first, at its far end before its near one: what is found without
    comparing is then seldom bad. `depth`: how many lanes a device is from the station.
    """
    found = []
    drawn = _drawn(bundles)
    for bit, bundle in enumerate(bundles):
        job = bundle.jobs[0]
        own, other = depth.get(job.subject, 0), depth.get(job.towards, 0)
        rank = (-max(own, other), *sorted((job.subject, job.towards)), -own)
        for draws in _in_its_stead(bundle, drawn):
            both = 1 << bit | 1 << draws
            needs = (bundle.needs | bundles[draws].needs) & ~both
            found.append(((job.kind, 0, rank, bit), Option(both, needs)))
        found.append(((job.kind, 1, rank, bit), Option(1 << bit, bundle.needs)))
    return [option for _, option in sorted(found, key=lambda each: each[0])]


def _drawn(bundles: Sequence[Bundle]) -> dict[str, list[int]]:
    """Bundles that only draw one cord or run, by the jacks at its ends and by what is done."""
    found: dict[str, list[int]] = {}
    for bit, bundle in enumerate(bundles):
        if len(bundle.jobs) == 1 and bundle.jobs[0].kind is Kind.UNPLUG:
            for token in (*bundle.jobs[0].ends, bundle.jobs[0].id):
                found.setdefault(token, []).append(bit)
    return found


def _in_its_stead(bundle: Bundle, drawn: Mapping[str, list[int]]) -> list[int]:
    """What could be drawn in one go with plugging this in: what is at one of its jacks, and the same run at its old ones."""
    job = bundle.jobs[0]
    if len(bundle.jobs) != 1 or job.kind not in (Kind.PLUG, Kind.JOIN):
        return []
    return sorted({bit for token in (*job.ends, *job.after) for bit in drawn.get(token, ())})


def best_order(course: Course, most: int = MOST_COSTS) -> tuple[Order, tuple[int, ...]]:
    """The order, and what is done in one go at each of its steps, as bits."""
    first = course.first()
    late = course.last(first)
    goal = course.network.all_done
    bounds = Bounds(course.bundles, course.at_least, FREE)
    aim = goal & ~late
    affordable = min(most, _MOST_LANES_SEEN // max(1, len(course.network.union.paths)))
    order = cheapest_order(
        course.options, first, aim, course.cost, lambda done: bounds.still(done, aim), FREE, affordable
    )
    if not order.is_proven:
        order = _improved(course, order, first, affordable)
    steps = [1 << bit for bit in _in_order(course.bundles, first, 0)]
    steps += _joined(course, first, [course.options[number].does for number in order.options])
    steps += [1 << bit for bit in _in_order(course.bundles, late, goal & ~late)]
    return order, tuple(steps)


def _improved(course: Course, order: Order, start: int, most: int) -> Order:
    """What was done without looking back, looked at once more."""
    options = moved_about(course.options, order.options, start, course.cost, FREE, most)
    spent, done = FREE, start
    for number in options:
        spent = plus(spent, course.cost(done, number))
        done |= course.options[number].does
    return Order(spent, options, order.bound)


def _joined(course: Course, done: int, steps: Sequence[int]) -> list[int]:
    """A cord that is drawn and plugged in elsewhere at once is one step, where that costs the same."""
    number = {option.does: at for at, option in enumerate(course.options)}
    found: list[int] = []
    before = done
    for does in steps:
        both = found[-1] | does if found else 0
        if (
            both in number
            and found[-1] in number
            and _costs_the_same(course, before, number, found[-1], does)
        ):
            found[-1] = both
        else:
            before = done
            found.append(does)
        done |= does
    return found


def _costs_the_same(course: Course, done: int, number: Mapping[int, int], first: int, then: int) -> bool:
    apart = plus(course.cost(done, number[first]), course.cost(done | first, number[then]))
    return course.cost(done, number[first | then]) == apart


def _in_order(bundles: Sequence[Bundle], which: int, done: int) -> list[int]:
    found: list[int] = []
    while which:
        bit = next(at for at, each in enumerate(bundles) if which >> at & 1 and not each.needs & ~done)
        found.append(bit)
        which &= ~(1 << bit)
        done |= 1 << bit
    return found
