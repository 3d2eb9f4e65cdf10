"""What a change of a plan costs: the list to buy with it, less the list without.

Takes two builds; prices are those of the parts, as they are in the shopping list; postage and offers of shops are not in them.
"""

from firstfix.build.model import Build
from firstfix.parts.facts import Unknown
from firstfix.purchase.ask import typed
from firstfix.purchase.needs import needs, price_of_pack, total

# In minor units, None where nothing has a price; and the lines that have none, so aren't in it.
Cost = tuple[int | None, tuple[str, ...]]


def price_of_change(without: Build, changed: Build) -> Cost:
    """Less than nothing where the change is cheaper."""
    now, then = needs(without), needs(changed)
    known = {typed(each) for each in now}
    unpriced = tuple(
        typed(each) for each in then if isinstance(each.amount.price, Unknown) and typed(each) not in known
    )
    return total(then).known - total(now).known, unpriced


def price_of_part(build: Build, part: str) -> Cost:
    """Of one, or of one pack."""
    price = price_of_pack(build, build.library.get(part))
    return (None, (part,)) if isinstance(price, Unknown) else (price, ())
