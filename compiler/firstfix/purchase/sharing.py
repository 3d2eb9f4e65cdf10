"""How the money of one line is shared out over what it is bought for, to the last minor unit."""

from collections.abc import Iterable

from firstfix.build.hardware import Item


def shared(paid: int, weights: Iterable[float]) -> list[int]:
    """`paid` in whole parts as `weights` are; what is left over goes to the largest remainders, the first of equals first."""
    given = list(weights)
    whole = sum(given)
    exact = [paid * each / whole if whole else paid / len(given) for each in given]
    parts = [int(each) for each in exact]
    order = sorted(range(len(given)), key=lambda place: (parts[place] - exact[place], place))
    for place in order[: paid - sum(parts)]:
        parts[place] += 1
    return parts


def weight(item: Item) -> float:
    """By count or by length."""
    return item.count * (item.length or 1.0)
