"""Money in whole minor units (cents) as people write it."""

from decimal import Decimal

from firstfix.offers.currency import decimals
from firstfix.parts.facts import Unknown

Price = int | Unknown


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
