"""Whether a way can be followed: nothing is used before it is there, nothing is claimed that isn't so yet, like comes with like."""

import random
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from changeover.edits import EDITS, base, edited
from changeover.expansions import grown, small
from changeover.networks import Plan, acts, build, switched, way
from changeover.test_order import course
from changeover.test_replugging import PAIRS as REPLUGGED
from changeover.test_way import heads, ring
from firstfix.algorithms.cheapest_order import Cost, plus
from firstfix.build import ids
from firstfix.changeover.checking import Checks
from firstfix.changeover.job import Job, Kind
from firstfix.changeover.minutes import Minutes
from firstfix.changeover.order import Course, best_order
from firstfix.changeover.preference import Preference
from firstfix.changeover.saying import Saying
from firstfix.changeover.sides import Side, side_of
from firstfix.changeover.tidy import Tidy
from firstfix.changeover.view import View
from firstfix.changeover.way import Teller
from firstfix.work.preparing import is_dug


def pairs() -> Iterator[tuple[str, Plan, Plan]]:
    yield "expansion", small(), grown()
    yield "and back", grown(), small()
    yield "all edits", base(), edited(tuple(sorted(EDITS)))
    for name in sorted(EDITS):
        yield name, base(), edited((name,))
        yield f"{name}, undone", edited((name,)), base()
    for name, two in sorted(REPLUGGED.items()):
        yield f"{name} moved", *two


PAIRS = list(pairs())
OF_PAIRS = pytest.mark.parametrize(
    ("old", "new"), [each[1:] for each in PAIRS], ids=[each[0] for each in PAIRS]
)


def preference(found: Course) -> Preference:
    return Preference(found.network.union.old, found.network.union.new, found.bundles)


def jobs_of(found: Course, does: int) -> list[Job]:
    return [job for bit, each in enumerate(found.bundles) if does >> bit & 1 for job in each.jobs]


# What is claimed


class Exactly:
    """What is there and plugged in after some jobs, told by the jobs alone; who has power, by following leads and cords."""

    def __init__(self, found: Course) -> None:
        self.union = found.network.union
        self.devices, self.laid = set(self.union.old.devices), set(self.union.old.laid)
        self.turned: set[str] = set()

    def do(self, jobs: list[Job]) -> None:
        for job in jobs:
            self.laid = (self.laid - set(job.drops)) | set(job.adds)
            self.turned |= {job.turned} - {""}
            if job.kind is Kind.PUT_IN:
                self.devices.add(job.subject)
            if job.kind is Kind.TAKE_OUT:
                self.devices.discard(job.subject)

    def powered(self) -> set[str]:
        """Beginning at the walls, and on from whatever has power."""
        found: set[str] = set()
        while True:
            more = {each for each in self.devices - found if self._is_fed(each, found)}
            if not more:
                return found
            found |= more

    def _is_fed(self, device: str, powered: set[str]) -> bool:
        sides = self._sides(device)
        sources = [source for side in sides for source in side.feeds.get(device, ())]
        feeds = [feed for side in sides for feed in side.poe if feed.sink == device]
        if not sources and not any(feed.sink == device for side in self.union.sides for feed in side.poe):
            return True
        by_poe = any(feed.source in powered and self.laid.issuperset(feed.pieces) for feed in feeds)
        return by_poe or any(source in powered or ids.kind(source) != "device" for source in sources)

    def _sides(self, device: str) -> list[Side]:
        old, new = self.union.sides
        if device not in old.devices or device not in new.devices:
            return [side for side in (old, new) if device in side.devices]
        if device not in self.union.turned:
            return [old, new]
        return [new] if device in self.turned else [old]

    def links(self) -> set[frozenset[str]]:
        power = self.powered()
        return {
            frozenset(map(ids.path, lane.jacks))
            for side in self.union.sides
            for lane in side.lanes
            if self.laid.issuperset(lane.pieces)
            and self.devices.issuperset(lane.through)
            and power.issuperset(lane.devices)
        }


@OF_PAIRS
def test_no_step_claims_what_is_not_so_by_then(old: Plan, new: Plan, tmp_path: Path) -> None:
    found = course(build(tmp_path, old), build(tmp_path, new))
    _, order = best_order(found)
    liked = preference(found)
    teller = Teller(found, Saying(*found.network.union.sides), Checks(found, "device:gateway"), liked)
    goes = Tidy(found, liked).steps(order)
    state = Exactly(found)
    claims = 0
    for does, step in zip(teller.together(goes), teller.steps(goes), strict=True):
        state.do(jobs_of(found, does))
        power, links = {ids.path(each) for each in state.powered()}, state.links()
        for check in step.checks:
            if has := re.fullmatch(r"(\S+) (has started|gives power|shows what was set)\b.*", check):
                assert has[1] in power, check
                claims += 1
            if link := re.fullmatch(r"(\S+) – (\S+): both ends show a link", check):
                assert frozenset(link.groups()) in links, check
                claims += 1
    assert claims or all(
        job.kind in (Kind.UNPLUG, Kind.TAKE_OUT) for job in jobs_of(found, found.network.all_done)
    )


