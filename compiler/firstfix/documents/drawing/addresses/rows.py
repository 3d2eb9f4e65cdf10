"""All addresses of a build as rows by VLAN: what is taken, by whom and whence, what is lent and to whom, what is free."""

from collections.abc import Iterator

from firstfix.build.logical import Vlan
from firstfix.build.model import Build
from firstfix.documents.drawing.kit import palette
from firstfix.documents.drawing.listing import Cell, Column, Row, group, quiet
from firstfix.graphs.address_spans import FREE, LENT, RESERVED, AddressSpan, address_spans
from firstfix.graphs.vlan_view import GATEWAY, LEASED, Member, VlanView, vlan_views

COLUMNS = (
    Column("Address", 176.0),
    Column("Device", 160.0),
    Column("Room", 110.0),
    Column("MAC address", 122.0),
    Column("Whence", 150.0),
)
WHENCE = {
    "written": "written in the plan",
    "kept": "as chosen by the build before",
    "worked out": "chosen by the build",
    LEASED: "by lease (DHCP)",
    GATEWAY: "gateway of the VLAN",
}


def rows(build: Build) -> Iterator[Row]:
    """Each VLAN's rows under its name, by number. A VLAN without a subnet says so."""
    for view in vlan_views(build):
        yield group(named(view.vlan), beside=facts(view.vlan))
        by_device = {member.device: member for member in view.members}
        spans = address_spans(build, view.vlan)
        if not spans:
            yield Row((Cell("no subnet"), *(_nothing(),) * 4))
        for span in spans:
            yield from _span(build, view, span, by_device)
        inside = {device for span in spans for device in span.devices}
        for member in view.members:
            if member.address and member.device not in inside:
                yield _taken(build, member.address, member, False)


def named(vlan: Vlan) -> str:
    """`10 house`: as it is looked up on a device that is set up by numbers."""
    return f"{vlan.vid} {vlan.name}" if vlan.vid else f"{vlan.name} (no number)"


def facts(vlan: Vlan) -> str:
    lent = f"lends {vlan.leases[0]} to {vlan.leases[1]}" if all(vlan.leases) else "lends none"
    return palette.BETWEEN.join(
        filter(None, (vlan.subnet, f"gateway {vlan.gateway}" if vlan.gateway else "no gateway", lent))
    )


def _span(build: Build, view: VlanView, span: AddressSpan, by_device: dict[str, Member]) -> Iterator[Row]:
    shown = span.first if span.count == 1 else f"{span.first} to {span.last}"
    if span.what == FREE:
        yield Row((quiet(shown), quiet(f"free: {span.count}"), *(_nothing(),) * 3), palette.FIELD)
    elif span.what == RESERVED:
        is_first = span.first == view.vlan.subnet.partition("/")[0]
        words = "the network itself" if is_first else "broadcast"
        yield Row((quiet(shown), quiet(words), _nothing(), _nothing(), quiet("reserved")), palette.FIELD)
    elif span.what == LENT:
        yield Row(
            (Cell(shown), Cell(f"lent by DHCP: {span.count}"), *(_nothing(),) * 3), palette.PASSIVE_BAND
        )
        if span.last == view.vlan.leases[1]:
            yield from (_leased(build, each) for each in view.members if each.whence == LEASED)
    elif not span.devices:
        yield Row((Cell(shown), quiet("no device"), _nothing(), _nothing(), Cell(WHENCE[GATEWAY])))
    else:
        yield from (_taken(build, shown, by_device[each], len(span.devices) > 1) for each in span.devices)


def _nothing() -> Cell:
    return Cell("")


def _taken(build: Build, shown: str, member: Member, is_clash: bool) -> Row:
    whence = WHENCE.get(member.whence, member.whence)
    said = Cell("clash: two have it", palette.ALARM, True) if is_clash else Cell(whence)
    return Row((Cell(shown, is_bold=True), *_device(build, member.device), said))


def _leased(build: Build, member: Member) -> Row:
    return Row((quiet("leased"), *_device(build, member.device), Cell(WHENCE[LEASED])))


def _device(build: Build, id_: str) -> tuple[Cell, Cell, Cell]:
    device = build.devices[id_]
    room = build.rooms.get(device.room)
    mac = Cell(device.mac) if device.mac else quiet("not read yet")
    return Cell(device.name, is_bold=True), Cell(room.name if room else "not known"), mac
