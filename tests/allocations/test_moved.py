"""Choices that are another in a second build; what only one of them makes has not moved."""

from firstfix.allocations.choices import Choices, KeptHost, KeptRouter
from firstfix.allocations.moved import MovedChoice, moved_choices


def test_only_what_both_choose_can_move() -> None:
    before = Choices(hosts=(KeptHost("a", "all", 5), KeptHost("b", "all", 6)), routers=(KeptRouter("r"),))
    after = Choices(hosts=(KeptHost("a", "all", 7), KeptHost("c", "all", 6)), routers=(KeptRouter("r"),))
    kept = Choices(hosts=(KeptHost("a", "all", 5),))
    moved = moved_choices(before, after, kept)
    assert moved == (MovedChoice("host number of a in all", "5", "7", is_kept=True),)
    assert moved_choices(before, after, Choices())[0].is_kept is False
    assert moved_choices(before, before, kept) == ()
