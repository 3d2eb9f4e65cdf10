"""The sheets of addresses. Takes a build; gives drawings, none for a build without VLANs."""

from firstfix.build.model import Build
from firstfix.documents.drawing.addresses.rows import COLUMNS, rows
from firstfix.documents.drawing.kit.svg import Drawing
from firstfix.documents.drawing.listing import listing, split
from firstfix.documents.drawing.numbered import TALLEST, Content, numbered


def address_drawings(build: Build) -> tuple[Drawing, ...]:
    """`addresses`, or `addresses-1` and so on."""
    if not build.vlans:
        return ()
    lots = split(rows(build), TALLEST)
    under = f"{len(build.addresses)} addresses in {len(build.vlans)} VLANs; by lease means that the address changes"
    contents = [
        Content((listing(COLUMNS, lot),), ". ".join(row.hint for row in lot) + ".", under) for lot in lots
    ]
    return numbered("addresses", f"Addresses of {build.name}", contents)
