"""Settings sheets: the tables hold what the build says, unmanaged devices get no settings, and one sheet was
read by eye.
"""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from documents.stubs.reading import section, sheets, table
from documents.stubs.sample import mill
from firstfix.build import ids
from firstfix.documents.stubs.files import stub_files
from firstfix.parts.part import ACTIVE_KINDS

GOLDEN = Path(__file__).parent / "golden"


def test_golden_sheet_of_a_switch() -> None:
    assert sheets(mill())["core"] == (GOLDEN / "core-settings.md").read_text(encoding="utf-8")


def test_each_active_device_with_ports_has_a_folder_and_nothing_else_has() -> None:
    build = mill()
    wanted = {device.name for device in build.devices.values() if device.part.kind in ACTIVE_KINDS}
    assert {path.split("/")[1] for path in stub_files(build)} == wanted


def test_port_rows_are_the_wired_jacks() -> None:
    build = mill()
    wired = {end for piece in build.pieces.values() for end in piece.ends}
    for device, sheet in sheets(build).items():
        wanted = [build.jacks[jack].name for jack in build.jacks_of[ids.device(device)] if jack in wired]
        assert [row[0] for row in table(sheet, "Ports")] == wanted, device


def test_vlan_table_and_port_table_agree() -> None:
    sheet = sheets(mill())["core"]
    from_ports = {(row[0], vlan) for row in table(sheet, "Ports") for vlan in row[3].split(", ")}
    from_vlans = {
        (jack, f"{number} {name}")
        for number, name, _, _, tagged in table(sheet, "VLANs at its ports")
        for jack in tagged.split(", ")
        if jack != "–"
    }
    assert {pair for pair in from_ports if pair[1] != "–"} == from_vlans
    assert from_vlans


def test_unmanaged_switch_has_no_settings_and_says_where_it_lies() -> None:
    files = stub_files(mill())
    assert "stubs/desk-switch/config.json" not in files
    sheet = files["stubs/desk-switch/settings.md"].decode()
    assert "There is nothing to set in this device" in sheet
    assert "It lies in VLAN 10 staff" in sheet
    assert "Tagged VLANs" not in sheet
    assert "desk-switch: nothing feeds it" in sheet


def test_doubtful_switch_says_that_it_cannot_be_told() -> None:
    sheet = sheets(mill())["attic-switch"]
    assert "can be set up at all cannot be told" in sheet
    assert "Whether it speaks spanning tree cannot be told" in sheet


def test_gateway_lists_interfaces_leases_and_who_may_reach_whom() -> None:
    rows = {row[0]: row[1:] for row in table(sheets(mill())["gateway"], "Gateway")}
    assert rows["30 guests"] == [
        "10.40.30.1", "255.255.255.0 (/24)", "10.40.30.100 to 10.40.30.199", "1 (tagged)", "internet, names",
    ]  # fmt: skip
    assert rows["40 cameras"][2:] == ["none", "1 (tagged)", "nothing outside itself"]
    assert len(rows) == 5


def test_gateway_warns_that_the_file_alone_opens_every_vlan() -> None:
    assert "may let every VLAN reach every other one" in section(
        sheets(mill())["gateway"], "About config.json"
    )
    assert "may let every VLAN" not in sheets(mill())["core"]


def test_provider_line_is_no_spare_jack() -> None:
    sheet = sheets(mill())["gateway"]
    assert "For the provider's line: wan." in sheet
    assert "Nothing is planned at: 2 to 4." in sheet


def test_what_stands_before_the_gateway_is_the_providers() -> None:
    build = mill()
    wan = build.jacks["jack:gateway/1"]._replace(side="outside")
    sheet = sheets(replace(build, jacks={**build.jacks, wan.id: wan}))["core"]
    assert "its address is not this plan's" not in sheet
    till = {**build.jacks, "jack:hall-switch/3": build.jacks["jack:hall-switch/3"]._replace(side="outside")}
    assert "its address is not this plan's" in sheets(replace(build, jacks=till))["till"]


@pytest.mark.parametrize("vid", [0, 10, 4095])
def test_a_number_that_no_vlan_can_have_is_said(vid: int) -> None:
    """0 and 4095 are reserved (IEEE Std 802.1Q, Table 9-2), and 10 is another VLAN's already."""
    build = mill()
    vlans = {**build.vlans, "vlan:cameras": build.vlans["vlan:cameras"]._replace(vid=vid)}
    sheet = sheets(replace(build, vlans=vlans))["core"]
    assert table(sheet, "Ports")[1][2] == f"cameras (number {vid} can't be used)"


def test_both_name_servers_are_named_in_order() -> None:
    address = section(sheets(mill())["core"], "Address")
    assert address.index("Name server 1: 10.40.53.53") < address.index("Name server 2: 10.40.53.54")


def test_only_one_name_server_is_said() -> None:
    build = mill()
    service = build.name_service._replace(servers=build.name_service.servers[:1])
    assert "Name server 2: none in the plan" in sheets(replace(build, name_service=service))["core"]


