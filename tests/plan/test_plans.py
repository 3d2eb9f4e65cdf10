"""Whole plans that use every form of the language; each is one that somebody could have, and is clean."""

from pathlib import Path

import pytest

from firstfix.build.model import Build
from firstfix.finding.model import Level
from firstfix.pipeline import Compiled, compile_plan

PLANS = Path(__file__).parent / "plans"


def _compiled(name: str) -> Compiled:
    return compile_plan(PLANS / name, name)


def _build(name: str) -> Build:
    build = _compiled(name).build
    assert build is not None
    return build


@pytest.mark.parametrize("name", ["school/plan.yaml", "workshop.yaml", "nursery.yaml"])
def test_plan_is_clean(name: str) -> None:
    findings = _compiled(name).report.findings
    assert [each.message for each in findings if each.level is not Level.NOTE] == []


def test_a_series_is_as_if_written_out() -> None:
    build = _build("nursery.yaml")
    hosts = {each.device: each.address for each in build.addresses}
    assert [hosts[f"device:cam-{number}"] for number in (1, 2, 3)] == [
        "10.5.20.41",
        "10.5.20.42",
        "10.5.20.43",
    ]
    assert build.devices["device:node-2"].cabinet == "cabinet:post-2"
    assert build.links["link:node-3--thermo-3"].hops == ("device:thermo-3", "device:node-3")
    assert {"jack:hub/1", "jack:hub/2", "jack:hub/3"} <= {
        end for piece in build.pieces.values() for end in piece.ends
    }


def test_a_member_says_otherwise() -> None:
    build = _build("school/plan.yaml")
    assert build.devices["device:cam-2"].room == "room:school/class-2"
    assert build.devices["device:cam-3"].room == "room:school/corridor"
    assert build.devices["device:teacher-3"].mac == "00:00:5e:00:53:03"
    assert build.rooms["room:school/class-4"].mains_outlets.high == 8  # type: ignore[union-attr]
    assert build.rooms["room:school/class-3"].mains_outlets.high == 4  # type: ignore[union-attr]


def test_files_make_one_site() -> None:
    build = _build("school/plan.yaml")
    assert sorted(build.buildings) == ["building:school/east", "building:school/west"]
    assert {each.earth for each in build.buildings.values()} == {"school/west"}
    assert build.provenance.span("device:cam-1").file == "school/shared/cameras.yaml"  # type: ignore[union-attr]


def test_rooms_and_buildings_keep_their_measures() -> None:
    build = _build("workshop.yaml")
    bench = build.rooms["room:yard/bench"]
    # 1 ft = 0.3048 m (NIST SP 811, appendix B.8).
    assert [each.high for each in bench.size] == [6.096, 4.2672, 2.7432]  # type: ignore[union-attr]
    assert bench.walls == tuple((side, "hollow-block") for side in ("north", "east", "south", "west"))
    assert (bench.ambient.low, bench.ambient.high) == (12.0, 32.0)  # type: ignore[union-attr]
    assert build.buildings["building:yard/yard"].altitude.high == 396.24  # type: ignore[union-attr]


def test_what_units_are_kept_free_for_arrives_with_its_heat() -> None:
    build = _build("school/plan.yaml")
    kept = next(each for each in build.mounts if each.is_kept_free)
    assert (kept.low, kept.what, kept.heat.high, kept.phase) == (10, "a second switch", 45.0, "second-summer")  # type: ignore[union-attr]
    assert kept in next(each for each in build.occupancy if each.unit == 10).mounts


def test_two_of_half_the_width_share_a_unit() -> None:
    build = _build("workshop.yaml")
    halves = {(each.low, each.side): each for each in build.mounts if each.side}
    assert sorted(halves) == [(5, "left"), (5, "right"), (6, "left"), (6, "right")]
    assert halves[6, "right"].item == "fitting:wide/6-right"
    assert [build.fittings[halves[6, side].item].is_owned for side in ("left", "right")] == [True, False]


def test_cabinets_keep_how_they_are_cooled() -> None:
    post = _build("nursery.yaml").cabinets["cabinet:post-1"]
    # 30 l/s x 3600 s/h / 1000 l/m³
    assert (post.cooling.kind, post.cooling.air_flow.high) == ("fan", 108.0)  # type: ignore[union-attr]
