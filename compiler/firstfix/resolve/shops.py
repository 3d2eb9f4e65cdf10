"""Shops with the offers that can be used: of parts that there are, by length where a thing is bought by length."""

from collections.abc import Iterator, Mapping

from firstfix.build import ids
from firstfix.build.hardware import Device
from firstfix.offers.model import Goods, Offer, Shop
from firstfix.parts.part import ACTIVE_KINDS, Library, Part
from firstfix.plan.colours import COLOURS
from firstfix.plan.model import ShopSpec, WishSpec
from firstfix.resolve.notes import Notes, value_span
from firstfix.source.node import clip
from firstfix.span import Span
from firstfix.units import metres

OFFER_RULE = "offer-form"
BEFORE_RULE = "earlier-order"
_BY_LENGTH = ("cable", "cord", "power-cord")


def shop_id(shop: str) -> str:
    return f"shop:{shop}"


def offer_id(shop: str, goods: Goods) -> str:
    return f"offer:{shop}/{goods.name}"


def resolve_shops(
    specs: tuple[ShopSpec, ...], wish: WishSpec, library: Library, notes: Notes
) -> tuple[Shop, ...]:
    """By name; what an offer lacks, or an earlier order that fits no offer, is a gap."""
    shops = tuple(sorted((_shop(spec, wish, library, notes) for spec in specs), key=lambda shop: shop.name))
    _check_before(shops, wish, notes)
    return shops


def offered_lengths(shops: tuple[Shop, ...], currency: str) -> dict[str, tuple[float, ...]]:
    """By part, in which lengths cable can be had where something can be ordered."""
    found: dict[str, set[float]] = {}
    for shop in shops:
        if shop.postage is not None and shop.currency == currency:
            for offer in shop.offers:
                if offer.goods.length and offer.most != 0:
                    found.setdefault(offer.goods.part, set()).add(offer.goods.length)
    return {part: tuple(sorted(lengths)) for part, lengths in sorted(found.items())}


def check_instead(wish: WishSpec, devices: Mapping[str, Device], library: Library, notes: Notes) -> None:
    """Other parts are known, and so are the devices whose place they could take."""
    for (device, part), at in zip(wish.wish.instead, wish.instead_at, strict=True):
        if ids.device(device) not in devices:
            notes.unknown_name("purchase", device, "device", map(ids.path, devices), at)
        elif part not in library:
            notes.unknown_name("purchase", part, "part", library, at)


def check_sold_out(wish: WishSpec, library: Library, notes: Notes) -> None:
    """What can't be had is a part that there is."""
    for part, at in wish.sold_out_at.items():
        if part not in library:
            notes.unknown_name("purchase", part, "part", library, at)


def check_runs(wish: WishSpec, library: Library, notes: Notes) -> None:
    """What runs for some hours a day is a part or a kind of part."""
    for name, at in wish.runs_at.items():
        if name not in ACTIVE_KINDS and name not in library:
            notes.unknown_name(
                "purchase", name, "part or kind of part that runs", (*ACTIVE_KINDS, *library), at
            )


def _shop(spec: ShopSpec, wish: WishSpec, library: Library, notes: Notes) -> Shop:
    """With what it offers of parts that can be had."""
    shop = spec.shop
    notes.wrote(shop_id(shop.name), spec.written)
    usable = tuple(
        offer for offer in _usable(spec, library, notes) if offer.goods.part not in wish.wish.sold_out
    )
    return shop._replace(offers=tuple(sorted(usable, key=_place_of)))


def _place_of(offer: Offer) -> tuple[object, ...]:
    limits = (-1 if each is None else each for each in (offer.most, offer.lead))
    return (offer.goods, offer.pack, offer.prices, *limits, offer.note)


def _usable(spec: ShopSpec, library: Library, notes: Notes) -> Iterator[Offer]:
    for offer, written in zip(spec.shop.offers, spec.offers, strict=True):
        part, subject = library.get(offer.goods.part), offer_id(spec.shop.name, offer.goods)
        at = written.span
        notes.wrote(subject, written)
        if part is None:
            shown = written.key.text if written.key is not None else offer.goods.name
            notes.unknown_name(subject, offer.goods.part, "part", library, at, shown)
        elif fault := _fault(offer, part):
            notes.gap(OFFER_RULE, subject, fault, at)
        else:
            # A pack is what one buys by default: its bare price is not that of a piece of it.
            yield offer if offer.pack else offer._replace(pack=max(part.pack, 1))


def _fault(offer: Offer, part: Part) -> str:
    """What keeps an offer of this part from being used, or ""."""
    name, goods = clip(part.name), offer.goods
    if goods.colour and goods.colour not in COLOURS:
        return f"'{clip(goods.colour)}' is no colour of the list ({', '.join(COLOURS)})"
    if part.kind == "cord" and not goods.length:
        return (
            f"a cord is offered by its length, such as '{name}/1m'; '{clip(goods.name)}' does not say which"
        )
    if part.kind == "cable" and not goods.length:
        return f"cable is offered by the length of its box or reel, such as '{name}/100m'; '{clip(goods.name)}' does not say which"
    if part.kind == "cable" and offer.pack > 1:
        return f"each box of {metres(goods.length)} has a price of its own; an offer of cable has no 'pack'"
    if part.kind not in _BY_LENGTH and goods.length:
        return f"'{name}' is counted, not measured; '{clip(goods.name)}' asks for a length of it"
    return ""


def _check_before(shops: tuple[Shop, ...], wish: WishSpec, notes: Notes) -> None:
    known = {shop.name: shop for shop in shops}
    for each in wish.wish.before:
        shop = known.get(each.shop)
        packs = (
            {offer.pack for offer in shop.offers if offer.goods == each.goods} if shop is not None else set()
        )
        if not (each.pack in packs or (not each.pack and len(packs) == 1)):
            which = f" in packs of {each.pack}" if each.pack else " in one size of pack"
            why = f"'{clip(each.shop)}' does not offer '{clip(each.goods.name)}'{which if packs else ''} any more"
            notes.gap(BEFORE_RULE, offer_id(each.shop, each.goods), why, _place(wish))


def _place(wish: WishSpec) -> Span | None:
    return value_span(wish.written, "before")
