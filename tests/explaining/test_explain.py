"""Each kind of thing that can be asked about: who decided it, from what, and what else was possible."""

from pathlib import Path

import pytest

from cli.running import firstfix
from explaining.sample import PLAN, build_of_mill, line, only, written_text
from firstfix.build import ids
from firstfix.build.reasons import KEPT, WORKED_OUT, WRITTEN
from firstfix.cli.trouble import TroubleError
from firstfix.cli.why import show_why
from firstfix.explaining.explain import explain, near
from firstfix.explaining.model import Line
from firstfix.finding.model import Term
from firstfix.parts.facts import DATA_SHEET, TYPICAL, Fact
from firstfix.pipeline import compile_plan
from firstfix.purchase.needs import needs
from firstfix.units import metres


@pytest.mark.parametrize(
    ("name", "section", "what", "value", "origin"),
    [
        ("core", "place", "cabinet", "main, unit 4", WRITTEN),
        ("core", "place", "room", "office", WORKED_OUT),
        ("core", "network", "address", "10.40.99.2/24 in manage", WRITTEN),
        ("core", "part", "draw", "11 W", DATA_SHEET),
        ("core", "part", "weight", "3.2 kg", TYPICAL),
        ("ap", "network", "VLANs it takes tagged", "house (10)", WRITTEN),
        ("ap", "network", "wireless network", "house (SSID Mill house)", WORKED_OUT),
        ("ap", "power", "PoE from", "core/1", WORKED_OUT),
        ("core/12", "on it", "jack of core", "core/12", WRITTEN),
        ("core/9", "set up", "tagged", "cameras (20)", WRITTEN),
        ("core/10", "set up", "tagged", "house (10)", WORKED_OUT),
        ("duct", "the way", "exposure", "buried", WORKED_OUT),
        ("duct", "the way", "length", "20 m", WRITTEN),
        ("cameras", "the VLAN", "gateway", "10.40.20.1", WORKED_OUT),
        ("10.40.10.150", "the address", "lent", "from 10.40.10.100 to 10.40.10.199, to whoever asks in house", WRITTEN),
        ("office", "the room", "mains outlets free", "6", WRITTEN),
        ("main/4", "in it", "main, unit 4", "core, mill-switch", WRITTEN),
        ("main unit 6", "in it", "main, unit 6", "kept free for a second switch", WRITTEN),
        ("bench-switch--core/1", "cable", "part", "cat6-buried", WORKED_OUT),
    ],
)  # fmt: skip
def test_who_decided(name: str, section: str, what: str, value: str, origin: str) -> None:
    found = line(name, section, what)
    assert found.value.startswith(value)
    assert found.origin == origin
    assert found.why or found.at is not None


@pytest.mark.parametrize(
    ("name", "section", "what", "written"),
    [
        ("core", "network", "address", "2"),
        ("core", "part", "draw", "11 W"),
        ("core", "part", "PoE budget", "60 W"),
        ("duct", "the way", "length", "20 m"),
        ("core/12", "on it", "jack of core", "core/12"),
        ("jack:panel/1@rear", "on it", "jack of panel", "panel/1"),
        ("jack:panel/4", "on it", "jack of panel", "panel/4"),
        ("bench-switch--core/1", "length", "slack of 1 m at each end", "1 m"),
    ],
)
def test_place_in_the_plan_is_the_value_itself(name: str, section: str, what: str, written: str) -> None:
    assert written_text(line(name, section, what).at) == written


def test_terms_of_every_length_add_up() -> None:
    build = build_of_mill()
    for piece in build.pieces.values():
        lines = {each.title: each.lines for each in only(piece.id).sections}["length"]
        assert [each.what.strip() for each in lines[1:]] == [term.what for term in piece.length.terms]
        assert _sum(piece.length.terms) <= (piece.length.sold or _sum(piece.length.terms)) + 1e-9


def _sum(terms: tuple[Term, ...]) -> float:
    return sum(term.value for term in terms)


def test_a_cord_says_how_it_was_rounded_to_a_length_that_is_sold() -> None:
    piece = build_of_mill().pieces["piece:core/12--desk/3"]
    found = line(piece.id, "length", "length")
    assert found.value.startswith("1 m, the shortest of ")
    assert found.value.endswith(f" that is at least {metres(_sum(piece.length.terms))}")


def test_other_jacks_are_named_with_who_has_them_now() -> None:
    others = line("core/9", "on it", "jack of core").others
    assert "3 to 8" in others
    assert "10 (now to gateway/1)" in others


def test_a_route_names_the_next_best() -> None:
    found = line("ap--core/1", "ways", "ways")
    assert found.value == "skirting"
    assert found.others == ("attic (14 m, 5 m longer)",)


def test_a_route_that_was_asked_for_says_so() -> None:
    found = line("bench-switch--core/1", "ways", "ways")
    assert written_text(found.at).startswith("[attic")
    assert "duct, skirting (29 m, 5 m shorter)" in found.others


