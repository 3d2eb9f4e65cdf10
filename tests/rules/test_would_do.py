"""What could stand in for a part that can't be had: never less than it, and never something that is sold out as well."""

from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.build.model import Build
from firstfix.parts.library_files import library
from firstfix.rules.would_do import nearly_do, would_do
from resolve.planning import build_of, one_room


@pytest.fixture(scope="module")
def build(tmp_path_factory: pytest.TempPathFactory) -> Build:
    folder: Path = tmp_path_factory.mktemp("would")
    return build_of(folder, one_room({"core": "switch-8"}, []))


def test_for_every_part_of_the_library_only_what_has_its_jacks_and_its_kind(build: Build) -> None:
    found = 0
    for part in library().values():
        for other in would_do(build, part):
            found += 1
            assert other.kind == part.kind
            assert other.name != part.name
            assert len(other.jacks) >= len(part.jacks)
            if part.cable is not None:
                assert other.cable is not None
                assert other.cable.rating == part.cable.rating
    assert found > 50


def test_by_hand(build: Build) -> None:
    """Eight jacks are in sixteen; a switch without PoE stands in for none with it."""
    plain, giving = library()["switch-8"], library()["switch-8-poe"]
    assert would_do(build, plain, most=99)
    assert all(each.gives_poe is not None for each in would_do(build, giving, most=99))
    assert plain not in would_do(build, giving, most=99)
    assert giving in would_do(build, plain, most=99)


def test_what_is_sold_out_as_well_is_not_offered(build: Build) -> None:
    first, *_ = would_do(build, library()["switch-8-poe"])
    without = replace(build, purchase=build.purchase._replace(sold_out=(first.name,)))
    assert first not in would_do(without, library()["switch-8-poe"])


def _garden(folder: Path, cameras: int) -> Build:
    names = [f"cam-{number}" for number in range(1, cameras + 1)]
    devices = {name: {"part": "camera-outdoor", "room": "lawn", "plugs-into": "core"} for name in names}
    return build_of(
        folder,
        {
            "sites": {"home": {"rooms": {"den": {"mains": 4}, "lawn": {"outdoors": True}}}},
            "ways": {"wall": {"between": ["den", "lawn"], "length": "9 m"}},
            "devices": {"core": {"part": "switch-8-poe", "room": "den"}, **devices},
        },
    )


def test_where_it_rains_only_what_is_made_for_it(tmp_path: Path) -> None:
    """The turning camera asks for class 4, which the switch gives; the one for indoors would be cheaper."""
    build, wanted = _garden(tmp_path, 1), library()["camera-outdoor"]
    assert [each.name for each in would_do(build, wanted, 99)] == ["camera-pan-tilt"]
    lacks = {each.part.name: each.lacks for each in nearly_do(build, wanted, 9)}
    assert lacks["camera"] == ("is not made for outdoors",)


def test_what_its_feeder_cannot_give_would_not_do(tmp_path: Path) -> None:
    """IEEE 802.3: class 3 is 15.4 W at the source and class 4 is 30 W, so four of them ask for 58.4 W more; 65 W are there in all."""
    build, wanted = _garden(tmp_path, 4), library()["camera-outdoor"]
    assert would_do(build, wanted, 99) == ()
    lacks = {each.part.name: each.lacks for each in nearly_do(build, wanted, 9)}
    assert lacks["camera-pan-tilt"] == ("takes 58.4 W more of PoE than now from 'core'",)


def test_the_nearest_says_what_is_missing(build: Build) -> None:
    """By their entries in the library: cages of another family."""
    near = {each.part.name: each.lacks for each in nearly_do(build, library()["switch-24-poe"])}
    assert near["switch-48-poe"] == ("has 0 sfp jacks, not 4",)
