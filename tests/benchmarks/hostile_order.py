"""How long the worst of orders takes: markets made to be hard, which no solver proves in minutes, end by their work.

    python tests/benchmarks/hostile_order.py [MARKETS]

Prints for each its processor seconds on one thread, its work and how far the order may be from the best.
"""

import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from firstfix.purchase.least import least
from firstfix.purchase.market import Market
from firstfix.purchase.whole_numbers import MOST_WORK, Work
from purchase.markets import hostile

# Lines, shops, offers of each line, price steps of each offer, lines of cable.
_SHAPES = ((20, 40, 8, 4, 0), (20, 40, 8, 4, 5), (60, 40, 12, 6, 0), (60, 40, 12, 6, 3), (120, 40, 12, 6, 3))


def main() -> None:
    markets = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    # The first question also loads the solver.
    least(Market((), (), ()))
    for shape in _SHAPES:
        for seed in range(markets):
            asked, work = hostile(seed, *shape), Work()
            started = time.process_time()
            found = least(asked, work=work)
            taken = time.process_time() - started
            assert found is not None
            gap = 100 * (found.cost - found.bound) / found.cost
            print(
                f"{shape[0]} lines ({shape[4]} of cable), {shape[1]} shops, {len(asked.deals)} offers of {shape[3]} prices: {taken:.1f} s"
                f" (aim: about 10), work {work.done / MOST_WORK:.2f} of what is given, at most {gap:.2f} % above the least"
            )


if __name__ == "__main__":
    main()
