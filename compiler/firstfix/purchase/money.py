"""Money in whole minor units (cents), so that sums are exact; and as people write it."""

from decimal import ROUND_HALF_EVEN, Decimal

from firstfix.parts.facts import Unknown

Price = int | Unknown

# How many decimals a currency's minor unit has, where it is not two. ISO 4217, list of active codes (from memory).
_DECIMALS = {
    "BIF": 0, "CLP": 0, "DJF": 0, "GNF": 0, "ISK": 0, "JPY": 0, "KMF": 0, "KRW": 0, "PYG": 0, "RWF": 0, "UGX": 0, "VND": 0,
    "VUV": 0, "XAF": 0, "XOF": 0, "XPF": 0, "BHD": 3, "IQD": 3, "JOD": 3, "KWD": 3, "LYD": 3, "OMR": 3, "TND": 3,
}  # fmt: skip


def decimals(currency: str) -> int:
    return _DECIMALS.get(currency.upper(), 2)


def minor(amount: float, currency: str, times: float = 1) -> int:
    """`amount` of the currency's major unit, `times` over, in whole minor units; half a unit goes to the even one.

    >>> minor(0.385, "EUR", 305), minor(12.5, "JPY")
    (11742, 12)
    """
    # repr gives the digits that the author wrote, so 0.385 is not 0.38500000000000000888.
    exact = Decimal(repr(amount)) * Decimal(repr(times)) * 10 ** decimals(currency)
    return int(exact.quantize(Decimal(1), ROUND_HALF_EVEN))


def plain(amount: int, currency: str) -> str:
    """Minor units as a decimal number without the currency: 11742 is "117.42"."""
    return f"{Decimal(amount).scaleb(-decimals(currency)):f}"


def money(price: Price, currency: str) -> str:
    """For people. A price that nobody gave is "no price", never nothing.

    >>> money(123456, "EUR"), money(Unknown("the part does not say"), "EUR"), money(0, "")
    ('1 234.56 EUR', 'no price', '0.00')
    """
    if isinstance(price, Unknown):
        return "no price"
    # A no-break space between thousands: neither a comma nor a point, which mean different things in different countries.
    digits = f"{Decimal(price).scaleb(-decimals(currency)):,f}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{digits} {currency}".rstrip()
