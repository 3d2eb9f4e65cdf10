"""Amounts of money in whole minor units (cents), so that sums are exact."""

from decimal import ROUND_HALF_EVEN, Decimal

# Decimals of a currency's minor unit, where they are not two. ISO 4217, list of active codes (from memory).
_NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF"
_THREE = "BHD IQD JOD KWD LYD OMR TND"
_DECIMALS = {**dict.fromkeys(_NONE.split(), 0), **dict.fromkeys(_THREE.split(), 3)}


def decimals(currency: str) -> int:
    return _DECIMALS.get(currency.upper(), 2)


def minor(amount: float, currency: str, times: float = 1) -> int:
    """`amount` of the currency's major unit, `times` over, in whole minor units; a half goes to the even one.

    >>> minor(0.385, "EUR", 305), minor(12.5, "JPY")
    (11742, 12)
    """
    # repr gives the digits that the author wrote, so 0.385 is not 0.38500000000000000888.
    exact = Decimal(repr(amount)) * Decimal(repr(times)) * 10 ** decimals(currency)
    return int(exact.quantize(Decimal(1), ROUND_HALF_EVEN))


def is_whole(amount: float, currency: str) -> bool:
    """Whether `amount` can be paid: it has no part of a minor unit."""
    exact = Decimal(repr(amount)).scaleb(decimals(currency))
    return exact == exact.to_integral_value()
