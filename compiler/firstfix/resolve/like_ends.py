"""Bare runs between two switches, of which one had a cage left only: the other end moves to a cage as well, if it has one free.

Jacks are given out device by device, the cheapest that could be joined to what the other device has at all; so one end may get copper
after the other got light. Takes the ends as given out; changes those that are unlike where nothing was written or kept.
"""

from collections.abc import Iterator

from firstfix.parts.part import CAGE_FAMILIES, COPPER_FAMILIES
from firstfix.resolve.chains import Chain
from firstfix.resolve.jacks import JackField
from firstfix.resolve.notes import Notes

EndKey = tuple[str, int, int, int]


def with_like_ends(
    chains: tuple[Chain, ...], ends: dict[EndKey, str], field: JackField, notes: Notes
) -> None:
    """Changes `ends`, and says why in `notes`."""
    taken: set[str] | None = None
    for chain, key, family in _unlike(chains, ends, field):
        taken = set(ends.values()) if taken is None else taken
        device = chain.devices[key[1]]
        free = (
            each
            for each in field.of[device.id]
            if each not in taken and field.jacks[each].family == family and field.jacks[each].side == "inside"
        )
        jack = next(free, None)
        if jack is not None:
            taken.discard(ends[key])
            taken.add(jack)
            ends[key] = jack
            _tell(notes, chain.id, device.name, field.jacks[jack].name)


def _unlike(
    chains: tuple[Chain, ...], ends: dict[EndKey, str], field: JackField
) -> Iterator[tuple[Chain, EndKey, str]]:
    """Each run with its copper end that is ours to choose, and the family of the cage at its other end."""
    for chain in chains:
        if len(chain.devices) != 2 or chain.spec.lanes != 1 or not _are_switches(chain):
            continue
        keys: tuple[EndKey, EndKey] = ((chain.id, 0, 1, 1), (chain.id, 1, 0, 1))
        if not all(key in ends for key in keys):
            continue
        for key, other in (keys, keys[::-1]):
            there = field.jacks[ends[other]].family
            if there in CAGE_FAMILIES and field.jacks[ends[key]].family in COPPER_FAMILIES:
                place = key[1]
                is_kept = chain.kept is not None and bool(chain.kept.along[place])
                if not chain.spec.hops[place].jacks and not is_kept:
                    yield chain, key, there


def _are_switches(chain: Chain) -> bool:
    """What is fed over the run needs the jack that feeds it."""
    return all(each.part.bridges is True and each.part.takes_poe is None for each in chain.devices)


def _tell(notes: Notes, run: str, device: str, jack: str) -> None:
    for place, each in enumerate(notes.decisions):
        if each.subject == run and each.attribute == f"jack at {device}":
            why = "the lowest free cage like the one at the other end, where nothing else was free"
            notes.decisions[place] = each._replace(value=f"{device}/{jack}", why=why, others=())
