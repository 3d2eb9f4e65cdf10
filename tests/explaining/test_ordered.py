"""Why a line is bought where it is: the offer taken, those that were not, and what its parcel is for."""

import pytest

from firstfix.explaining.explain import explain
from firstfix.explaining.model import Line
from purchase.shopping import farm

_HEAD = "purchase: {aim: least-cost, energy-price: 0.30}\nshops:\n"
# Two protectors and four leads. Without a, the protectors cost 30 more each and one postage of 5 is saved.
_TWO = (
    "  a: {postage: 5, offers: {surge-protector: {price: 10, from: {5: 9}}}}\n"
    "  b: {postage: 5, offers: {surge-protector: 40, earth-kit: {price: 12, pack: 2}}}\n"
)


def _lines(shops: str, name: str) -> dict[str, Line]:
    (found,) = explain(farm(shops=_HEAD + shops), name)
    return {line.what: line for section in found.sections for line in section.lines}


def test_the_offer_that_is_taken_the_other_and_what_the_parcel_saves() -> None:
    lines = _lines(_TWO, "surge-protector")
    assert lines["ordered at a"].value == "2 x 10.00 EUR = 20.00 EUR"
    assert lines["ordered at a"].at is not None
    assert lines["offered at b"].value == "40.00 EUR"
    assert (
        lines["parcel of a"].value
        == "no single line needs it; without it the order would cost 55.00 EUR more"
    )


def test_a_line_that_one_shop_alone_has_forces_its_parcel() -> None:
    lines = _lines(_TWO, "earth-kit")
    assert lines["ordered at b"].value == "1 x 12.00 EUR for 2 = 12.00 EUR"
    assert lines["parcel of b"].value == "nobody else offers this line"
    assert not any(what.startswith("offered") for what in lines)


def test_a_line_that_rides_along_names_the_line_that_forces_the_parcel() -> None:
    shops = _TWO.replace("surge-protector: {price: 10, from: {5: 9}}", "surge-protector: 50")
    lines = _lines(shops, "surge-protector")
    assert lines["ordered at b"].value == "2 x 40.00 EUR = 80.00 EUR"
    assert lines["offered at a"].why == "not taken"
    assert lines["parcel of b"].value == "comes anyway, for nobody else offers earth-kit"


@pytest.mark.parametrize("name", ["cord-cat6/1m", "wall-cabinet-12u"])
def test_what_no_shop_offers_says_so(name: str) -> None:
    assert _lines(_TWO, name)["not ordered"].value == "no shop of the plan offers it"
