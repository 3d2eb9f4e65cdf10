"""Money in whole minor units (cents), so that sums are exact; and as people write it."""

from decimal import ROUND_HALF_EVEN, Decimal

from firstfix.parts.facts import Unknown

Price = int | Unknown

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


def plain(amount: int, currency: str) -> str:
    """Minor units as a decimal number without the currency: 11742 is "117.42"."""
    return f"{Decimal(amount).scaleb(-decimals(currency)):f}"


def money(price: Price, currency: str) -> str:
    """For people. A price that nobody gave is "no price", never nothing.

    >>> money(1234, "EUR"), money(Unknown("the part does not say"), "EUR"), money(0, "")
    ('12.34 EUR', 'no price', '0.00')
    """
    if isinstance(price, Unknown):
        return "no price"
    # A no-break space between thousands: a comma or a point means different things in different countries.
    digits = f"{Decimal(price).scaleb(-decimals(currency)):,f}".replace(",", "\N{NO-BREAK SPACE}")
    return f"{digits} {currency}".rstrip()
