"""All that a comparison has to say, for the writers beside this file."""

from typing import NamedTuple

from firstfix.compare.changes import Changes
from firstfix.compare.room_left import RoomLeft
from firstfix.compare.verdicts import VerdictChange
from firstfix.purchase.difference import Purchases


class ComparedPlans(NamedTuple):
    """`old` and `new` as shown to people; `notes`: sentences on how far the comparison goes."""

    old: str
    new: str
    changes: Changes
    verdicts: tuple[VerdictChange, ...]
    room: tuple[RoomLeft, ...]
    purchases: Purchases
    notes: tuple[str, ...] = ()

    @property
    def is_empty(self) -> bool:
        return self.changes.is_empty and not (
            self.verdicts or self.purchases.to_buy or self.purchases.left_over
        )
