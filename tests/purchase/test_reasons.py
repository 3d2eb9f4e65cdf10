"""What needs a thing, in words."""

from firstfix.purchase.needs import needs
from firstfix.purchase.reasons import Reason, in_full, in_short
from purchase.sample import sample


def short(part: str, length: float = 0.0) -> str:
    return next(
        in_short(each.reasons) for each in needs(sample()) if (each.part, each.length) == (part, length)
    )


def test_a_device_is_its_own_reason() -> None:
    assert short("poe-switch") == "core"


def test_the_same_reason_is_said_once_for_all() -> None:
    assert short("screws") == "core, main unit 2 and 3 more (fixing to the rails)"


def test_a_cord_is_known_by_its_ends() -> None:
    assert short("cord", 2) == "surge-house/device–injector/out"


def test_names_come_in_natural_order() -> None:
    given = tuple(Reason(f"cam-{number}", "") for number in (2, 10, 9))
    assert in_short(given) == "cam-2, cam-10 and 1 more", "as given: sorting is the maker's"
    assert in_full(given) == "cam-2, cam-10, cam-9"


def test_different_reasons_are_kept_for_the_full_list_only() -> None:
    given = (
        Reason("panel", "fills opening 1"),
        Reason("panel", "fills opening 2"),
        Reason("out-hall", "fills opening 1"),
    )
    assert in_short(given) == "panel, out-hall"
    assert in_full(given) == "panel (fills opening 1, fills opening 2), out-hall (fills opening 1)"


def test_even_the_full_list_ends_before_a_spreadsheet_cuts_it_off() -> None:
    given = tuple(Reason(f"cam-{number}/1–core/{number}", "one at each end") for number in range(5000))
    assert len(in_full(given)) < 32_000
    assert in_full(given).endswith("and 4800 more")
