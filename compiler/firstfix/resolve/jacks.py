"""Every device's jacks, in their order, and what passes between them inside passive devices."""

from collections.abc import Iterable
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.hardware import Device, Jack, Through
from firstfix.parts.part import TERMINATION_KINDS, JackSpec, Part


class JackField(NamedTuple):
    """`of`: a device's jack ids in order; `partner`: a passive jack to the jack at its other side."""

    jacks: dict[str, Jack]
    of: dict[str, tuple[str, ...]]
    throughs: tuple[Through, ...]
    partner: dict[str, str]


# What a whole plan may have, fronts and rears counted; about 1 GB of memory. A plan of ten thousand devices has 0.2 million.
MOST_JACKS_IN_PLAN = 1_000_000


def jack_count(part: Part) -> int:
    """How many jacks a device of this part has, fronts and rears counted."""
    return len(part.jacks) * (2 if part.kind in TERMINATION_KINDS else 1)


def resolve_jacks(devices: Iterable[Device]) -> JackField:
    jacks: dict[str, Jack] = {}
    of: dict[str, tuple[str, ...]] = {}
    throughs: list[Through] = []
    roles_of: dict[str, dict[str, str]] = {}
    for device in devices:
        part = device.part
        mine: list[str] = []
        roles = roles_of.get(part.name)
        if roles is None:
            roles = roles_of[part.name] = _power_roles(part)
        terminates = part.kind in TERMINATION_KINDS
        prefix = f"jack:{device.name}/"
        for order, spec in enumerate(part.jacks, 1):
            front = prefix + spec.name
            jacks[front] = _jack(front, device.id, spec, order, "front", roles.get(spec.name, ""))
            mine.append(front)
            if terminates:
                rear = front + "@rear"
                jacks[rear] = _jack(rear, device.id, spec, order, "rear", "")
                mine.append(rear)
                throughs.append(Through(rear, front, "passes", "passes"))
        for each in part.passes:
            throughs.append(Through(prefix + each.near, prefix + each.far, "passes", each.power))
        of[device.id] = tuple(mine)
    partner: dict[str, str] = {}
    for through in throughs:
        partner[through.near] = through.far
        partner[through.far] = through.near
    return JackField(jacks, of, tuple(throughs), partner)


def _jack(id_: str, device: str, spec: JackSpec, order: int, face: str, power: str) -> Jack:
    return Jack(
        id_, device, spec.name, order, face, spec.family, spec.rate, power, spec.needs_module, spec.side
    )


def _power_roles(part: Part) -> dict[str, str]:
    roles: dict[str, str] = {}
    if part.gives_poe is not None:
        roles.update(dict.fromkeys(part.gives_poe.jacks, "gives"))
    if part.takes_poe is not None:
        roles.update(dict.fromkeys(part.takes_poe.jacks, "takes"))
    return roles


def jack_id(device: Device, name: str, face: str = "front") -> str:
    return ids.jack(device.name, name, face)
