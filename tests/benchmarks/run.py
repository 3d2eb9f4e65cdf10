"""Speed as ratios within one run: this is how figures stay comparable on machines that are busy or slow.

    python tests/benchmarks/run.py [RUNS]

Prints, each as the median of some runs taken in turn: `--version` and `check` of the home plan against a bare interpreter; `check` of a plan
of 10,000 devices against the floor (libyaml's events into plain dicts and lists with positions, collection paused); its peak
memory; and how the time grows from 1,000 to 10,000 devices.
"""

import math
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from benchmarks.big_plan import big_plan

ROOT = Path(__file__).parents[2]
_FLOOR = """
import gc, sys
import yaml
from yaml.cyaml import CParser
gc.disable()
parser = CParser(open(sys.argv[1], encoding="utf-8").read())
stack, top, key, root = [], None, None, None
while True:
    event = parser.get_event()
    kind = type(event)
    if kind is yaml.ScalarEvent:
        start, end = event.start_mark, event.end_mark
        value = (event.value, start.line, start.column, end.line, end.column)
    elif kind is yaml.MappingStartEvent or kind is yaml.SequenceStartEvent:
        stack.append((top, key, event.start_mark.line, event.start_mark.column))
        top, key = ({} if kind is yaml.MappingStartEvent else []), None
        continue
    elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
        inner = top
        top, key, line, column = stack.pop()
        value = (inner, line, column, event.end_mark.line, event.end_mark.column)
    elif kind is yaml.StreamEndEvent:
        break
    else:
        continue
    if top is None:
        root = value
    elif type(top) is list:
        top.append(value)
    elif key is None:
        key = value
    else:
        top[key[0]] = (key, value)
        key = None
"""


def seconds(*command: str) -> float:
    started = time.perf_counter()
    subprocess.run(command, check=False, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return time.perf_counter() - started


def in_turn(runs: int, *commands: tuple[str, ...]) -> list[float]:
    """The median of each command, all taken in turn so that a slow moment meets them alike."""
    taken: list[list[float]] = [[] for _ in commands]
    for _ in range(runs):
        for times, command in zip(taken, commands, strict=True):
            times.append(seconds(*command))
    return [statistics.median(times) for times in taken]


def main() -> None:
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    python, firstfix = sys.executable, ("-m", "firstfix")
    home = str(ROOT / "plans" / "honey-farm.yaml")
    bare, version, check = in_turn(
        4 * runs, (python, "-c", "pass"), (python, *firstfix, "--version"), (python, *firstfix, "check", home)
    )
    say("--version against a bare interpreter", version / bare, 3)
    say("check of the home plan against a bare interpreter", check / bare, 30)
    with tempfile.TemporaryDirectory() as folder:
        plans = {devices: Path(folder) / f"{devices}.yaml" for devices in (1_000, 10_000)}
        for devices, path in plans.items():
            path.write_text(big_plan(devices), "utf-8")
        floor, small, big = in_turn(
            runs,
            (python, "-c", _FLOOR, str(plans[10_000])),
            (python, *firstfix, "check", str(plans[1_000])),
            (python, *firstfix, "check", str(plans[10_000])),
        )
    say("check of 10,000 devices against the reading floor", big / floor, 6)
    say(
        "growth from 1,000 to 10,000 devices, as the exponent of n",
        math.log10((big - bare) / (small - bare)),
        1.15,
    )
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1024
    say("most memory of any of these, MiB", peak, 1024)
    print(f"({bare:.3f} s bare interpreter, {floor:.2f} s floor, {small:.2f} s and {big:.2f} s check)")


def say(what: str, figure: float, aim: float) -> None:
    print(f"{what}: {figure:.2f} (aim: at most {aim:g})")


if __name__ == "__main__":
    main()
