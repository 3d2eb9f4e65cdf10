"""VLANs, addresses, names, wireless: what is set wrongly."""

from seeded.kind import fault
from seeded.page import NotHere, Page, Row


def _two_vlans(page: Page, pattern: str = r"id: ") -> tuple[Row, Row]:
    rows = page.having("vlans", pattern)
    if len(rows) < 2:
        raise NotHere
    first, second = page.rng.sample(rows, 2)
    return first, second


@fault("subnet-overlap", "address-duplicate")
def subnets_overlap(page: Page) -> None:
    first, second = _two_vlans(page)
    first.touch()
    second.set("subnet", first.value("subnet"))


@fault("subnet-overlap", most=6)
def subnet_swallows_the_others(page: Page) -> None:
    first, second = _two_vlans(page)
    first.touch()
    base = second.value("subnet").rsplit(".", 2)[0]
    first.set("subnet", f"{base}.0.0/16")
    for row in page.having("vlans", "id: "):
        row.touch()


@fault("subnet-form")
def subnet_with_host_bits(page: Page) -> None:
    page.pick("vlans", "subnet").swap(r"\.0/24", ".7/24")


@fault("vlan-number")
def vlan_number_twice(page: Page) -> None:
    first, second = _two_vlans(page)
    first.touch()
    second.set("id", first.value("id"))


@fault("vlan-number")
def vlan_number_too_large(page: Page) -> None:
    page.pick("vlans", "id: ").set("id", page.rng.choice(["4095", "0"]))


@fault("address-duplicate")
def one_address_for_two(page: Page) -> None:
    rows = page.having("devices", r"host: ")
    pairs = [(a, b) for a in rows for b in rows if a is not b and a.value("vlan") == b.value("vlan")]
    if not pairs:
        raise NotHere
    first, second = page.rng.choice(pairs)
    first.touch()
    second.set("host", first.value("host"))


@fault("address-duplicate", level="error|warning")
def fixed_address_among_the_leases(page: Page) -> None:
    row = page.device(r"host: \d+")
    vlan = page.the("vlans", row.value("vlan"))
    host = int(row.value("host"))
    vlan.set("dhcp", f"{max(host - 1, 2)}-{host + 40}")
    row.touch()


@fault("address-outside-subnet")
def vlan_swapped_under_a_full_address(page: Page) -> None:
    row = page.device(r"vlan: .*host: \d+")
    subnet = page.the("vlans", row.value("vlan")).value("subnet")
    row.set("host", f"{subnet.rpartition('.')[0]}.{row.value('host')}")
    others = [each.key for each in page.having("vlans", "subnet") if each.key != row.value("vlan")]
    row.set("vlan", page.rng.choice(others))


@fault("address-form")
def host_number_of_the_broadcast(page: Page) -> None:
    page.device(r"host: \d+").set("host", "255")


@fault("lease-range")
def leases_beyond_the_subnet(page: Page) -> None:
    page.pick("vlans", "dhcp: ").set("dhcp", "100-300")


@fault("addresses-exhausted", "address-form", most=8)
def subnet_too_small(page: Page) -> None:
    row = page.the("vlans", page.rng.choice(["cameras", "doors", "farm", "manage"]))
    row.swap(r"\.0/24", ".0/30")
    for device in page.having("devices", rf"vlan: {row.key}\b"):
        device.touch()


@fault("names-out-of-reach", level="warning")
def name_servers_out_of_reach(page: Page) -> None:
    page.pick("vlans", r"^  (guests|members|office):.*dhcp: .*, names[\],]").swap(r", names\b", "")


@fault("wifi-not-carried", level="warning")
def wireless_in_a_vlan_that_no_access_point_has(page: Page) -> None:
    row = page.pick("wifi", "vlan: ")
    taken = {
        name
        for each in page.having("devices", "tagged: ")
        for name in each.value("tagged").strip("[]").split(", ")
    }
    free = [each.key for each in page.having("vlans", "subnet") if each.key not in taken]
    own = {each.value("vlan") for each in page.having("devices", r"part: [a-z-]*access-point")}
    if not set(free) - own:
        raise NotHere
    row.set("vlan", page.rng.choice(sorted(set(free) - own)))


@fault("vlan-unsaid", level="warning")
def device_in_no_vlan(page: Page) -> None:
    page.device(r"part: (end-device|computer-desktop|camera)\b.*\bvlan: [a-z]+, owned").unset("vlan")


@fault("vlan-island", "layer2-loop", most=6)
def switch_without_vlans_in_the_middle(page: Page) -> None:
    row = page.device(r"^  core: ")
    page.own_part(row, "vlan-aware: false")
    for other in [*page.section("devices"), *page.section("links"), *page.section("vlans")]:
        other.touch()


@fault("vlan-island", most=6)
def uplink_that_leaves_a_vlan_out(page: Page) -> None:
    row = page.link(r"run: \[(gateway|router), core")
    row.set("tagged", "[manage]")
    for other in page.section("vlans"):
        other.touch()


@fault("vlan-island")
def router_missing(page: Page) -> None:
    row = page.device(r"part: gateway-1u\b|part: gateway-desktop")
    page.own_part(row, "routes: false")
    for other in page.section("vlans"):
        other.touch()


@fault("double-translation", level="note")
def both_boxes_translate(page: Page) -> None:
    page.whole("internet").swap(r"addresses: pppoe, translates: false", "addresses: dhcp, translates: true")
