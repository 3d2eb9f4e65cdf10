"""The provider's line: which device it comes in through, and how the outside behind it gets its address."""

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.build.logical import InternetLine
from firstfix.parts.facts import Unknown
from firstfix.plan.model import InternetSpec
from firstfix.resolve.notes import Notes, value_span

_UNSAID = Unknown(
    "the plan does not say whether the provider's box translates addresses (`translates:` under `internet`)"
)


def resolve_internet(
    spec: InternetSpec | None, devices: dict[str, Device], notes: Notes
) -> InternetLine | None:
    """None where the plan says nothing of a line. A name that is no device has a gap."""
    if spec is None:
        return None
    notes.wrote("internet:", spec.written)
    through = ids.device(spec.through)
    if spec.through and through not in devices:
        known = (device.name for device in devices.values())
        notes.unknown_name("internet:", spec.through, "device", known, value_span(spec.written, "through"))
        through = ""
    translates = _UNSAID if spec.translates is None else spec.translates
    return InternetLine(through, spec.addresses, spec.address, spec.router, translates)
