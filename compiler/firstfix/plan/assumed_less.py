"""A list with entries taken out of it by what they say: `links-={run: [store, core]}`.

Takes the list and what is to go from it; gives the list without. A table names the entry that has all that it says, a run either way
round, and a hop of it without a jack is that device at whatever jack. What names no entry, or more than one alike, is told.
"""

from collections.abc import Iterator

from firstfix.finding.collector import Collector
from firstfix.plan.assumption import Assumption, AssumptionError
from firstfix.plan.series import SeriesReader
from firstfix.source.nearest import did_you_mean, nearest
from firstfix.source.node import Mapping, Node, Scalar, Sequence, clip

_RUN = "run"
_MOST_SHOWN = 200


def without_entries(given: Assumption, had: Sequence, gone: Sequence) -> Sequence:
    """Raises AssumptionError for one that names nothing, or that several entries answer to alike."""
    for entry in gone.items:
        had = _without_word(given, had, entry) if isinstance(entry, Scalar) else _without(given, had, entry)
    return had


def _without_word(given: Assumption, had: Sequence, gone: Scalar) -> Sequence:
    texts = [each.text for each in had.items if isinstance(each, Scalar)]
    if gone.text not in texts:
        raise _wrong(given, f"does not name '{clip(gone.text)}'{did_you_mean(gone.text, texts)}")
    return had.holding(
        [each for each in had.items if not (isinstance(each, Scalar) and each.text == gone.text)]
    )


def _without(given: Assumption, had: Sequence, gone: Node) -> Sequence:
    places = _named(had, gone)
    if not places:
        # Only a run is written for several devices at once; each of them is an entry then.
        single = had.holding(list(_singly(had)))
        if not (places := _named(single, gone)):
            raise _wrong(given, f"has no entry '{_shown(gone)}'{_nearest(gone, single)}")
        had = single
    if len(places) > 1:
        numbers = ", ".join(str(place + 1) for place in places[:4]) + (", …" if len(places) > 4 else "")
        path = ".".join(each.text for each in given.path)
        raise _wrong(
            given,
            f"has {len(places)} entries like '{_shown(gone)}', numbers {numbers}; "
            f"say more of the one, or take it away by its number: 'no {clip(path)}.{places[0] + 1}'",
        )
    return had.holding([each for place, each in enumerate(had.items) if place != places[0]])


def _named(had: Sequence, gone: Node) -> list[int]:
    """Places of what answers to it; that alone which says no more than it does, if there is one."""
    places = [place for place, each in enumerate(had.items) if _answers(each, gone)]
    exact = [place for place in places if _answers(gone, had.items[place])]
    return exact if len(exact) == 1 else places


def _answers(entry: Node | None, wanted: Node | None, key: str = "") -> bool:
    """Whether `entry` has all that `wanted` says."""
    if isinstance(wanted, Mapping):
        return isinstance(entry, Mapping) and all(
            _answers(entry.value(name), wanted.value(name), name) for name in wanted.entries
        )
    if isinstance(entry, Mapping) or wanted is None or entry is None:
        return False
    mine, its = _several(entry), _several(wanted)
    if len(mine) != len(its):
        return False
    if key != _RUN:
        return all(map(_answers_word, mine, its))
    return all(map(_is_hop, mine, its)) or all(map(_is_hop, mine[::-1], its))


def _answers_word(entry: Node, wanted: Node) -> bool:
    if isinstance(entry, Scalar) and isinstance(wanted, Scalar):
        return entry.text == wanted.text
    return not isinstance(entry, Scalar) and not isinstance(wanted, Scalar) and _answers(entry, wanted)


def _is_hop(hop: Node, wanted: Node) -> bool:
    if not (isinstance(hop, Scalar) and isinstance(wanted, Scalar)):
        return False
    return wanted.text == (hop.text if "/" in wanted.text else hop.text.partition("/")[0])


def _several(node: Node) -> list[Node]:
    """A single value is a list of one, as everywhere in a plan."""
    return list(node.items) if isinstance(node, Sequence) else [node]


def _singly(had: Sequence) -> Iterator[Node]:
    for each in had.items:
        run = each.value(_RUN) if isinstance(each, Mapping) else None
        hops = run.items if isinstance(run, Sequence) else []
        if any(isinstance(hop, Scalar) and ".." in hop.text for hop in hops):
            yield from SeriesReader(Collector()).steps(each, _RUN)
        else:
            yield each


def _nearest(gone: Node, had: Sequence) -> str:
    """What is written nearest to it: between the same two ends, or else in letters."""
    ends = _ends(gone)
    same = [each for each in had.items if ends and set(ends) == set(_ends(each))]
    if not same and ends:
        same = [each for each in had.items if ends[0] in _ends(each)]
    if len(same) != 1 and ends:
        known = {", ".join(pair): each for each in had.items for pair in (_ends(each), _ends(each)[::-1])}
        near = nearest(", ".join(ends), known)
        same = [known[near]] if near else []
    return f"; did you mean '{_shown(same[0])}'?" if len(same) == 1 else ""


def _ends(node: Node) -> tuple[str, ...]:
    run = node.value(_RUN) if isinstance(node, Mapping) else None
    hops = [each.text.partition("/")[0] for each in _several(run) if isinstance(each, Scalar)] if run else []
    return (hops[0], hops[-1]) if hops else ()


def _shown(node: Node) -> str:
    """As one would type it."""
    return clip(_typed(node), _MOST_SHOWN)


def _typed(node: Node) -> str:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return f"[{', '.join(map(_typed, node.items))}]"
    pairs = ((name, node.value(name)) for name in node.entries) if isinstance(node, Mapping) else ()
    return "{" + ", ".join(f"{name}: {_typed(value)}" for name, value in pairs if value is not None) + "}"


def _wrong(given: Assumption, sentence: str) -> AssumptionError:
    path = ".".join(clip(each.text) for each in given.path)
    return AssumptionError(f"{given.file}: {path} {sentence}")
