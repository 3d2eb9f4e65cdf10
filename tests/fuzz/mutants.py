"""Damaged plans by the thousand, from all plans that the tests hold. `python tests/fuzz/mutants.py [COUNT] [SEED] [FOLDER]` from
the repository's folder runs it by itself; what goes wrong is saved as FOLDER/mutant-N.yaml beside a text that says why.

Mutant N of a seed is the same whoever makes it, so that a count and a seed tell how to make it again.
"""

import random
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

TESTS = Path(__file__).parents[1]
if __name__ == "__main__":
    sys.path.insert(0, str(TESTS))

from fuzz.judge import judge  # noqa: E402
from fuzz.mutate import mutant  # noqa: E402

# One in so many mutants is built to documents too.
DOCUMENTS_EVERY = 25


class Failure(NamedTuple):
    number: int
    why: str
    text: bytes


def plans() -> list[bytes]:
    """The example plans, those of the language's and of these tests, and one or two of each fifth rule. Larger ones would only be slow."""
    repo = TESTS.parent
    rules = sorted((TESTS / "rules").glob("*/bad*.yaml"))[::5]
    others = [*sorted((TESTS / "language").glob("*.yaml")), *sorted((TESTS / "fuzz").glob("*.yaml"))]
    paths = [*sorted((repo / "plans").glob("*.yaml")), *others, *rules]
    # What firstfix keeps beside a plan is called PLAN.allocations.yaml and PLAN.progress.yaml.
    return [path.read_bytes() for path in paths if "." not in path.stem and path.stat().st_size < 40_000]


def numbered(number: int, seed: int, texts: list[bytes]) -> bytes:
    chance = random.Random(f"{seed}/{number}")  # noqa: S311 - repeatable damage, no secret
    return mutant(texts[number % len(texts)], chance.choice(texts), chance)


def failures(count: int, seed: int, folder: Path) -> Iterator[Failure]:
    texts = plans()
    for number in range(count):
        text = numbered(number, seed, texts)
        why = judge(text, folder, with_documents=number % DOCUMENTS_EVERY == DOCUMENTS_EVERY - 1)
        if why:
            yield Failure(number, why, text)


def main(given: list[str]) -> int:
    count, seed = (int(each) for each in (*given, "2000", "1")[:2]) if len(given) < 2 else map(int, given[:2])
    kept = Path(given[2] if len(given) > 2 else "fuzz-failures")
    bad = 0
    with tempfile.TemporaryDirectory() as scratch:
        for failure in failures(count, seed, Path(scratch)):
            bad += 1
            kept.mkdir(exist_ok=True)
            (kept / f"mutant-{seed}-{failure.number}.yaml").write_bytes(failure.text)
            (kept / f"mutant-{seed}-{failure.number}.txt").write_text(failure.why)
            sys.stdout.write(f"mutant {failure.number}: {failure.why.strip().splitlines()[-1]}\n")
            sys.stdout.flush()
    sys.stdout.write(f"{count:,} mutants of seed {seed}, {bad} failures\n")
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