@OF_PAIRS
def test_all_that_gets_power_is_looked_at_when_it_does(old: Plan, new: Plan, tmp_path: Path) -> None:
    found = way(tmp_path, old, new)
    before, after = (set(side_of(build(tmp_path, each), {}).devices) for each in (old, new))
    said = {check.partition(" has started")[0] for step in found.steps for check in step.checks}
    side = side_of(build(tmp_path, new), {})
    fed = {feed.sink for feed in side.poe} | set(side.feeds)
    active = {each for each in fed & (after - before) if side.devices[each].part.kind != "power-strip"}
    assert {ids.path(each) for each in active} <= said


def test_what_poe_feeds_has_started_once_its_last_cord_is_in(tmp_path: Path) -> None:
    found = way(tmp_path, small(), grown())
    (put,) = [step for step in found.steps if step.acts[0].id == "PUT_IN:device:a-camera"]
    assert put.checks == ()
    (last,) = [step for step in found.steps if "a-camera has started" in step.checks]
    assert last.number > put.number
    assert "a-camera/1 – main/5: both ends show a link" in last.checks


# What comes before what


def place(found: list[str], start: str) -> int:
    (at,) = [at for at, each in enumerate(found) if each.startswith(start)]
    return at


def test_sources_come_before_sinks_and_go_after_them(tmp_path: Path) -> None:
    there, back = (acts(way(tmp_path, *two)) for two in ((small(), grown()), (grown(), small())))
    for desk in ("a-desk", "b-desk"):
        assert place(there, "PUT_IN:device:d-strip") < place(there, f"PUT_IN:device:{desk}")
        assert place(back, f"TAKE_OUT:device:{desk}") < place(back, "TAKE_OUT:device:d-strip")


def test_an_outlet_is_put_on_over_its_runs_and_cords_come_last(tmp_path: Path) -> None:
    found = acts(way(tmp_path, small(), grown()))
    put = place(found, "PUT_IN:device:c-outlet")
    runs = [at for at, each in enumerate(found) if each.startswith("PULL:jack:c-outlet")]
    cords = [at for at, each in enumerate(found) if each.startswith("PLUG") and "c-outlet" in each]
    assert (len(runs), len(cords)) == (3, 3)
    assert max(runs) < put < min(cords)


def test_runs_wait_for_their_ways_and_cords_for_their_runs(tmp_path: Path) -> None:
    """Whatever the order that is liked best: it may not be otherwise."""
    found = course(build(tmp_path, small()), build(tmp_path, grown()))
    bit = {job.id: at for at, each in enumerate(found.bundles) for job in each.jobs}
    needs = {
        id_: {other for other in bit if found.bundles[at].needs >> bit[other] & 1} for id_, at in bit.items()
    }
    pulled = [id_ for id_ in bit if id_.startswith("PULL") and "floor-riser" in id_]
    cords = [id_ for id_ in bit if id_.startswith("PLUG") and "jack:panel" in id_]
    assert (len(pulled), len(cords)) == (3, 4)
    for id_ in pulled:
        assert "OPEN:way:floor-riser@office" in needs[id_]
        assert id_ in needs["CLOSE:way:floor-riser@office"]
    for id_ in cords:
        panel = next(part for part in id_.split() if "panel/" in part)
        assert any(each.startswith("PULL") and f"{panel}@rear" in each for each in needs[id_])


def test_phases_come_in_their_order_and_each_trade_in_one_go(tmp_path: Path) -> None:
    found = way(tmp_path, small(), grown())
    phases = [step.phase for step in found.steps]
    assert phases == sorted(phases, key=["", "office", "eyes"].index)
    for phase in ("office", "eyes"):
        kinds = [step.acts[0].id.partition(":")[0] for step in found.steps if step.phase == phase]
        runs = [kind for at, kind in enumerate(kinds) if at == 0 or kinds[at - 1] != kind]
        assert len(runs) == len(set(runs)), kinds
    assert found.service == ()
    assert found.is_proven


def test_phases_the_other_way_round_come_the_other_way_round(tmp_path: Path) -> None:
    new = grown()
    new["phases"] = {"eyes": {}, "office": {}}
    found = way(tmp_path, small(), new)
    phases = [step.phase for step in found.steps if step.phase]
    assert phases == sorted(phases, key=["eyes", "office"].index)


def test_work_of_one_room_stays_together(tmp_path: Path) -> None:
    new = switched()
    for name, room in (("a", "den"), ("b", "loft"), ("c", "den"), ("d", "loft")):
        new["devices"][name] = {"part": "end-device", "room": room, "vlan": "house"}
        new["links"].append({"run": [name, "a-near"]})
    found = way(tmp_path, switched(), new)
    order = [each.partition(":device:")[2] for each in acts(found) if each.startswith("PUT_IN")]
    assert order == ["a", "c", "b", "d"]


# Ways


