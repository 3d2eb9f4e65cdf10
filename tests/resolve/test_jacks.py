"""Jacks: what is written is honoured, ranges are kept to, and no run is refused for which an arrangement exists."""

import itertools
import random
from pathlib import Path

import pytest

from resolve.planning import build_of, one_room


@pytest.mark.parametrize("seed", range(12))
def test_as_many_runs_are_served_as_exhaustive_search_serves(seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    wanted: list[list[int]] = []
    for _ in range(chance.randint(2, 6)):
        low = chance.randint(1, 5)
        wanted.append(list(range(low, min(5, low + chance.randint(0, 2)) + 1)))
    devices = {"core": "switch-5", **{f"desk-{n}": "computer-desktop" for n in range(len(wanted))}}
    links = [{"run": [f"desk-{n}", f"core/{jacks[0]}-{jacks[-1]}"]} for n, jacks in enumerate(wanted)]
    build = build_of(tmp_path, one_room(devices, links))
    best = max(
        sum(jack is not None for jack in choice)
        for choice in itertools.product(*[[None, *jacks] for jacks in wanted])
        if len({jack for jack in choice if jack}) == sum(jack is not None for jack in choice)
    )
    assert len(build.pieces) == best
    for piece in build.pieces.values():
        jack = next(build.jacks[end] for end in piece.ends if build.jacks[end].device == "device:core")
        number = int(piece.link.partition("desk-")[2].partition("#")[0])
        assert int(jack.name) in wanted[number]


def test_a_written_jack_is_honoured_and_nobody_else_gets_it(tmp_path: Path) -> None:
    devices = {"core": "switch-5", **{f"desk-{n}": "computer-desktop" for n in range(5)}}
    links = [{"run": [f"desk-{n}", "core"]} for n in range(4)] + [{"run": ["desk-4", "core/1"]}]
    build = build_of(tmp_path, one_room(devices, links))
    at_one = [joint.piece for joint in build.joints if joint.jack == "jack:core/1"]
    assert [build.pieces[piece].ends[0] for piece in at_one] == ["jack:desk-4/1"]
    assert len(build.pieces) == 5


def test_a_thousand_runs_that_shove_one_another_along(tmp_path: Path) -> None:
    """The longest path of moves there can be; a recursion would end here."""
    count = 1020
    devices = {"core": "wide", **{f"desk-{n:04}": "computer-desktop" for n in range(count + 1)}}
    links = [{"run": [f"desk-{n:04}", f"core/{n + 1}-{n + 2}"]} for n in range(count)]
    links.append({"run": [f"desk-{count:04}", "core/1"]})
    parts = {"wide": {"like": "switch-24", "jacks": {"1-1024": {"family": "rj45", "rate": "1 Gb/s"}}}}
    assert len(build_of(tmp_path, one_room(devices, links, parts=parts)).pieces) == count + 1
