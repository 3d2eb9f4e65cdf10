"""What must come before what, in the hand-made build: for each reason there is, the pairs that it holds for.

The order alone would not do as a test: stages line most things up even where a precedence is missing. So these look at
the precedences themselves, and at what follows from them.
"""

from dataclasses import replace

import networkx
import pytest

from firstfix.build import ids
from firstfix.build.cabling import RUN
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed
from firstfix.work.order import order
from firstfix.work.tasks import tasks
from purchase.sample import sample

BUILD = sample()
TASKS = {task.id: task for task in tasks(BUILD)}
AP_RUN, CAM_RUN, SHED_RUN = (
    "piece/ap-hall--core/1/2",
    "piece/cam-yard--core/2/1",
    "piece/core/3--shed-switch/2",
)

# after: before. Every precedence of the sample that is of its own kind stands here once.
DIRECT = [
    ("hang:cabinet/main", "anchor:cabinet/main"),  # fixings before the cabinet
    ("hang:cabinet/main", "prepare:way/duct"),  # holes behind the cabinet
    ("sweep:room/home/office", "anchor:cabinet/main"),  # dust
    ("sweep:room/home/hall", "box:device/out-hall"),
    ("sweep:room/home/bench", "prepare:way/duct"),  # at the far end, too
    ("fit:device/core", "sweep:room/home/office"),
    ("fit:device/core", "hang:cabinet/main"),
    ("fit:device/core", "fit:device/ups"),  # heavy things first
    ("fit:device/core", "set-up:device/core"),  # bench before rack
    ("fit:device/ap-hall", "unbox:device/ap-hall"),  # its MAC address
    ("set-up:device/core", "unbox:device/core"),
    ("unbox:device/core", "unpack:plan/all"),
    ("fit:device/storage", "fit:fitting/main/5"),  # a shelf before what stands on it
    (f"pull:{AP_RUN}", "prepare:way/stairs"),
    (f"pull:{AP_RUN}", "box:device/out-hall"),
    (f"pull:{AP_RUN}", "hang:cabinet/main"),
    (f"pull:{AP_RUN}", "fit:device/ups"),
    ("terminate:jack/panel/1@rear", f"pull:{AP_RUN}"),
    ("terminate:jack/panel/1@rear", "fit:device/panel"),
    (f"test:{AP_RUN}", "terminate:jack/panel/1@rear"),
    (f"test:{AP_RUN}", "terminate:jack/out-hall/1@rear"),
    ("fit:device/out-hall", f"test:{AP_RUN}"),  # test before close
    ("fit:device/out-hall", "box:device/out-hall"),
    ("fit:device/cam-yard", f"test:{CAM_RUN}"),
    ("close:way/stairs", f"test:{AP_RUN}"),
    ("bond:device/surge-shed", "fit:device/surge-shed"),
    ("bond:cabinet/main", "hang:cabinet/main"),
    ("connect:jack/surge-house/line", "bond:device/surge-house"),  # earth at both ends
    ("connect:jack/surge-house/line", "bond:device/surge-shed"),
    ("connect:jack/surge-house/line", f"test:{SHED_RUN}"),
    ("connect:jack/surge-house/line", "fit:device/surge-house"),
    ("patch:piece/core/3--shed-switch/1", "bond:device/surge-house"),  # a cord at a protector
    ("patch:piece/ap-hall--core/1/3", f"test:{AP_RUN}"),  # test before patch
    ("patch:piece/ap-hall--core/1/3", "fit:device/core"),
    ("patch:piece/ap-hall--core/1/3", "fit:device/panel"),
    ("power:device/core", "fit:device/core"),
    ("power:device/core", "patch:piece/core/5--storage/1"),  # cords before power
    ("power:device/core", "power:device/ups"),  # source before fed
    ("power:device/core", "bond:cabinet/main"),  # earth before power
    ("power:device/core", "set-up:device/core"),
    ("power:device/ups", "power:device/strip"),
    ("power:device/injector", "power:device/strip"),
    ("power:device/shed-switch", "power:device/injector"),  # PoE begins at the injector
    ("power:device/shed-switch", "connect:jack/surge-house/line"),  # and comes over all of its way
    ("power:device/cam-yard", "connect:jack/cam-yard/1"),
    ("power:device/ap-hall", "power:device/core"),
    ("power:device/ap-hall", "patch:piece/ap-hall--core/1/3"),
    ("set-up:device/cam-yard", "power:device/cam-yard"),
    ("prove:link/ap-hall--core/1", "power:device/ap-hall"),
    ("prove:link/ap-hall--core/1", "set-up:device/core"),
    ("prove:link/ap-hall--core/1", "patch:piece/ap-hall--core/1/3"),
    ("prove:link/cam-yard--core/2", "connect:jack/cam-yard/1"),
    ("prove:device/core", "power:device/ap-hall"),
    ("prove:vlan/cameras", "set-up:device/cam-yard"),
    ("fit:fitting/main/2", "fit:device/strip"),  # a cover goes on last
    ("fit:fitting/main/2", "power:device/strip"),
    ("finish:cabinet/main", "prove:device/core"),
    ("finish:cabinet/main", "fit:fitting/main/2"),
    ("record:plan/all", "finish:cabinet/main"),
]  # fmt: skip


