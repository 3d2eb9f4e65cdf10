"""Rules over shops and their offers: what keeps one out of the order."""

from collections.abc import Iterator

from firstfix.build.model import Build
from firstfix.finding.kinds import Kind
from firstfix.finding.model import COMMON_PRACTICE, PLAN_LANGUAGE, Cure, Level
from firstfix.rules.rule import Fine, FineMany, Outcome, Rule, rule


@rule("shop-postage", Level.WARNING, COMMON_PRACTICE)
def shop_postage(build: Build) -> Iterator[Outcome]:
    """A shop says what its postage is.

    Because: postage decides where a small thing is bought; a shop that does not say it would seem to be the cheapest.
    Compares: whether each shop has a `postage`. Nothing is ordered there until it has.
    Remedy: write `postage:`, and `postage: 0` where it sends for nothing or you fetch the goods.
    """
    for shop in build.shops:
        subject = f"shop:{shop.name}"
        if shop.postage is not None:
            yield Fine(subject)
            continue
        message = f"'{shop.name}' does not say what its postage is, so nothing is ordered there"
        cure = Cure("write 'postage:' at the shop, 0 where there is none")
        yield shop_postage.finding(message, subject, build.provenance.span(subject), cures=(cure,))


@rule("shop-currency", Level.WARNING, COMMON_PRACTICE)
def shop_currency(build: Build) -> Iterator[Outcome]:
    """A shop's prices are in the plan's currency.

    Because: amounts in two currencies cannot be added or compared; the rate of the day is not in a plan.
    Compares: each shop's `currency` with that of the plan. Nothing is ordered at a shop with another one.
    Remedy: write its prices in the plan's currency, at the rate that your bank takes, fees included.
    """
    for shop in build.shops:
        subject = f"shop:{shop.name}"
        if shop.currency == build.currency:
            yield Fine(subject)
            continue
        message = f"'{shop.name}' has prices in {shop.currency} and the plan sums in {build.currency}, so nothing is ordered there"
        yield shop_currency.finding(message, subject, build.provenance.span(subject, "currency"))


def _of_gaps(id: str, level: Level, help: str) -> Rule:
    def check(build: Build) -> Iterator[Outcome]:
        if not build.shops:
            return
        for gap in build.gaps:
            if gap.rule == id:
                yield each.finding(gap.why, gap.subject, gap.at)
        yield FineMany(sum(len(shop.offers) for shop in build.shops))

    check.__doc__ = help
    each = Rule(Kind(id, level, help, PLAN_LANGUAGE), check)
    return each


offer_form = _of_gaps(
    "offer-form", Level.ERROR,
    """An offer says of what, and how much of it.

    Because: the price of a cord without its length, or of cable without the length of its box, is the price of nothing in particular.
    Compares: the name of each offer with the kind of its part: cords by length, cable by box or reel, all else by the piece or pack.
    Remedy: write the length after the part, such as `cord-cat6/1m` or `cat6-indoor/305m`.
    """,
)  # fmt: skip
earlier_order = _of_gaps(
    "earlier-order", Level.NOTE,
    """An earlier order is one that could still be placed.

    Because: what a shop no longer offers cannot be kept to.
    Compares: the shops, goods and packs under `before` in `purchase` with what the shops offer now.
    Remedy: none is needed; take the line out of `before`, or the offer in again.
    """,
)  # fmt: skip

RULES: tuple[Rule, ...] = (shop_postage, shop_currency, offer_form, earlier_order)