def test_a_name_server_out_of_reach_is_not_to_be_keyed_in() -> None:
    """The VLAN of the cameras reaches nothing; the others reach "names"."""
    build = mill()
    addressed = {claim.device for claim in build.addresses if claim.vlan == "vlan:cameras"}
    cameras = sorted(
        build.devices[each].name for each in addressed if build.devices[each].part.kind == "camera"
    )
    assert cameras
    for name in cameras:
        address = section(sheets(build)[name], "Address")
        assert "Name servers: none reachable; its VLAN does not reach names-1, names-2" in address
        assert "10.40.53.53" not in address
        data = json.loads(stub_files(build)[f"stubs/{name}/config.json"])
        assert "server" not in data["ietf-system:system"].get("dns-resolver", {})


def test_what_reaches_the_servers_vlan_reaches_them() -> None:
    """By the name of their VLAN instead of "names"; and one of two, where they lie apart."""
    build = mill()
    cameras = build.vlans["vlan:cameras"]._replace(reaches=("services",))
    reached = replace(build, vlans={**build.vlans, "vlan:cameras": cameras})
    name = next(
        each.device for each in build.addresses if each.vlan == "vlan:cameras" and "cam" in each.device
    )
    assert "Name server 1: 10.40.53.53" in sheets(reached)[name.partition(":")[2]]


def test_the_gateway_hands_out_none_where_none_is_reached() -> None:
    build = mill()
    assert "No name server in VLAN" not in sheets(build)["gateway"]
    staff = build.vlans["vlan:staff"]._replace(reaches=("internet",), leases=("10.40.10.100", "10.40.10.199"))
    cut = sheets(replace(build, vlans={**build.vlans, "vlan:staff": staff}))["gateway"]
    assert "No name server in VLAN 10 staff: none is reachable from there" in cut


def test_access_point_carries_what_is_at_its_port_and_no_secret() -> None:
    sheet = sheets(mill())["ap-hall"]
    rows = {row[1]: row[2:] for row in table(sheet, "Wireless networks")}
    assert rows["Millrace visitors"] == ["30 guests", "tagged"]
    assert rows["Millrace yard"][1].startswith("not at its port")
    assert "Passphrases: choose them and keep them elsewhere" in sheet


def test_power_is_given_where_the_run_begins() -> None:
    built = sheets(mill())
    ports = {row[0]: row for row in table(built["core"], "Ports")}
    assert ports["1"][4] == "on: class 3, 12.95 W at ap-hall (15.4 W counted here)"
    assert ports["3"][4:] == ["off", "1 Gb/s", "PoE off, for injector gives the power"]
    assert "PoE from injector/out: class 3" in built["cam-race"]


def test_device_without_an_address_says_where_it_comes_from() -> None:
    built = sheets(mill())
    assert "By lease (DHCP), from 10.40.10.100 to 10.40.10.199 in VLAN 10 staff." in built["till"]
    assert "VLAN 40 cameras leases none: it needs one by hand" in built["cam-race"]


def test_the_way_reads_from_the_device_whichever_way_its_cables_were_written() -> None:
    build = mill()
    turned = {key: piece._replace(ends=piece.ends[::-1]) for key, piece in build.pieces.items()}
    for each in (build, replace(build, pieces=turned)):
        built = sheets(each)
        assert table(built["core"], "Ports")[0][1] == "ap-hall, jack 1, by way of panel/1, outlet-hall/1"
        assert table(built["ap-hall"], "Ports")[0][1] == "core, jack 1, by way of outlet-hall/1, panel/1"


def test_a_rate_that_nobody_gave_is_not_guessed() -> None:
    from firstfix.parts.facts import NOT_SAID

    build = mill()
    jacks = {**build.jacks, "jack:till/1": build.jacks["jack:till/1"]._replace(rate=NOT_SAID)}
    rows = {row[0]: row for row in table(sheets(replace(build, jacks=jacks))["hall-switch"], "Ports")}
    assert rows["3"][5] == "cannot tell (the rate of till's jack 1 is not known)"


def test_spanning_tree_names_one_root_and_its_follower() -> None:
    built = sheets(mill())
    assert "set the bridge priority to 4096" in section(built["core"], "Spanning tree")
    assert "This bridge should be the root. If it fails, hall-switch follows." in built["core"]
    assert "set the bridge priority to 8192" in section(built["hall-switch"], "Spanning tree")
    assert "The root should be core; if that fails, this bridge follows." in built["hall-switch"]
    assert "never close a loop through it" in built["desk-switch"]


def test_placeholder_is_said_to_be_one() -> None:
    files = stub_files(mill())
    sheet = files["stubs/core/settings.md"].decode()
    address = "00-00-5E-00-53-"
    assert address in files["stubs/core/config.json"].decode()
    assert "**Placeholder:**" in sheet
    assert address in sheet


@pytest.mark.parametrize("kind", ["settings.md", "config.json"])
def test_another_device_changes_no_other_file(kind: str) -> None:
    """Nothing in a file is numbered across devices."""
    build = mill()
    till = build.devices["device:till"]
    more = {**build.devices, "device:aaa": till._replace(id="device:aaa", name="aaa")}
    before, after = stub_files(build), stub_files(replace(build, devices=dict(sorted(more.items()))))
    assert {path: text for path, text in after.items() if "/aaa/" not in path} == dict(before)
    assert any(path.endswith(kind) for path in after)


def test_same_build_same_bytes() -> None:
    assert list(stub_files(mill()).items()) == list(stub_files(mill()).items())
    assert list(stub_files(mill())) == sorted(stub_files(mill()))
