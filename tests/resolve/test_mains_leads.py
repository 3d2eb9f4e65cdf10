"""Who is plugged in where: chains of any depth, devices with two leads, and what is refused."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.pipeline import Compiled
from resolve.planning import compiled

TWO_LEADS = {"server": {"like": "computer-1u", "mains": {"inlet": "coupler", "inlets": 2}}}


def plan(devices: dict[str, Any], mains: int = 9, **more: Any) -> dict[str, Any]:
    return {"sites": {"home": {"rooms": {"study": {"mains": mains}}}}, "devices": devices, **more}


def feeds(given: Compiled) -> dict[tuple[str, int], tuple[str, int]]:
    assert given.build is not None
    return {
        (feed.device.partition(":")[2], feed.inlet): (feed.source.partition(":")[2], feed.outlet)
        for feed in given.build.mains_feeds
    }


def faults(given: Compiled) -> list[str]:
    return [each.message for each in given.report.findings if each.rule in ("mains-outlets", "part-kind")]


UPS, STRIP, BOX = "ups-desktop", "power-strip-desk-4", "computer-desktop"


def test_a_chain_of_any_depth(tmp_path: Path) -> None:
    found = compiled(
        tmp_path,
        plan(
            {
                "a-box": {"part": BOX, "power": "strip"},
                "strip": {"part": STRIP, "power": "ups"},
                "ups": {"part": UPS, "power": "first"},
                "first": {"part": STRIP, "power": "wall"},
            }
        ),
    )
    assert feeds(found) == {
        ("a-box", 1): ("strip", 1),
        ("strip", 1): ("ups", 1),
        ("ups", 1): ("first", 1),
        ("first", 1): ("home/study", 1),
    }
    assert faults(found) == []


def test_a_circle_is_named_all_round(tmp_path: Path) -> None:
    found = compiled(
        tmp_path,
        plan({
            "a": {"part": UPS, "power": "b"},
            "b": {"part": STRIP, "power": "c"},
            "c": {"part": UPS, "power": "a"},
        }),
    )  # fmt: skip
    (message,) = faults(found)
    assert "'c' is to be fed by 'a', which it feeds itself (c – b – a – c)" in message


def test_a_chain_of_strips_is_refused_each_time(tmp_path: Path) -> None:
    found = compiled(
        tmp_path,
        plan(
            {
                "one": {"part": STRIP},
                "two": {"part": STRIP, "power": "one"},
                "three": {"part": STRIP, "power": "two"},
            }
        ),
    )
    assert len([each for each in faults(found) if "one power strip plugged into another" in each]) == 2


def test_each_of_two_leads_takes_one_outlet(tmp_path: Path) -> None:
    given = plan(
        {
            "ups": {"part": UPS},
            "strip": {"part": STRIP},
            "box": {"part": "server", "power": ["ups", "strip"]},
        },
        parts=TWO_LEADS,
    )
    found = compiled(tmp_path, given)
    assert feeds(found)["box", 1] == ("ups", 1)
    assert feeds(found)["box", 2] == ("strip", 1)
    assert faults(found) == []


def test_two_leads_left_open_go_to_two_things(tmp_path: Path) -> None:
    given = plan({"ups": {"part": UPS}, "strip": {"part": STRIP}, "box": {"part": "server"}}, parts=TWO_LEADS)
    found = feeds(compiled(tmp_path, given))
    assert {found["box", 1][0], found["box", 2][0]} == {"ups", "strip"}


def test_one_lead_written_is_one_lead(tmp_path: Path) -> None:
    given = plan({"ups": {"part": UPS}, "box": {"part": "server", "power": "ups"}}, parts=TWO_LEADS)
    assert ("box", 2) not in feeds(compiled(tmp_path, given))


def test_two_feeds_need_two_inlets(tmp_path: Path) -> None:
    given = plan(
        {"ups": {"part": UPS}, "strip": {"part": STRIP}, "box": {"part": BOX, "power": ["ups", "strip"]}}
    )
    (message,) = faults(compiled(tmp_path, given))
    assert message == "'box' has 1 mains inlet, so not all of ups, strip can feed it"


def test_an_unknown_feed_is_named_where_it_stands_in_the_list(tmp_path: Path) -> None:
    given = plan(
        {"ups": {"part": UPS}, "box": {"part": "server", "power": ["wall", "upss"]}}, parts=TWO_LEADS
    )
    found = compiled(tmp_path, given)
    (fault,) = [each for each in found.report.findings if each.rule == "name-unknown"]
    assert fault.message == "there is no device that has mains outlets 'upss'; did you mean 'ups'?"
    assert fault.primary is not None
    source = (tmp_path / "plan.yaml").read_text("utf-8").splitlines()[fault.primary.line - 1]
    assert source[fault.primary.column - 1 :].startswith('"upss"')


@pytest.mark.parametrize(
    ("more", "message"),
    [
        ({"circuits": {"ring-1": {"rating": "16 A"}}, "circuit": "ring-2"}, "there is no circuit 'ring-2'; did you mean 'ring-1'?"),
        ({"internet": {"through": "line-bx"}}, "there is no device 'line-bx'; did you mean 'line-box'?"),
    ],
)  # fmt: skip
def test_other_unknown_names(more: dict[str, Any], message: str, tmp_path: Path) -> None:
    room = {"mains": 3, **({"circuit": more.pop("circuit")} if "circuit" in more else {})}
    given = {
        **plan({"line-box": {"part": "line-box"}}),
        "sites": {"home": {"rooms": {"study": room}}},
        **more,
    }
    found = compiled(tmp_path, given)
    assert [each.message for each in found.report.findings if each.rule == "name-unknown"] == [message]


def test_the_wall_passes_strips_by(tmp_path: Path) -> None:
    given = plan({"strip": {"part": STRIP}, "box": {"part": BOX, "power": "wall"}})
    assert feeds(compiled(tmp_path, given))["box", 1][0] == "home/study"


def test_poe_and_a_lead_together(tmp_path: Path) -> None:
    small = {"switch-fed": {"like": "switch-8-poe-fed", "mains": {"inlet": "adaptor"}}}
    devices = {
        "core": {"part": "switch-8-poe"},
        "far": {"part": "switch-fed", "power": ["poe", "wall"]},
    }
    found = compiled(tmp_path, plan(devices, parts=small, links=[{"run": ["far/in", "core/1"]}]))
    assert feeds(found)["far", 1][0] == "home/study"
    assert found.build is not None
    assert len(found.build.power_runs) == 1


@pytest.mark.parametrize("leads", [2, 1])
def test_cords_in_the_box_are_not_bought_again(tmp_path: Path, leads: int) -> None:
    part = {**TWO_LEADS["server"], "in-box": {"power-cord-c13": leads}}
    found = compiled(tmp_path, plan({"box": {"part": "server"}}, parts={"server": part}))
    assert found.build is not None
    bought = [
        item for item in found.build.items if item.part == "power-cord-c13" and item.standing == "to buy"
    ]
    assert sum(item.count for item in bought) == 2 - leads


def test_coupler_outlets_take_cords_of_their_own(tmp_path: Path) -> None:
    devices = {
        "strip": {"part": "power-strip-1u-8-couplers"},
        "box": {"part": "computer-1u", "power": "strip"},
        "desk": {"part": "computer-1u", "power": "wall"},
    }
    found = compiled(tmp_path, plan(devices))
    assert found.build is not None
    assert faults(found) == []
    cords = {
        item.for_id: item.part
        for item in found.build.items
        if item.standing == "to buy" and "cord" in item.part
    }
    # The wall's cords come in the boxes; the one for the strip's outlet does not.
    assert cords == {"device:box": "power-cord-c13-c14"}


def test_a_wall_plug_does_not_go_into_a_coupler_outlet(tmp_path: Path) -> None:
    devices = {
        "strip": {"part": "power-strip-1u-8-couplers"},
        "line-box": {"part": "line-box", "power": "strip"},
        "printer": {"part": "line-box"},
    }
    found = compiled(tmp_path, plan(devices))
    assert faults(found) == ["'line-box' has a wall plug, which does not go into C13 outlets of 'strip'"]
    assert feeds(found)["printer", 1][0] == "home/study"


def test_an_inlet_that_no_cord_suits_is_named(tmp_path: Path) -> None:
    parts = {"heater": {"like": "computer-1u", "mains": {"inlet": "coupler", "shape": "C20"}}}
    devices = {"strip": {"part": STRIP}, "box": {"part": "heater", "power": "strip"}}
    (message,) = faults(compiled(tmp_path, plan(devices, parts=parts)))
    assert message == "'box' has a C20 inlet, and no mains cord joins that to a wall outlet of 'strip'"
    (message,) = faults(compiled(tmp_path, plan({"box": {"part": "heater"}}, parts=parts)))
    assert message == "'box' has a C20 inlet, and no mains cord joins that to a wall outlet"


def test_the_same_feed_twice_is_refused_at_its_place(tmp_path: Path) -> None:
    given = plan({"ups": {"part": UPS}, "box": {"part": "server", "power": ["ups", "ups"]}}, parts=TWO_LEADS)
    found = compiled(tmp_path, given)
    assert any("stands twice in 'power'" in each.message for each in found.report.findings)
