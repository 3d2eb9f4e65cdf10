"""The first number at which something is wrong: exact, by compiling the plan with so many more in it.

Takes a function that judges a number (its troubles, none for fine) and a guess. More of a thing never mends what fewer broke, with one
exception: the share of a bore that cables may fill is 53 % for one, 31 % for two and 40 % for three (NFPA 70, Chapter 9 Table 1), so
two may be too many where three are not. So the first few are all looked at; from then on it is halved.
"""

from collections.abc import Callable

from firstfix.growth.model import MOST, Trouble

Judge = Callable[[int], tuple[Trouble, ...]]
# From three cables on, the share that they may fill stays the same.
_ONE_BY_ONE = 3


def most_that_fit(
    judge: Judge, fits: int, guess: int, few: bool = False, most: int = MOST
) -> tuple[int, tuple[Trouble, ...]]:
    """The greatest number with nothing wrong up to it, and what is wrong with one more; nothing where `most` fit.

    `fits`: so many are known to. `guess`: where to look first. `few`: whether two may be too many where three are not.
    """
    fine = fits
    for number in range(fits + 1, (_ONE_BY_ONE if few else 1) + 1):
        if troubles := judge(number):
            return number - 1, troubles
        fine = number
    fine, wrong = _around(judge, fine, max(guess, fine + 1), most)
    while wrong - fine > 1:
        middle = (fine + wrong) // 2
        if judge(middle):
            wrong = middle
        else:
            fine = middle
    return fine, judge(wrong) if wrong <= most else ()


def _around(judge: Judge, fine: int, guess: int, most: int) -> tuple[int, int]:
    """A number that is fine and a greater one that is not, found by walking away from the guess in doubled steps."""
    wrong, probe, step = most + 1, min(guess, most), 1
    while fine < probe < wrong:
        if judge(probe):
            wrong, probe = probe, probe - step
        else:
            fine, probe = probe, min(probe + step, most)
        step *= 2
    return fine, wrong
