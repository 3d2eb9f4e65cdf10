"""Sound plans, damaged at random: whatever comes, a report comes back and never an exception."""

import random
from collections.abc import Callable
from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan

PLANS = sorted((Path(__file__).parents[2] / "plans").glob("*.yaml"))
_BITS = (
    "{", "}", "[", "]", ":", ",", "- ", "\n", "  ", "\t", "'", '"', "*a", "&a ", "!x ", "null", "~", "-1", "0", "999999999999", "1-8", "8-1",
    "core", "panel/1", "\u00b2", "\u0661", "%", "10.0.0.0/8", "::/0", "1 m", "5 kW", "poe", "lanes: 8", "x-y: z", "\u202e", "\x85",
)  # fmt: skip


def _drop_line(lines: list[str], chance: random.Random) -> None:
    del lines[chance.randrange(len(lines))]


def _double_line(lines: list[str], chance: random.Random) -> None:
    place = chance.randrange(len(lines))
    lines.insert(chance.randrange(len(lines)), lines[place])


def _swap_words(lines: list[str], chance: random.Random) -> None:
    """A word of one line in the place of a word of another: what slips of a writer look like."""
    here, there = chance.randrange(len(lines)), chance.randrange(len(lines))
    words, others = lines[here].split(" "), lines[there].split(" ")
    words[chance.randrange(len(words))] = chance.choice(others)
    lines[here] = " ".join(words)


def _strew(lines: list[str], chance: random.Random) -> None:
    here = chance.randrange(len(lines))
    place = chance.randrange(len(lines[here]) + 1)
    lines[here] = lines[here][:place] + chance.choice(_BITS) + lines[here][place + chance.randrange(3) :]


_DAMAGES: tuple[Callable[[list[str], random.Random], None], ...] = (
    _drop_line,
    _double_line,
    _swap_words,
    _strew,
)


def mutant(text: str, chance: random.Random) -> str:
    lines = text.splitlines()
    for _ in range(chance.choice((1, 1, 2, 3, 6))):
        chance.choice(_DAMAGES)(lines, chance)
    return "\n".join(lines) + "\n"


def _survive(count: int, seed: int, folder: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable damage, no secret
    path = folder / "plan.yaml"
    texts = [plan.read_text("utf-8") for plan in PLANS]
    for number in range(count):
        text = mutant(texts[number % len(texts)], chance)
        path.write_bytes(text.encode("utf-8", "surrogatepass"))
        try:
            compiled = compile_plan(path, "plan.yaml")
        except Exception as fault:
            pytest.fail(f"mutant {number} of seed {seed}: {type(fault).__name__}: {fault}\n{text}")
        assert compiled.build is not None or compiled.report.has_errors


def test_300_mutants(tmp_path: Path) -> None:
    _survive(300, 20_270_301, tmp_path)


@pytest.mark.long
def test_20000_mutants(tmp_path: Path, request: pytest.FixtureRequest) -> None:
    if "long" not in request.config.getoption("-m"):
        pytest.skip("takes minutes; run with `-m long`")
    _survive(20_000, 4_711, tmp_path)