@pytest.mark.parametrize(("after", "before"), DIRECT)
def test_it_is_said_and_has_a_reason(after: str, before: str) -> None:
    reasons = {each.before: each.why for each in TASKS[after].after}
    assert reasons.get(before), f"{after} does not wait for {before}"


def test_each_kind_of_precedence_stands_in_the_list_above() -> None:
    """A new kind is tested before it is trusted. Kinds are pairs of verbs."""
    kinds = {(verb(task.id), verb(each.before)) for task in TASKS.values() for each in task.after}
    listed = {(verb(after), verb(before)) for after, before in DIRECT}
    assert kinds - listed == KINDS_THAT_FOLLOW
    assert listed <= kinds


# The last step waits for everything; a cabinet's end for all proofs of what is in it.
KINDS_THAT_FOLLOW = {("record", "prove")}


def verb(task_id: str) -> str:
    return task_id.partition(":")[0]


def following() -> "networkx.DiGraph[str]":
    return networkx.DiGraph([(each.before, task.id) for task in TASKS.values() for each in task.after])


def test_every_run_is_pulled_terminated_tested_connected_and_then_powered() -> None:
    graph = following()
    for piece in BUILD.pieces.values():
        if piece.kind == RUN:
            test = f"test:piece/{ids.path(piece.id)}"
            assert f"pull:piece/{ids.path(piece.id)}" in networkx.ancestors(graph, test)
            assert networkx.descendants(graph, test) & {
                f"power:{device.replace(':', '/')}" for device in BUILD.devices
            }


def test_nothing_is_plugged_in_between_buildings_before_both_protectors_have_earth() -> None:
    graph = following()
    for task_id in TASKS:
        if task_id.startswith("connect:jack/surge-"):
            assert {"bond:device/surge-house", "bond:device/surge-shed"} <= networkx.ancestors(graph, task_id)


def test_power_follows_what_feeds() -> None:
    line = [task.id for task in order(TASKS.values())]
    for feed in BUILD.mains_feeds:
        if feed.source in BUILD.devices and power(feed.device) in TASKS:
            assert line.index(power(feed.source)) < line.index(power(feed.device))
    for run in BUILD.power_runs.values():
        source, sink = (BUILD.jacks[jack].device for jack in (run.source, run.sink))
        assert line.index(power(source)) < line.index(power(sink))


def power(device: str) -> str:
    return f"power:{device.replace(':', '/')}"


def waits_for(build: Build, task_id: str) -> set[str]:
    return {each.before for task in tasks(build) if task.id == task_id for each in task.after}


def test_a_cover_waits_for_the_cords_behind_it() -> None:
    cover = next(mount for mount in BUILD.mounts if mount.is_over)
    over_panel = cover._replace(low=11, high=11)
    mounts = tuple(over_panel if mount == cover else mount for mount in BUILD.mounts)
    before = waits_for(replace(BUILD, mounts=mounts), "fit:fitting/main/2")
    assert {"fit:device/panel", "patch:piece/ap-hall--core/1/3", "patch:piece/cam-yard--core/2/2"} <= before


def test_mains_power_waits_for_a_run_that_is_plugged_straight_in() -> None:
    feeds = (*BUILD.mains_feeds, MainsFeed("device:cam-yard", "room:home/office", 2))
    on_mains = replace(BUILD, mains_feeds=feeds, power_runs={}, power_sources={})
    assert "connect:jack/cam-yard/1" in waits_for(on_mains, "power:device/cam-yard")
