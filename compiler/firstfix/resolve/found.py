"""What the site said, laid over what was worked out: labels of devices, and lengths that a tester showed.

A measured length outranks the reckoned one wherever a limit is judged. It was measured of a run as it was
planned then: once that run has another cable, way or device, its measure counts no more.
"""

from collections.abc import Mapping

from firstfix.build import ids
from firstfix.build.as_laid import are_same, as_laid
from firstfix.build.cabling import RUN, Length, Piece
from firstfix.build.hardware import Device, Jack
from firstfix.finding.model import Term
from firstfix.plan.model import FoundOnSite, Plan


def with_labels(devices: Mapping[str, Device], found: FoundOnSite) -> dict[str, Device]:
    """`devices` with the MAC addresses and serial numbers that were read at unboxing."""
    labelled = dict(devices)
    for name in sorted({*found.macs, *found.serials}):
        device = devices.get(ids.device(name))
        if device is not None:
            mac = found.macs.get(name, device.mac)
            labelled[device.id] = device._replace(mac=mac, serial=found.serials.get(name, device.serial))
    return labelled


def as_written(devices: Mapping[str, Device], plan: Plan) -> dict[str, Device]:
    """`devices` with the MAC addresses that the plan itself says, and no others: for comparing plans, not sites."""
    macs = {ids.device(spec.name): spec.mac for spec in plan.devices}
    return {id_: device._replace(mac=macs.get(id_, ""), serial="") for id_, device in devices.items()}


def with_measured(
    pieces: Mapping[str, Piece], jacks: Mapping[str, Jack], found: FoundOnSite
) -> dict[str, Piece]:
    """`pieces` with the measured lengths of installed runs, each in the place of the length reckoned for it."""
    laid = dict(pieces)
    for run, (metres, as_planned) in sorted(found.lengths.items()):
        piece = pieces.get(f"piece:{run}")
        if piece is None or piece.kind != RUN:
            continue
        if not as_planned or are_same(as_planned, as_laid(piece, jacks)):
            term = Term("measured from end to end", metres, "measured on site")
            laid[piece.id] = piece._replace(length=Length((term,), (), 0.0, piece.length))
    return laid
