"""The shopping list: each thing to buy in one line, in packs as sold, at prices that are known or said to be unknown."""

from collections import Counter
from dataclasses import replace
from pathlib import Path

import pytest

from firstfix.build.hardware import IN_STOCK, TO_BUY, Item
from firstfix.build.model import Build
from firstfix.parts.facts import TYPICAL, Unknown, exactly
from firstfix.parts.part import KINDS, Part
from firstfix.pipeline import compile_plan
from firstfix.purchase.needs import Need, Pack, needs, total
from firstfix.purchase.owned import already_there
from firstfix.purchase.sections import NOT_IN_LIBRARY, SECTIONS, section_of
from purchase.sample import CABLE_PART, PARTS, cable_form, known, sample, with_items, with_parts

PLANS = sorted((Path(__file__).parents[2] / "plans").glob("*.yaml"))


def need(build: Build, title: str) -> Need:
    return next(each for each in needs(build) if each.title == title)


def builds() -> list[Build]:
    found = [compile_plan(path, path.name).build for path in PLANS]
    return [sample(), *(build for build in found if build is not None)]


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_every_item_is_in_exactly_one_line_and_nothing_else_is(build: Build) -> None:
    bought = Counter(item for each in needs(build) for item in each.items)
    there = Counter(item for each in already_there(build) for item in each.items)
    assert bought == Counter(item.id for item in build.items if item.standing == TO_BUY)
    assert there == Counter(item.id for item in build.items if item.standing != TO_BUY)


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_every_spare_is_reached_from_the_rule_and_from_nothing_else(build: Build) -> None:
    """One for each so many of one part and length that the network takes, from the shop or from stock, less what stays over of the stock."""
    of_kinds = ("cord", "plug", "jack-module", "transceiver")
    lines = [each for each in needs(build) if each.part in build.library]
    listed: dict[tuple[str, float], list[Need]] = {}
    for each in lines:
        listed.setdefault((each.part, each.length), []).append(each)
    for (part, length), some in listed.items():
        spares = sum(each.amount.spares for each in some)
        if build.library[part].kind not in of_kinds or not build.spares:
            assert spares == 0, part
            continue
        stock = [lot for lot in build.stock if (lot.part, lot.length) == (part, length)]
        taken = sum(each.amount.needed for each in some) + sum(
            sum(use.amount for use in lot.taken) for lot in stock
        )
        left = sum(lot.left for lot in stock)
        unmeasured = build.library[part].kind == "cord" and not length
        assert spares == (0 if unmeasured else max(0, -(-taken // build.spares) - left)), part


@pytest.mark.parametrize("build", builds(), ids=lambda build: build.name)
def test_what_is_bought_covers_what_is_needed(build: Build) -> None:
    for each in needs(build):
        assert each.amount.bought >= each.amount.needed > 0, each.title


@pytest.mark.parametrize(
    "gone", [item for item in sample().items if item.standing == TO_BUY], ids=lambda item: item.id
)
def test_an_item_less_makes_its_line_shrink_or_vanish(gone: Item) -> None:
    whole = sample()
    before = {each.id: each for each in needs(whole)}
    after = {
        each.id: each for each in needs(with_items(whole, (item for item in whole.items if item != gone)))
    }
    line = next(each for each in before.values() if gone.id in each.items)
    others = {id_: each for id_, each in before.items() if id_ != line.id}
    assert {id_: each for id_, each in after.items() if id_ != line.id} == others
    if line.id in after:
        left = after[line.id].amount.needed
        assert left == pytest.approx(line.amount.needed - gone.count * (gone.length or 1))


def test_the_order_of_items_does_not_matter() -> None:
    build = sample()
    assert needs(with_items(build, reversed(build.items))) == needs(build)


def test_sections_come_in_their_order() -> None:
    places = [SECTIONS.index(each.section) for each in needs(sample())]
    assert places == sorted(places)


def test_every_kind_of_part_has_a_section() -> None:
    assert NOT_IN_LIBRARY not in {section_of(kind) for kind in KINDS}


@pytest.mark.parametrize(("wanted", "packs"), [(1, 1), (20, 1), (21, 2), (40, 2), (41, 3)])
def test_packs_are_rounded_up(wanted: int, packs: int) -> None:
    build = sample()
    screws = next(item for item in build.items if item.part == "screws" and item.standing == TO_BUY)
    line = need(with_items(build, [screws._replace(count=wanted)]), "cage nuts and screws")
    assert line.amount.packs == (Pack(packs, 20, 990),)
    assert line.amount.price == packs * 990


def test_cords_are_one_line_for_each_length() -> None:
    lengths = [(each.length, each.amount.needed) for each in needs(sample()) if each.part == "cord"]
    assert lengths == [(0.5, 3), (1, 4), (2, 1)]


def test_cable_is_bought_in_lengths_as_sold_at_its_price_for_a_metre() -> None:
    line = need(sample(), "cable, category 6")
    assert (line.amount.unit, line.amount.needed) == ("m", 39.5)
    assert line.amount.packs == (Pack(1, 50, 2250),)


def test_a_price_that_nobody_gave_is_not_nothing() -> None:
    line = need(sample(), "shelf, 1U")
    assert isinstance(line.amount.price, Unknown)
    assert total((line,)) == (0, 1)


def test_a_price_of_nothing_is_a_price() -> None:
    build = with_parts(sample(), replace(PARTS["shelf"], price=known(0)))
    assert need(build, "shelf, 1U").amount.price == 0


def test_the_sum_is_of_what_has_a_price() -> None:
    lines = needs(sample())
    summed = total(lines)
    prices = [each.amount.price for each in lines]
    assert summed.known == sum(price for price in prices if isinstance(price, int))
    assert summed.unpriced == sum(isinstance(price, Unknown) for price in prices) > 0


@pytest.mark.parametrize(
    ("part", "said"),
    [
        (replace(PARTS[CABLE_PART], cable=cable_form()), "the part does not say in which lengths it is sold"),
        (
            replace(PARTS[CABLE_PART], cable=cable_form(20)),
            "1 of its runs longer than any length sold (21 m against 20 m)",
        ),
    ],
)
def test_cable_that_cannot_be_cut_is_said_and_has_no_sum(part: Part, said: str) -> None:
    line = need(with_parts(sample(), part), "cable, category 6")
    assert line.amount.unsettled == (said,)
    assert isinstance(line.amount.price, Unknown)


def test_a_run_of_unknown_length_is_said_and_not_counted_as_nothing() -> None:
    build = sample()
    items = [item._replace(length=0.0) if item.part == "buried-cable" else item for item in build.items]
    line = need(with_items(build, items), "cable, category 6, buried")
    assert line.amount.unsettled == ("1 of its runs without a known length, not in these figures",)
    assert line.amount.packs == ()


def test_a_cord_of_unknown_length_is_said() -> None:
    build = sample()
    stray = Item("item:stray", "cord", 1, 0.0, "", "link:gone", "", TO_BUY, "")
    line = need(with_items(build, [stray]), "cord, category 6")
    assert line.amount.unsettled == ("its length could not be worked out",)


def test_a_part_that_the_library_lacks_is_still_bought() -> None:
    stray = Item("item:stray", "unheard-of", 2, 0.0, "", "device:core", "spare", TO_BUY, "")
    (line,) = needs(with_items(sample(), [stray]))
    assert (line.section, line.title, line.amount.needed) == (NOT_IN_LIBRARY, "unheard-of", 2)
    assert line.amount.unsettled


def test_what_is_in_stock_is_not_bought() -> None:
    build = sample()
    items = [item._replace(standing=IN_STOCK) if item.part == "tie" else item for item in build.items]
    stocked = with_items(build, items)
    assert "tie" not in {each.part for each in needs(stocked)}
    assert [(each.standing, each.quantity) for each in already_there(stocked) if each.part == "tie"] == [
        (IN_STOCK, 10)
    ]


def test_stand_in_prices_are_known_by_their_basis() -> None:
    assert not any(each.is_typical_price for each in needs(sample())), (
        "every price of the sample is the author's"
    )
    stand_in = replace(PARTS["tie"], price=exactly(4, TYPICAL))
    marked = [each.part for each in needs(with_parts(sample(), stand_in)) if each.is_typical_price]
    assert marked == ["tie"]
