"""Who is in a VLAN: a row for each, with its address, and the jack that it is plugged into."""

from firstfix.build.model import Build
from firstfix.documents.drawing.addresses.rows import WHENCE
from firstfix.documents.drawing.listing import Cell, Column, Row, quiet
from firstfix.documents.drawing.vlans.carriers import TAGGED, UNTAGGED
from firstfix.graphs.vlan_view import GATEWAY, Member, VlanView, shown_jack

COLUMNS = (
    Column("Member", 158.0),
    Column("Room", 108.0),
    Column("Address", 118.0),
    Column("Whence", 124.0),
    Column("Plugged into", 136.0),
    Column("How", 79.0),
)


def rows(build: Build, view: VlanView) -> tuple[Row, ...]:
    """By name; a VLAN with nobody in it says so."""
    found = tuple(_row(build, each) for each in view.members)
    return found or (Row((Cell("nobody"), *(Cell(""),) * 5)),)


def _row(build: Build, member: Member) -> Row:
    device = build.devices[member.device]
    room = build.rooms.get(device.room)
    return Row(
        (
            Cell(device.name, is_bold=True),
            Cell(room.name if room else "not known"),
            Cell(member.address, is_bold=True) if member.address else quiet(_without(member)),
            quiet(WHENCE.get(member.whence, member.whence)) if member.address else quiet(""),
            Cell(", ".join(shown_jack(build, jack) for jack in member.at)) if member.at else quiet("itself"),
            quiet(_how(member)),
        )
    )


def _without(member: Member) -> str:
    if member.whence:
        return WHENCE[member.whence]
    return "none of its own" if member.is_tagged else "none in the plan"


def _how(member: Member) -> str:
    if not member.at:
        return "routes it" if member.whence == GATEWAY else "is set up in it"
    return TAGGED if member.is_tagged else UNTAGGED
