"""Which thing of the new build is which of the old one: by `was:`, by likeness, and for what has no name by what it joins or holds.

Takes two builds and their records; gives one table, old id to new one, of everything that does not follow from equal names. A run that
was patched to another jack, or a shelf two units higher, is then the same run and the same shelf.
"""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Mapping
from typing import NamedTuple

from firstfix.build import ids
from firstfix.build.cabling import Link, Piece
from firstfix.build.hardware import Mount
from firstfix.build.model import Build
from firstfix.build.renames import renamed
from firstfix.compare.likeness import NAMED_KINDS, lookalikes
from firstfix.compare.pairing import Pairing
from firstfix.compare.records import kept_id
from firstfix.compare.values import OUSTED, Record


class Followed(NamedTuple):
    """Old id to new one. `said` by `was:`, `guessed` by likeness; `names` holds both, and the unnamed things besides."""

    said: Mapping[str, str]
    guessed: Mapping[str, str]
    names: Mapping[str, str]


def follow(old: Build, new: Build, before: Mapping[str, Record], after: Mapping[str, Record]) -> Followed:
    """`before` and `after`: the records of the two builds."""
    said = _said(new, named(before))
    guessed = lookalikes(before, after, said)
    names = {**said, **guessed}
    names |= _fittings(old, new, names)
    names |= _kept_units(old, new, names)
    names |= _links(old, new, names)
    names |= _pieces(old, new, names)
    names |= _displaced(before, names)
    return Followed(said, guessed, dict(sorted(names.items())))


def named(records: Iterable[str]) -> frozenset[str]:
    """Those of the ids whose name is the author's."""
    return frozenset(id_ for id_ in records if ids.kind(id_) in NAMED_KINDS)


def _said(new: Build, known: frozenset[str]) -> dict[str, str]:
    """A `was:` may stay in a plan: once both builds have the new name, it says nothing. Two things may have swapped names."""
    met = {was: now for now, was in new.renames.items() if was in known}
    return {was: now for was, now in sorted(met.items()) if now not in known or now in met}


def _displaced(before: Iterable[str], names: Mapping[str, str]) -> dict[str, str]:
    """What is gone although another thing goes by its id now: it gets an id that nothing can have."""
    taken = frozenset(each for was, each in names.items() if ids.kind(was) not in NAMED_KINDS)
    if not taken:
        return {}
    images = ((id_, renamed(id_, names)) for id_ in before if id_ not in names)
    return {id_: now + OUSTED for id_, now in images if now in taken}


def _links(old: Build, new: Build, names: Mapping[str, str]) -> dict[str, str]:
    """By id, then by the devices at their ends, then by the one end that has no other run."""
    alone_before, alone_after = _alone(old, names), _alone(new, {})
    pairs = Pairing(old.links, new.links)
    pairs.match(lambda each: renamed(each.id, names), lambda each: each.id)
    pairs.match(lambda each: _ends(each, names), lambda each: _ends(each, {}))
    pairs.match(lambda each: alone_before.get(each.id), lambda each: alone_after.get(each.id), only_one=True)
    return pairs.told(names)


def _ends(link: Link, names: Mapping[str, str]) -> Hashable:
    return tuple(sorted(renamed(hop, names) for hop in (link.hops[0], link.hops[-1])))


def _alone(build: Build, names: Mapping[str, str]) -> dict[str, str]:
    """Link to the one of its ends that has no other link."""
    at: defaultdict[str, list[str]] = defaultdict(list)
    for link in build.links.values():
        for hop in {link.hops[0], link.hops[-1]}:
            at[hop].append(link.id)
    return {links[0]: renamed(hop, names) for hop, links in sorted(at.items()) if len(links) == 1}


def _pieces(old: Build, new: Build, names: Mapping[str, str]) -> dict[str, str]:
    """By the jacks that they join; then by the devices, the same cable first; then by one jack, and alone, within a link."""
    pairs = Pairing(
        {piece.id: _joined(old, piece, names) for piece in old.pieces.values()},
        {piece.id: _joined(new, piece, {}) for piece in new.pieces.values()},
    )
    pairs.match_each(lambda each: (each.kind, each.jacks))
    pairs.match_each(lambda each: (each.kind, each.part, each.devices))
    pairs.match_each(lambda each: (each.kind, each.devices))
    pairs.match_each(lambda each: (each.kind, each.link, each.jacks[0]), only_one=True)
    pairs.match_each(lambda each: (each.kind, each.link, each.jacks[1]), only_one=True)
    pairs.match_each(lambda each: (each.kind, each.link), only_one=True)
    return pairs.told(names)


class _Joined(NamedTuple):
    """A piece by what it joins, in the new names."""

    kind: str
    part: str
    link: str
    jacks: tuple[str, ...]
    devices: tuple[str, ...]


def _joined(build: Build, piece: Piece, names: Mapping[str, str]) -> _Joined:
    return _Joined(
        piece.kind,
        piece.part,
        renamed(piece.link, names),
        tuple(sorted(renamed(end, names) for end in piece.ends)),
        tuple(sorted(renamed(build.jacks[end].device, names) for end in piece.ends)),
    )


def _fittings(old: Build, new: Build, names: Mapping[str, str]) -> dict[str, str]:
    pairs = Pairing(old.fittings, new.fittings)
    pairs.match(
        lambda each: (renamed(each.id, names), each.part.name), lambda each: (each.id, each.part.name)
    )
    pairs.match(
        lambda each: (renamed(each.cabinet, names), each.part.name),
        lambda each: (each.cabinet, each.part.name),
    )
    pairs.match(lambda each: each.part.name, lambda each: each.part.name, only_one=True)
    return pairs.told(names)


def _kept_units(old: Build, new: Build, names: Mapping[str, str]) -> dict[str, str]:
    pairs = Pairing(_kept(old), _kept(new))
    pairs.match(
        lambda each: (renamed(each.cabinet, names), each.what, each.low),
        lambda each: (each.cabinet, each.what, each.low),
    )
    pairs.match(
        lambda each: (renamed(each.cabinet, names), each.what), lambda each: (each.cabinet, each.what)
    )
    return pairs.told(names)


def _kept(build: Build) -> dict[str, Mount]:
    return {kept_id(mount): mount for mount in build.mounts if mount.is_kept_free}
