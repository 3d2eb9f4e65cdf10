"""The build as it stands once a phase is done."""

from pathlib import Path

import pytest

from firstfix.build.model import Build
from firstfix.build.presence import EVERYTHING, as_of
from resolve.planning import build_of

SCHOOL = {
    "phases": {"winter": {"by": "2027-02-01"}, "autumn": {"by": "2027-10-01", "budget": 1600}},
    "sites": {"home": {"rooms": {"den": {"mains": 9}, "loft": {"mains": 9}, "shed": {"mains": 9}}}},
    "ways": {
        "riser": {"between": ["den", "loft"], "length": "9 m", "kind": "riser"},
        "duct": {"between": ["den", "shed"], "length": "20 m", "kind": "buried-duct", "phase": "autumn"},
    },
    "cabinets": {
        "late": {
            "part": "wall-cabinet-6u",
            "room": "loft",
            "phase": "autumn",
            "layout": {"2-4": {"fit": "shelf-1u", "carries": ["second"]}},
        }
    },
    "devices": {
        "core": {"part": "switch-8", "room": "den"},
        "second": {"part": "switch-8", "plugs-into": "core", "phase": "winter"},
        "desk": {"part": "computer-desktop", "room": "den", "plugs-into": "core", "phase": "winter"},
        "hut": {"part": "computer-desktop", "room": "shed", "plugs-into": "core"},
    },
    "links": [],
}


@pytest.fixture
def build(tmp_path: Path) -> Build:
    return build_of(tmp_path, SCHOOL)


def test_phases_stand_as_written(build: Build) -> None:
    assert [each.name for each in build.phases] == ["winter", "autumn"]
    assert build.phases[1].budget.high == 1600  # type: ignore[union-attr]


def test_a_device_comes_no_sooner_than_its_cabinet(build: Build) -> None:
    assert build.devices["device:second"].phase == "autumn"
    assert build.links["link:core--second"].phase == "autumn"


def test_what_comes_later_is_absent_and_what_hangs_on_it(build: Build) -> None:
    winter = as_of(build, "winter")
    assert winter.has("device:core", "device:desk", "link:core--desk", "way:riser", "device:hut")
    for later in ("device:second", "cabinet:late", "fitting:late/2", "link:core--second", "way:duct"):
        assert not winter.has(later)
    # Its way is dug in autumn, so nothing lies in it before.
    assert not winter.has("piece:core--hut/1")
    of_pieces = {channel.id for channel in build.channels.values() if "piece:core--hut/1" in channel.pieces}
    assert of_pieces
    assert not any(winter.has(each) for each in of_pieces)


def test_before_the_first_phase(build: Build) -> None:
    start = as_of(build, "")
    assert start.has("device:core")
    assert not start.has("device:desk")


def test_after_the_last_phase_all_is_there(build: Build) -> None:
    assert as_of(build, "autumn") == EVERYTHING


def test_each_phase_only_adds(build: Build) -> None:
    absent = [as_of(build, phase).absent for phase in ("", "winter", "autumn")]
    assert absent[0] > absent[1] > absent[2]


def test_an_item_is_wanted_with_what_needs_it(build: Build) -> None:
    of = {item.id: item.phase for item in build.items}
    assert of["item:late"] == of["item:late/2"] == "autumn"
    assert of["item:core--hut/1"] == "autumn"
    assert of["item:core--desk/1"] == "winter"
    assert of["item:core"] == ""


def test_a_name_that_is_no_phase(build: Build) -> None:
    with pytest.raises(ValueError, match="there is no phase 'spring'"):
        as_of(build, "spring")


def test_without_the_key_phases_are_those_in_use_by_name(tmp_path: Path) -> None:
    devices = {f"d{n}": {"part": "switch-8", "phase": f"step-{n}"} for n in (10, 2, 1)}
    build = build_of(tmp_path, {"sites": {"home": {"rooms": {"den": {}}}}, "devices": devices})
    assert [each.name for each in build.phases] == ["step-1", "step-2", "step-10"]


def test_an_unknown_phase_is_one_finding_with_the_nearest(tmp_path: Path) -> None:
    plan = {**SCHOOL, "defaults": {"computer": {"phase": "wintre"}}}
    plan["devices"] = {f"d{n}": {"part": "computer-desktop", "room": "den"} for n in (1, 2, 3)}
    plan["cabinets"] = {}
    gaps = [each.why for each in build_of(tmp_path, plan).gaps if each.rule == "name-unknown"]
    assert gaps == ["there is no phase 'wintre'; did you mean 'winter'?"]
