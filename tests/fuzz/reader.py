"""A fuzzer for reading plans that is guided by coverage: `python tests/fuzz/reader.py [SECONDS] [--seed N] [--keep FOLDER]`.

It damages plans, reads each (source/ and plan/, no build), and watches which lines of those two packages run after which. An input that
reaches a new pair joins the corpus, and later damage starts from there: so it works its way through conditions that blind damage would
have to meet all at once. It runs until its seconds of processor time are used up (without them, until it is stopped), with a line every
thousand inputs. What raises, hangs or prints without end is saved as FOLDER/crash-N.yaml beside a text that says why; FOLDER is
`fuzz-failures` unless told otherwise. The same seed gives the same inputs, whatever the machine, as long as the code is the same.

No library: the ones there are for this take the whole process over, and count in ways that differ between versions.
"""

import argparse
import itertools
import random
import sys
import time
import traceback
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

TESTS = Path(__file__).parents[1]
if __name__ == "__main__":
    sys.path.insert(0, str(TESTS))

import firstfix  # noqa: E402
from firstfix.finding.collector import Collector  # noqa: E402
from firstfix.finding.model import report  # noqa: E402
from firstfix.finding.render_text import render_text  # noqa: E402
from firstfix.parts.library_files import library  # noqa: E402
from firstfix.plan.read import read_plan  # noqa: E402
from firstfix.source.node import Mapping  # noqa: E402
from firstfix.source.reader import parse  # noqa: E402
from fuzz.judge import MOST_OUTPUT, MOST_SECONDS, TooLong, processor_time  # noqa: E402
from fuzz.mutants import plans  # noqa: E402
from fuzz.mutate import mutant  # noqa: E402

_PACKAGE = str(Path(firstfix.__file__).parent)
WATCHED = (f"{_PACKAGE}/source/", f"{_PACKAGE}/plan/")
# Larger inputs are dropped: they reach nothing that a small one doesn't, and each costs more.
_MOST_BYTES = 12_000
_SAID_EVERY = 1_000

Read = Callable[[bytes], None]
"""Reads one input; whatever it raises is a crash."""


class Crash(NamedTuple):
    text: bytes
    why: str


def read(text: bytes) -> None:
    """A plan as far as its typed form, and its faults as text."""
    faults = Collector()
    tree = parse(text, "plan.yaml", faults)
    if isinstance(tree, Mapping):
        read_plan(tree, library(), faults)
    said = render_text(report(faults.findings), {"plan.yaml": text.decode("utf-8-sig", "replace")})
    if len(said.encode()) > MOST_OUTPUT:
        raise AssertionError(f"prints {len(said.encode()):,} bytes")


class Coverage:
    """Which line came after which, in the files whose names begin with one of `watched`, of everything run within `watching`."""

    def __init__(self, watched: tuple[str, ...]) -> None:
        self._watched = watched
        self._is_watched: dict[CodeType, bool] = {}
        self.known: set[tuple[CodeType, int, int]] = set()
        self._new = 0

    @contextmanager
    def watching(self) -> Iterator[None]:
        before = sys.gettrace()
        sys.settrace(self._called)
        try:
            yield
        finally:
            sys.settrace(before)

    def gained(self) -> int:
        """How many pairs were new since it was last asked."""
        gained, self._new = self._new, 0
        return gained

    def _called(self, frame: FrameType, event: str, arg: Any) -> Any:  # noqa: ARG002 - as sys.settrace calls it
        code = frame.f_code
        is_watched = self._is_watched.get(code)
        if is_watched is None:
            is_watched = self._is_watched[code] = code.co_filename.startswith(self._watched)
        return self._traced(code) if is_watched else None

    def _traced(self, code: CodeType) -> Any:
        last = 0
        known = self.known

        def line(frame: FrameType, event: str, arg: Any) -> Any:
            nonlocal last
            if event == "line":
                pair = (code, last, frame.f_lineno)
                last = frame.f_lineno
                if pair not in known:
                    known.add(pair)
                    self._new += 1
            return line

        return line


class Fuzzer:
    """Inputs made from `corpus`, which grows. `crashes` holds one input for each place where something was raised."""

    def __init__(
        self, corpus: list[bytes], seed: int, read: Read, watched: tuple[str, ...] = WATCHED
    ) -> None:
        self.corpus: list[bytes] = []
        self.crashes: list[Crash] = []
        self.coverage = Coverage(watched)
        self._places: set[str] = set()
        self._chance = random.Random(seed)  # noqa: S311 - repeatable damage, no secret
        self._read = read
        for text in corpus:
            self._try(text)
            self.corpus.append(text)
        self.coverage.gained()

    def step(self) -> None:
        """One damaged input; kept if it reached something new."""
        chance = self._chance
        # What was found last lies nearest to what was not found yet.
        recent = self.corpus[-32:] if chance.random() < 0.5 else self.corpus
        text = mutant(chance.choice(recent), chance.choice(self.corpus), chance)
        if len(text) > _MOST_BYTES:
            return
        self._try(text)
        if self.coverage.gained():
            self.corpus.append(text)

    def _try(self, text: bytes) -> None:
        try:
            with processor_time(10 * MOST_SECONDS), self.coverage.watching():
                self._read(text)
        except (Exception, TooLong) as fault:
            place = _place(fault)
            if place not in self._places:
                self._places.add(place)
                self.crashes.append(Crash(text, traceback.format_exc()))


def _place(fault: BaseException) -> str:
    """The kind of what was raised and the lines that led there within the package: the same fault is told once."""
    frames = traceback.extract_tb(fault.__traceback__)
    return f"{type(fault).__name__} " + " ".join(f"{each.filename}:{each.lineno}" for each in frames[-3:])


def main(given: list[str]) -> int:
    asked = argparse.ArgumentParser(description="Fuzz the reading of plans, guided by coverage.")
    asked.add_argument("seconds", nargs="?", type=float, default=float("inf"))
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--keep", type=Path, default=Path("fuzz-failures"))
    options = asked.parse_args(given)
    fuzzer = Fuzzer(plans(), options.seed, read)
    saved = 0
    try:
        for number in itertools.count(1):
            fuzzer.step()
            while saved < len(fuzzer.crashes):
                _save(fuzzer.crashes[saved], saved, options.keep)
                saved += 1
            if number % _SAID_EVERY == 0:
                _say(number, fuzzer)
            if time.process_time() > options.seconds:
                break
    except KeyboardInterrupt:
        pass
    _say(number, fuzzer)
    return 1 if saved else 0


def _save(crash: Crash, number: int, folder: Path) -> None:
    folder.mkdir(exist_ok=True)
    (folder / f"crash-{number}.yaml").write_bytes(crash.text)
    (folder / f"crash-{number}.txt").write_text(crash.why)
    sys.stdout.write(f"crash {number}: {crash.why.strip().splitlines()[-1]}\n")
    sys.stdout.flush()


def _say(number: int, fuzzer: Fuzzer) -> None:
    reached = len(fuzzer.coverage.known)
    sys.stdout.write(
        f"{number:,} inputs, {reached:,} pairs of lines, {len(fuzzer.corpus):,} in the corpus, {len(fuzzer.crashes)} crashes\n"
    )
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