def test_a_vlan_on_a_trunk_names_who_needs_it_on_either_side() -> None:
    why = line("core/10", "set up", "tagged").why
    assert why == "beyond it gateway, on this side ap, desk"


@pytest.mark.parametrize(
    ("name", "kinds"),
    [
        ("core", ["device"]),
        ("house", ["vlan", "building"]),
        ("panel/1", ["jack", "jack"]),
        ("desk--core", ["link"]),
        ("core – desk", ["link"]),
        ("desk to core/12", ["link"]),
        ("panel/1–core/12", ["piece"]),
        ("out-hall--panel", ["piece"]),
        ("core/12--desk/2", ["piece"]),
        ("10.40.20.1", ["address"]),
        ("10.40.99.2/24", ["address"]),
        ("cord-cat6/1 m", ["need"]),
        ("need:cord-cat6/1 m", ["need"]),
        ("mill/office", ["room"]),
        ("item:core", ["device"]),
        ("pull:piece/bench-switch--core/1", ["step"]),
    ],
)
def test_what_a_name_means(name: str, kinds: list[str]) -> None:
    assert [ids.kind(each.id) for each in explain(build_of_mill(), name)] == kinds


def test_every_id_of_the_build_is_explained() -> None:
    build = build_of_mill()
    tables = (
        build.devices, build.jacks, build.links, build.pieces, build.channels, build.ways, build.rooms, build.cabinets,
        build.vlans, build.buildings, build.sites,
    )  # fmt: skip
    for table in tables:
        for id_ in table:
            (found,) = explain(build, id_)
            assert found.sections, id_


def test_every_item_leads_to_what_needs_it_and_every_part_to_its_line() -> None:
    build = build_of_mill()
    for item in build.items:
        assert explain(build, item.id), item.id
        (found,) = (each for each in explain(build, item.part) if each.id == f"part:{item.part}")
        assert found.sections


@pytest.mark.parametrize("name", ["", " ", "core/99", "main/7", "10.9.9.9", "a--b", "unit:main/0", "10.40.20.1.1", "::", "x" * 5000, "nobody"])  # fmt: skip
def test_what_is_not_there_means_nothing(name: str) -> None:
    assert explain(build_of_mill(), name) == ()


def test_the_nearest_name_is_offered() -> None:
    assert near(build_of_mill(), "benchswitch") == "bench-switch"
    assert near(build_of_mill(), "device:gatewey") == "gateway"


def test_lines_of_a_part_sum_up_to_what_is_needed() -> None:
    build = build_of_mill()
    (found,) = (each for each in only("cat6-buried").sections if each.title.startswith("to buy"))
    piece = build.pieces["piece:bench-switch--core/1"]
    assert isinstance(piece.length.figure, Fact)
    assert found.lines[0] == Line("bench-switch/5–core/9", f"{piece.length.figure.high:.2f} m", "", "", found.lines[0].at)  # fmt: skip


def test_a_ring_has_no_sides(tmp_path: Path) -> None:
    text = PLAN.read_text("utf-8").replace(
        "  - {run: [bench-switch, core], along: [attic], tagged: [cameras, manage]}\n",
        "  - {run: [bench-switch, core]}\n  - {run: [bench-switch/8, core/16], spare-for: core/9}\n",
    )
    plan = tmp_path / "ring.yaml"
    plan.write_text(text, "utf-8")
    build = compile_plan(plan, "ring.yaml").build
    assert build is not None
    (found,) = explain(build, "core/16")
    whys = [each.why for section in found.sections for each in section.lines if each.what == "tagged"]
    assert whys
    assert all("round this ring" in why for why in whys)


def test_a_choice_that_an_earlier_build_made_is_kept(tmp_path: Path) -> None:
    plan = tmp_path / "mill.yaml"
    plan.write_bytes(PLAN.read_bytes())
    assert firstfix("build", "mill.yaml", "-o", "out", cwd=tmp_path).code == 0
    build = compile_plan(plan, "mill.yaml").build
    assert build is not None
    for name, what in (("core/9", "jack of core"), ("10.40.20.10", "held by"), ("core", "mains")):
        (found,) = explain(build, name)
        (kept,) = (each for section in found.sections for each in section.lines if each.what == what)
        assert kept.origin == KEPT


def test_a_line_goes_by_each_way_of_writing_it() -> None:
    """As the shopping list and `firstfix progress` write it, as an id, and as the step of the checklist in short."""
    build = build_of_mill()
    for need in needs(build):
        path = need.id.removeprefix("need:")
        for name in {path, path.replace(" ", "")}:
            found = explain(build, name)
            assert need.id in [each.id for each in found] or "/" not in path, name
    assert [each.id for each in explain(build, "fit:core")] == ["step:fit:device/core"]


def test_a_step_has_no_number() -> None:
    with pytest.raises(TroubleError, match=r"as in 'fit:device/core'"):
        show_why(build_of_mill(), "step 4", "text")