def test_a_way_with_runs_in_it_is_opened_and_closed_again(tmp_path: Path) -> None:
    found = way(tmp_path, small(), grown())
    order = acts(found)
    opened, closed = place(order, "OPEN:way:floor-riser"), place(order, "CLOSE:way:floor-riser")
    runs = [at for at, each in enumerate(order) if each.startswith("PULL") and "floor-riser" in each]
    assert runs == list(range(opened + 1, closed))
    said = [act.what for step in found.steps for act in step.acts]
    assert "fire stop" in said[opened]
    assert "sealed" in said[closed]


def test_a_way_without_any_run_is_made_ready_first_and_closed(tmp_path: Path) -> None:
    order = acts(way(tmp_path, small(), grown()))
    assert not any(each.startswith("OPEN:way:yard-wall") for each in order)
    pulled = next(at for at, each in enumerate(order) if each.startswith("PULL") and "yard-wall" in each)
    assert place(order, "PREPARE:way:yard-wall") < pulled < place(order, "CLOSE:way:yard-wall")


def test_in_each_phase_it_is_opened_again(tmp_path: Path) -> None:
    new = grown()
    new["devices"]["b-desk"]["phase"] = new["links"][-1]["phase"] = "eyes"
    order = acts(way(tmp_path, small(), new))
    of_way = [
        each.partition(":")[0] for each in order if each.partition(":")[2].startswith("way:floor-riser")
    ]
    assert of_way == ["OPEN", "CLOSE", "OPEN", "CLOSE"]


def test_nothing_is_opened_where_nothing_is_pulled(tmp_path: Path) -> None:
    order = acts(way(tmp_path, base(), edited(("desk to another jack",))))
    assert not any(each.startswith(("OPEN", "CLOSE", "PREPARE")) for each in order)


def test_a_duct_that_is_bought_takes_as_long_as_its_trench(tmp_path: Path) -> None:
    """40 min for each metre of a trench dug by hand and 30 min at its ends, by the table of usual durations."""
    plan = small()
    plan["ways"]["yard-wall"] = {
        "between": ["store", "yard"],
        "length": "4 m",
        "kind": "buried-duct",
    }
    found = build(tmp_path, plan)
    duct = found.ways["way:yard-wall"]
    dug = duct._replace(material="a duct")
    lies = duct._replace(material="")
    assert (is_dug(dug), is_dug(lies)) == (True, False)
    minutes = Minutes(found)
    assert (minutes.way_made(dug), minutes.way_made(lies)) == (30 + 4 * 40, 32)


# Costs


def kilns(*, new: bool) -> Plan:
    """The outlets of the room are just enough for one of two."""
    plan = switched()
    plan["sites"]["home"]["rooms"]["den"]["mains"] = 3
    del plan["devices"]["desk"], plan["links"][2]
    name, jack = ("a-kiln", 7) if new else ("old-kiln", 6)
    plan["devices"][name] = {"part": "end-device", "room": "den", "vlan": "house"}
    plan["links"].append({"run": [name, f"a-near/{jack}"]})
    return plan


TIGHT = {
    "outlets": (kilns(new=False), kilns(new=True)),
    "ring": (ring("switch-8", closed=False), ring("switch-8-managed", closed=True)),
    "budget": (heads("s1/1", "s2/1"), heads("s2/2", "s1/2")),
}


@pytest.mark.parametrize("name", sorted(TIGHT))
def test_what_is_liked_breaks_no_rule(name: str, tmp_path: Path) -> None:
    found = course(*(build(tmp_path, plan) for plan in TIGHT[name]))
    _, order = best_order(found)
    tidied = Tidy(found, preference(found)).steps(order)
    assert spent(found, tidied) == spent(found, order)
    assert spent(found, tidied)[0] == 0


@pytest.mark.parametrize("seed", range(12))
def test_an_order_that_is_easier_to_follow_costs_the_same(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    some = tuple(chance.sample(sorted(EDITS), 4))
    found = course(build(tmp_path, edited(some[:1])), build(tmp_path, edited(some[1:])))
    _, order = best_order(found)
    tidied = Tidy(found, preference(found)).steps(order)
    assert sorted(tidied) == sorted(order)
    assert spent(found, tidied) == spent(found, order)


def spent(found: Course, steps: tuple[int, ...]) -> Cost:
    total: Cost = (0, 0, 0, 0)
    done = 0
    for does in steps:
        assert not found.needs(does) & ~done
        total = plus(total, found.cost_of(done, does))
        done |= does
    return total


@pytest.mark.parametrize("seed", range(8))
def test_what_counts_as_unseen_is_not_seen(seed: int, tmp_path: Path) -> None:
    """On any way: whether such things are done already makes no difference to who is served or managed."""
    chance = random.Random(seed)  # noqa: S311 - repeatable
    found = course(build(tmp_path, small()), build(tmp_path, grown()))
    network = found.network
    assert network.unseen
    done = 0
    while done != network.all_done:
        ready = [
            1 << at for at, each in enumerate(found.bundles) if not done >> at & 1 and not each.needs & ~done
        ]
        done |= chance.choice(ready)
        views = [View(network.union, at, at, frozenset()) for at in (done, done | network.unseen)]
        assert views[0].outcome() == views[1].outcome()
