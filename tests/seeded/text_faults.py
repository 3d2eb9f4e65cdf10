"""Slips of the pen: names that are not declared, keys misspelt, units left out, things said twice."""

from seeded.kind import fault
from seeded.page import Page


@fault("name-unknown")
def run_to_nobody(page: Page) -> None:
    page.link(r"names-[12]|store|till-1").swap(r"\[([a-z0-9-]+),", r"[\1-x,")


@fault("name-unknown")
def device_in_unknown_room(page: Page) -> None:
    row = page.device(r"\broom: ")
    row.set("room", f"{row.value('room')}-x")


@fault("name-unknown")
def device_in_unknown_vlan(page: Page) -> None:
    page.device(r"\bvlan: .*owned").set("vlan", "nobodys")


@fault("name-unknown")
def device_of_unknown_part(page: Page) -> None:
    page.device(r"part: (end-device|computer-desktop|access-point|camera)\b").set("part", "wonder-box")


@fault("name-unknown")
def way_to_unknown_room(page: Page) -> None:
    page.pick("ways").swap(r", ([a-z-]+)\]", r", \1-x]")


@fault("name-unknown")
def reaches_unknown_vlan(page: Page) -> None:
    page.pick("vlans", "reaches").swap(r"reaches: \[", "reaches: [nowhere, ")


@fault("name-unknown")
def fed_by_unknown_strip(page: Page) -> None:
    page.device(r"part: (computer-desktop|end-device)").set("power", "strip-x")


@fault("name-unknown")
def jack_that_is_not_there(page: Page) -> None:
    page.link(r"out-[a-z]+/[12]").swap(r"(out-[a-z]+)/\d", r"\1/9")


@fault("name-unknown")
def spare_for_what_is_not_there(page: Page) -> None:
    page.link(r"spare-for").set("spare-for", "cord/sfp9")


@fault("spare-link", level="warning")
def spare_for_another_device(page: Page) -> None:
    page.link(r"spare-for").set("spare-for", "shed-switch/1")


@fault("key-duplicate")
def device_written_twice(page: Page) -> None:
    row = page.device(r"owned: true")
    page.add("devices", row.text.strip())
    row.touch()


@fault("name-duplicate")
def room_name_twice(page: Page) -> None:
    room = page.pick("sites", r"^ +(workshop|extraction|den|workbench): .*floor")
    other = page.pick("sites", r"^ +(landing|committee|attic|gym): .*floor").touch()
    twin = page.after(room, room.text)
    twin.swap(r"[a-z]+:", f"{other.key}:")


@fault("key-unknown")
def misspelt_key(page: Page) -> None:
    page.device(r"\broom: .*owned").swap(r"\bowned:", "onwed:")


@fault("quantity")
def length_without_unit(page: Page) -> None:
    page.pick("ways").swap(r"length: ([\d.]+) m", r"length: \1")


@fault("quantity")
def length_in_watts(page: Page) -> None:
    page.pick("ways").swap(r"length: ([\d.]+) m", r"length: \1 W")


@fault("part-kind", most=4)
def cabinet_of_a_switch(page: Page) -> None:
    page.pick("cabinets", r"part: wall-cabinet").swap(r"wall-cabinet-\d+u", "switch-16")


@fault("room-unsaid")
def device_in_no_room(page: Page) -> None:
    page.device(r"part: (access-point|camera|end-device|computer-desktop)\b.*\broom: ").unset("room")


@fault("room-conflict")
def device_in_two_rooms(page: Page) -> None:
    row = page.device(r"\{part: (storage|small-computer|surge-protector)[^r]*$")
    page.stands(row.key)
    row.set("room", page.pick("sites", r"^ +(workroom|landing|bar|hall|gym|attic|den): .*mains: ").key)


@fault("exception-unmatched", level="warning")
def exception_that_outlived_its_cause(page: Page) -> None:
    page.add("exceptions", "- {rule: poe-budget, subject: core, reason: it was so once}")


@fault("value-kind")
def passphrase_in_the_plan(page: Page) -> None:
    page.pick("wifi", "ssid").set("passphrase", "open sesame")
