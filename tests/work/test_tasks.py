"""What a step says: what it takes, what it must show, what can hurt; and that no plan, however odd, leads to a ring."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.build import ids
from firstfix.build.hardware import IN_PLACE, Device
from firstfix.build.model import Build
from firstfix.build.power import MainsFeed
from firstfix.pipeline import compile_plan
from firstfix.work.model import Task
from firstfix.work.order import order
from firstfix.work.stage_rules import TITLES, rules_of
from firstfix.work.tasks import tasks
from purchase.sample import sample

PLANS = sorted((Path(__file__).parents[2] / "plans").glob("*.yaml"))


def by_id(build: Build) -> dict[str, Task]:
    return {task.id: task for task in tasks(build)}


def builds() -> list[Build]:
    found = [compile_plan(path, path.name).build for path in PLANS]
    return [sample(), *(build for build in found if build is not None)]


def with_device(build: Build, name: str, **changes: object) -> Build:
    device = replace_device(build.devices[ids.device(name)], changes)
    return replace(build, devices={**build.devices, device.id: device})


def replace_device(device: Device, changes: dict[str, object]) -> Device:
    return Device(**{**device._asdict(), **changes})


def checks(task: Task) -> dict[str, str]:
    return dict(task.checks)


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_each_item_that_is_not_in_place_is_taken_by_exactly_one_task(build: Build) -> None:
    taken = Counter(item for task in tasks(build) for item in task.parts)
    assert taken == Counter(item.id for item in build.items if item.standing != IN_PLACE)


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_ids_are_unique_and_the_work_can_be_lined_up(build: Build) -> None:
    made = tasks(build)
    assert len({task.id for task in made}) == len(made)
    assert len(order(made)) == len(made)


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_the_order_of_items_does_not_matter(build: Build) -> None:
    assert tasks(replace(build, items=build.items[::-1])) == tasks(build)


def test_things_are_taken_where_they_are_used() -> None:
    found = {item: task.id for task in tasks(sample()) for item in task.parts}
    assert found["item:out-hall/box"] == "box:device/out-hall"
    assert found["item:ap-hall--core/1/2"] == "pull:piece/ap-hall--core/1/2"
    assert found["item:ap-hall--core/1/2/labels"] == "pull:piece/ap-hall--core/1/2"
    assert found["item:panel/1+jack"] == "terminate:jack/panel/1@rear"
    assert found["item:panel/2+jack"] == "terminate:jack/panel/2@rear"
    assert found["item:cam-yard--core/2/1@0+plug"] == "terminate:jack/cam-yard/1"
    assert found["item:core/lead"] == "power:device/core"
    assert found["item:main"] == "hang:cabinet/main"
    assert found["item:surge-shed/earth"] == "bond:device/surge-shed"


def test_a_run_is_tested_against_its_planned_length() -> None:
    found = checks(by_id(sample())["test:piece/ap-hall--core/1/2"])
    assert found["length"] == "at most 18.5 m, the planned length with its slack"
    assert found["wire map"].startswith("1 to 8 straight through")


def test_a_link_is_tested_against_the_slower_of_its_jacks() -> None:
    found = by_id(sample())
    assert checks(found["prove:link/cam-yard--core/2"]) == {
        "link rate cam-yard/1 – core/2": "100 Mb/s, full duplex, the lower of its two jacks"
    }


def test_poe_is_tested_by_class_and_draw() -> None:
    found = by_id(sample())
    assert checks(found["power:device/ap-hall"]) == {
        "PoE class": "class 4 assigned (25.5 W at the device)",
        "PoE draw": "at most 16 W at the device",
    }
    assert checks(found["prove:device/core"]) == {"PoE in all": "at most 65 W with everything on"}


def test_a_vlan_is_tested_for_what_it_reaches_and_what_not() -> None:
    found = checks(by_id(sample())["prove:vlan/mgmt"])
    assert found["reaches"] == "devices in cameras answer"
    assert found["reaches nothing else"] == "no answer from outside (the internet)"
    assert found["address of core"] == "answers at 10.0.10.2"


def test_what_is_not_known_is_said() -> None:
    found = by_id(sample())
    assert checks(found["power:device/cam-yard"])["PoE draw"].startswith("cannot tell what to expect")
    build = sample()
    piece = build.pieces["piece:ap-hall--core/1/2"]
    unmeasured = piece._replace(length=piece.length._replace(missing=("its way has no length",)))
    found = by_id(replace(build, pieces={**build.pieces, piece.id: unmeasured}))
    expected = "cannot tell what to expect: its way has no length"
    assert checks(found["test:piece/ap-hall--core/1/2"])["length"] == expected


def test_the_cabinets_fixing_is_told_what_it_must_hold() -> None:
    figure = checks(by_id(sample())["anchor:cabinet/main"])["fixings"]
    assert figure.startswith("made for more than 37 kg"), "14 + 16 + 7 kg are known"
    assert "no weight is known of core" in figure


CAUTIONS = [
    ("anchor:cabinet/main", "Drilling"),
    ("box:device/out-hall", "Drilling"),
    ("hang:cabinet/main", "Lifting"),
    ("fit:device/ups", "Lifting"),
    ("prepare:way/duct", "In the ground"),
    ("prepare:way/eaves", "Outdoors"),
    ("prepare:way/eaves", "Ladder"),
    ("pull:piece/cam-yard--core/2/1", "Lightning"),
    ("fit:device/ap-hall", "Ladder"),
    ("terminate:jack/surge-house/line", "Lightning"),
    ("connect:jack/surge-house/line", "Lightning"),
    ("test:piece/ap-hall--core/1/2", "PoE"),
    ("bond:cabinet/main", "Earthing"),
    ("power:device/strip", "Mains"),
    ("set-up:device/core", "Mains"),
]


@pytest.mark.parametrize(("task", "word"), CAUTIONS)
def test_the_caution_stands_at_the_step(task: str, word: str) -> None:
    assert any(each.startswith(f"{word}:") for each in by_id(sample())[task].cautions)


def test_mains_earth_and_lightning_leave_the_first_word_to_codes_and_electricians() -> None:
    texts = {each for task in tasks(sample()) for each in task.cautions}
    for word in ("Mains", "Earthing", "Lightning"):
        (text,) = (each for each in texts if each.startswith(f"{word}:"))
        assert "local codes and a licensed electrician come first" in text


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_nobody_is_told_to_open_anything_of_the_mains(build: Build) -> None:
    mains = [task for task in tasks(build) if task.id.startswith(("power:", "bond:"))]
    assert mains
    for task in mains:
        words = task.title.lower().split()
        assert not {"open", "wire", "remove", "cover"} & set(words), task.title


def test_what_is_owned_and_stays_is_not_mounted_or_unpacked() -> None:
    build = with_device(sample(), "shed-switch", is_owned=True)
    items = tuple(
        item._replace(standing=IN_PLACE) if item.id == "item:shed-switch" else item for item in build.items
    )
    found = by_id(replace(build, items=items))
    assert "fit:device/shed-switch" not in found
    assert "power:device/shed-switch" not in found
    assert "unbox:device/shed-switch" not in found
    assert found["unbox:device/core"].records == ("MAC address of core",)


def test_what_is_owned_and_goes_into_a_new_cabinet_is_moved() -> None:
    task = by_id(sample())["fit:device/gateway"]
    assert task.title == "Move gateway in main, unit 9"
    assert any(each.startswith("The running network") for each in task.cautions)
    assert task.parts == ()


def test_a_loop_on_purpose_is_closed_only_when_both_switches_are_set_up() -> None:
    build = sample()
    link_id = "link:core/3--shed-switch"
    spare = build.links[link_id]._replace(spare_for="core/4")
    found = by_id(replace(build, links={**build.links, link_id: spare}))
    cord = found["patch:piece/core/3--shed-switch/4"]
    assert {"set-up:device/core", "set-up:device/shed-switch"} <= {each.before for each in cord.after}
    assert "closes a loop on purpose" in cord.title
    order(found.values())


def test_a_later_phase_holds_up_nothing_of_the_first() -> None:
    build = with_device(sample(), "storage", phase="spring")
    line = [task.id for task in order(tasks(build))]
    assert line.index("fit:device/storage") > line.index("prove:vlan/mgmt")
    assert line.index("patch:piece/core/5--storage/1") > line.index("power:device/core")


def test_things_that_feed_each_other_in_a_ring_still_line_up() -> None:
    """A fault of the plan, which a rule reports; a draft is written all the same."""
    build = sample()
    ring = tuple(
        MainsFeed(feed.device, ids.device("ups"), 4) if feed.device == ids.device("strip") else feed
        for feed in build.mains_feeds
    )
    assert len(order(tasks(replace(build, mains_feeds=ring)))) == len(tasks(build))


def test_every_stage_has_a_title_and_what_is_said_at_its_head_has_a_source() -> None:
    for stage, title in TITLES.items():
        assert title
        for rule in rules_of(stage):
            assert "(" in rule or "nothing is closed before" in rule, "a figure without its source"
    assert set(TITLES) == {task.stage for task in tasks(sample())} | set(TITLES)


def test_a_build_of_nothing_has_next_to_no_work() -> None:
    build = sample()
    empty = replace(
        build, cabinets={}, devices={}, fittings={}, mounts=(), jacks={}, jacks_of={}, links={}, pieces={},
        joints=(), channels={}, power_runs={}, power_sources={}, mains_feeds=(), vlans={}, port_setups={},
        addresses=(), items=(),
    )  # fmt: skip
    assert [task.id for task in order(tasks(empty))] == ["unpack:plan/all", "record:plan/all"]


def test_a_battery_is_joined_before_it_is_plugged_in() -> None:
    assert "before the plug goes in" in checks(by_id(sample())["power:device/ups"])["battery"]
    assert "battery" not in checks(by_id(sample())["power:device/strip"])
