"""Sheets of VLANs, addresses, power and the tree: read back, and held against what the graphs say."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from documents.drawing.plans_drawn import NAMES, drawn, example
from documents.drawing.reading import everything_said, overlapping, texts
from documents.drawing.rows_read import line_with, lines
from documents.drawing.sketch import Sketch
from documents.hostile_texts import HOSTILE
from firstfix.build import ids
from firstfix.build.logical import Vlan
from firstfix.build.model import Build
from firstfix.documents.drawing.addresses import address_drawings
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.power import mains_drawings, poe_drawings
from firstfix.documents.drawing.power.figures import watts_of
from firstfix.documents.drawing.tree import tree_drawings
from firstfix.documents.drawing.tree.rows import predicted
from firstfix.documents.drawing.vlans import vlan_drawings
from firstfix.graphs.backup import backup_domains
from firstfix.graphs.mains_tree import mains_tree, own_name
from firstfix.graphs.vlan_view import shown_jack, vlan_views
from firstfix.parts.facts import Fact

Maker = Callable[[Build], tuple[Drawing, ...]]
MAKERS = (mains_drawings, poe_drawings, vlan_drawings, tree_drawings, address_drawings)
each_maker = pytest.mark.parametrize("maker", MAKERS, ids=lambda maker: maker.__name__)
each_plan = pytest.mark.parametrize("name", NAMES)


def svgs(maker: Maker, name: str) -> list[str]:
    return [drawing.svg for drawing in drawn(maker, name)]


@each_maker
@each_plan
def test_sheets_print_on_a4_and_letter_and_no_text_lies_on_another(maker: Maker, name: str) -> None:
    assert drawn(maker, name)
    for drawing in drawn(maker, name):
        assert drawing.width <= palette.SHEET_LONG
        assert drawing.height <= palette.SHEET_SHORT
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.size >= palette.SMALLEST_SIZE and box.right <= drawing.width for box in boxes)


@each_maker
def test_the_same_bytes_twice(maker: Maker) -> None:
    assert maker(example("rowing-club")) == drawn(maker, "rowing-club")


@each_maker
def test_nothing_to_show_no_sheet(maker: Maker) -> None:
    assert maker(Sketch("empty").build()) == ()


@each_maker
@each_plan
def test_each_of_several_sheets_says_where_it_continues(maker: Maker, name: str) -> None:
    drawings = {drawing.name: drawing for drawing in drawn(maker, name)}
    for drawing in drawings.values():
        for onward in drawing.onward:
            assert onward in drawings
            assert f"continues on {onward}" in everything_said(drawing.svg)
    first = [each for each in drawings if each.endswith("-1")]
    assert all(drawings[each].onward for each in first)


def test_names_of_sheets() -> None:
    assert [each.name for each in drawn(vlan_drawings, "honey-farm")] == [
        "vlans", "vlan-house", "vlan-farm", "vlan-guests", "vlan-manage",
    ]  # fmt: skip
    assert [each.name for each in drawn(mains_drawings, "honey-farm")] == ["mains"]
    assert [each.name for each in drawn(poe_drawings, "honey-farm")] == ["poe"]
    assert [each.name for each in drawn(tree_drawings, "honey-farm")] == ["tree"]
    pages = [each.name for each in drawn(address_drawings, "school")]
    assert pages == [f"addresses-{number}" for number in range(1, len(pages) + 1)]


# VLANs


@each_plan
def test_every_member_has_a_row_with_its_address_and_jack(name: str) -> None:
    build = example(name)
    sheets = {each.name: each for each in drawn(vlan_drawings, name)}
    for view in vlan_views(build):
        mine = [each.svg for stem, each in sheets.items() if stem.startswith(f"vlan-{view.vlan.name}")]
        for member in view.members:
            words = [build.devices[member.device].name]
            words += [member.address] if member.address else []
            words += [shown_jack(build, member.at[0])] if len(member.at) == 1 else []
            assert line_with(mine, *words)


@each_plan
def test_a_vlan_tells_its_figures_and_whom_it_reaches(name: str) -> None:
    for view in vlan_views(example(name)):
        first = next(
            each for each in drawn(vlan_drawings, name) if each.title.startswith(f"VLAN {view.vlan.vid} ")
        )
        said = everything_said(first.svg)
        assert f"subnet {view.vlan.subnet}, gateway {view.vlan.gateway}" in said
        beyond = {"internet": "the internet", "names": "name servers"}
        for target in view.reaches:
            assert any(box.words.endswith(beyond.get(target, f" {target}")) for box in texts(first.svg))
        for _, ssid in view.wireless:
            assert ssid in said


def test_the_overview_marks_exactly_what_may_be_reached() -> None:
    """By the description, which is made row by row beside the marks; and by the count of arrows drawn."""
    (overview,) = (each for each in drawn(vlan_drawings, "school") if each.name == "vlans")
    views = vlan_views(example("school"))
    allowed = sum(len(view.reaches) for view in views)
    # One more stands in the meaning of the marks.
    assert overview.markup.count(f'height="11" fill="{palette.VLAN}"') == allowed + 1
    assert "VLAN 20 pupils, 10.92.20.0/23, may reach 40 print, the internet, name servers." in overview.alt


def test_which_vlan_the_till_is_on() -> None:
    row = line_with(svgs(vlan_drawings, "rowing-club"), "till-1")
    sheet = next(each for each in drawn(vlan_drawings, "rowing-club") if row in lines(each.svg))
    assert sheet.title == "VLAN 30 till of Rowing club"
    assert "10.84.30.11" in row


# Addresses


@each_plan
def test_every_address_has_a_row_with_its_device_and_room(name: str) -> None:
    build, sheets = example(name), svgs(address_drawings, name)
    for claim in build.addresses:
        device = build.devices[claim.device]
        assert line_with(sheets, claim.address, device.name, build.rooms[device.room].name)


def test_a_mac_address_is_shown_as_it_was_read() -> None:
    build = example("honey-farm")
    store = build.devices["device:store"]._replace(mac="00:00:5e:00:53:0a")
    changed = replace(build, devices={**build.devices, "device:store": store})
    sheets = [each.svg for each in address_drawings(changed)]
    assert line_with(sheets, "10.61.10.20", "store", "00:00:5e:00:53:0a", "written in the plan")
    assert line_with(sheets, "10.61.10.53", "names-1", "not read yet")


def test_what_is_free_and_what_is_lent() -> None:
    sheets = svgs(address_drawings, "honey-farm")
    assert line_with(sheets, "10.61.10.2 to 10.61.10.19", "free: 18")
    assert line_with(sheets, "10.61.10.100 to 10.61.10.199", "lent by DHCP: 100")
    assert line_with(sheets, "leased", "desk", "by lease (DHCP)")


# Power


@each_plan
def test_every_thing_on_the_mains_has_its_watts(name: str) -> None:
    build, sheets = example(name), svgs(mains_drawings, name)
    for node in mains_tree(build):
        if node.kind != "device" or node.missing:
            continue
        figures = [watts_of(each) for each in node.load]
        row = line_with(sheets, own_name(build, node), figures[2])
        assert [words for words in row if words.endswith(" W")][:3] == figures


@each_plan
def test_limits_and_what_is_left_of_them(name: str) -> None:
    build, sheets = example(name), svgs(mains_drawings, name)
    bound = [node for node in mains_tree(build) if node.limit is not None and not node.missing]
    assert bound
    for node in bound:
        label = own_name(build, node) if node.kind != "circuit" else f"circuit {own_name(build, node)}"
        assert node.limit is not None
        assert node.left is not None
        assert line_with(sheets, label, watts_of(node.limit.most), watts_of(node.left))


def test_what_stands_behind_a_ups_and_for_how_long() -> None:
    build = example("school")
    said = "\n".join(everything_said(svg) for svg in svgs(mains_drawings, "school"))
    assert "holds" in said
    for domain in backup_domains(build):
        assert all(ids.path(held.device) in said for held in domain.holds)
    assert said.count(" min as usual") >= len(backup_domains(build))


def test_a_ups_says_why_it_carries_less_than_its_title_and_what_it_takes_itself() -> None:
    """1,500 VA by a power factor of 0.6 is 900 W, less than its 1,000 W; the outlet bears its own 60 W too."""
    said = "\n".join(everything_said(svg) for svg in svgs(mains_drawings, "school"))
    assert "0.6 at the worst, so 900 W when all draw their most" in said
    assert "rating of 'ups-2u': 1000 W" in said
    assert "up to 60 W itself, lost in it" in said
    build = example("school")
    tree = {own_name(build, node): node for node in mains_tree(build)}
    outlet, ups = tree["closet"], tree["ups-block"]
    assert outlet.load.most - ups.load.most == pytest.approx(60)


def test_a_draw_that_is_not_known_never_reads_as_nothing() -> None:
    sheets = svgs(mains_drawings, "honey-farm")
    row = line_with(sheets, "parlour-set")
    assert row.count("? W") == 2
    assert "what 'parlour-set' draws" in everything_said(sheets[0])


@each_plan
def test_the_caution_is_on_every_sheet_of_the_mains(name: str) -> None:
    assert all("licensed electrician" in everything_said(svg) for svg in svgs(mains_drawings, name))


@each_plan
def test_each_source_tells_its_budget_and_what_is_left(name: str) -> None:
    build = example(name)
    said = "\n".join(everything_said(svg) for svg in svgs(poe_drawings, name))
    for source in build.power_sources.values():
        if not source.runs:
            continue
        assert isinstance(source.budget, Fact)
        assert isinstance(source.taken, Fact)
        assert isinstance(source.left, Fact)
        assert f"{watts_of(source.taken.high)} of {watts_of(source.budget.low)} counted" in said
        assert f"; {watts_of(source.left.low)} (" in said


@each_plan
def test_each_device_that_poe_feeds_has_its_jack_class_and_watts(name: str) -> None:
    build, sheets = example(name), svgs(poe_drawings, name)
    for run in build.power_runs.values():
        assert isinstance(run.assigned, Fact)
        assert isinstance(run.drawn, Fact)
        device = build.devices[build.jacks[run.sink].device].name
        row = line_with(sheets, build.jacks[run.source].name, device, f"class {run.assigned.typical:g}")
        assert str(run.pairs) in row
        assert any(words.endswith(f" / {watts_of(run.drawn.high)}") for words in row)


def test_what_feeds_the_far_camera_and_how_much_is_left() -> None:
    (sheet,) = drawn(poe_drawings, "honey-farm")
    assert "barn-switch, Switch for a desk" in sheet.alt
    assert "jack 3 feeds cam-yard" in sheet.alt
    assert "fed by PoE from injector/out, class 6" in sheet.alt
    assert "7.4 W (19 %) left" in everything_said(sheet.svg)


# The tree


@each_plan
def test_every_bridge_has_a_box_and_every_uplink_its_jacks(name: str) -> None:
    build = example(name)
    view = predicted(build)
    said = "\n".join(everything_said(svg) for svg in svgs(tree_drawings, name))
    uplinks = {bridge.uplink for bridge in view.bridges}
    for bridge in view.bridges:
        assert build.devices[bridge.device].name in said
        assert f"priority {bridge.priority}" in said
    for edge in view.edges:
        ends = [shown_jack(build, end.jacks[0]) for end in edge.ends]
        assert all(end in said for end in ends)
        assert (edge.id in uplinks) == any(f"uplink {a} – {b}" in said for a, b in (ends, ends[::-1]))


def test_a_plan_without_a_ring_says_that_no_link_stands_by() -> None:
    (sheet,) = drawn(tree_drawings, "honey-farm")
    assert "no link stands by" in everything_said(sheet.svg)
    assert "uplink barn-switch/in – core/9" in everything_said(sheet.svg)


def test_a_ring_has_one_link_that_stands_by() -> None:
    (sheet,) = drawn(tree_drawings, "school")
    assert "1 stands by" in everything_said(sheet.svg)
    assert line_with([sheet.svg], "A", "block-1/sfp2", "block-2/sfp1")
    assert "stands by: by its letter in the list" in everything_said(sheet.svg)


def test_what_the_plan_calls_a_spare_is_not_what_stands_by_in_the_tree() -> None:
    """In the school the spare fibre forwards, since the link between its two switches stands by."""
    (sheet,) = drawn(tree_drawings, "school")
    build = example("school")
    spare = next(link for link in build.links.values() if link.spare_for == "core/sfp5")
    forwards = {edge.link for edge in predicted(build).edges if not edge.stands_by}
    assert spare.id in forwards
    assert "the plan calls it a spare for core/sfp5" in everything_said(sheet.svg)
    dashes = {
        dash for dash in (palette.SPARE_DASH, palette.SPARE_FIBRE_DASH) if f'dasharray="{dash}"' in sheet.svg
    }
    assert not dashes


# Hostile texts


@pytest.mark.parametrize(
    "text", [*HOSTILE, "W" * 200, "\u202egnp.exe", "Zalgo" + "\u0301" * 50, "\U0001f41d hive"]
)
@each_maker
def test_a_hostile_name_is_harmless(maker: Maker, text: str) -> None:
    build = example("honey-farm")
    renamed = replace(
        build,
        name=text,
        devices={id_: each._replace(name=text) for id_, each in build.devices.items()},
        rooms={id_: each._replace(name=text) for id_, each in build.rooms.items()},
        jacks={id_: each._replace(name=text) for id_, each in build.jacks.items()},
        vlans={id_: _renamed(each, text) for id_, each in build.vlans.items()},
        wireless=tuple(each._replace(ssid=text, name=text) for each in build.wireless),
    )
    for drawing in maker(renamed):
        boxes = texts(drawing.svg)
        assert overlapping(boxes) == []
        assert all(box.right <= drawing.width and box.left >= 0 for box in boxes)
        assert all(
            character.isascii() and (character.isalnum() or character == "-") for character in drawing.name
        )


def _renamed(vlan: Vlan, text: str) -> Vlan:
    return vlan._replace(name=text)
