"""Sums of money are exact, and rounding is stated."""

from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.offers.currency import minor
from firstfix.parts.facts import Unknown
from firstfix.purchase.money import money, plain


@pytest.mark.parametrize(
    ("amount", "currency", "times", "expected"),
    [
        (0.1, "EUR", 3, 30),  # as floats, 0.1 * 3 is 0.30000000000000004
        (0.385, "EUR", 305, 11742),  # 117.425: half goes to the even cent
        (0.375, "EUR", 1, 38),
        (0.365, "EUR", 1, 36),
        (1500, "JPY", 1, 1500),
        (1.5, "KWD", 1, 1500),
        (2, "", 1, 200),
    ],
)
def test_amounts_in_minor_units(amount: float, currency: str, times: float, expected: int) -> None:
    assert minor(amount, currency, times) == expected


@given(st.integers(0, 10**9), st.sampled_from(["EUR", "JPY", "KWD"]))
@settings(derandomize=True, deadline=None)
def test_what_is_printed_reads_back(amount: int, currency: str) -> None:
    assert minor(float(Decimal(plain(amount, currency))), currency) == amount


def test_for_people() -> None:
    assert money(123456789, "EUR") == "1\u00a0234\u00a0567.89 EUR"
    assert money(5, "") == "0.05"
    assert money(Unknown("nobody said"), "EUR") == "no price"
