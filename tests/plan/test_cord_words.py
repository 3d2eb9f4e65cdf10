"""What a plan says of cords and cable: colours, spares, slack, what is there already, lengths, stock."""

import pytest

from firstfix.plan.colours import COLOURS
from firstfix.plan.model import ALL, RUNS, CordColours, StockLength
from plan.reading import plan, read

_LIST = ", ".join(COLOURS)
FAULTS = (
    (
        "vlans: {a: {id: 3, colour: gren}}\n",
        f"1:28: 'gren' is no colour of the list ({_LIST}); did you mean 'green'?",
    ),
    (
        "links: [{run: [a, b], colour: purple}]\n",
        f"1:31: 'purple' is no colour of the list ({_LIST}); write 'violet'",
    ),
    (
        "cabling: {colours: {cords: green-and-yellow}}\n",
        "1:28: 'green-and-yellow' is kept for earth conductors; a data cable has another colour",
    ),
    ("cabling: {colours: {cord: red}}\n", "1:21: 'colours' has no key 'cord'; did you mean 'cords'?"),
    (
        "cabling: {spares: 10}\n",
        "1:19: 'spares' is 'none', or one for each so many, such as '1 in 10', not '10'",
    ),
    (
        "cabling: {slack: 2 each end}\n",
        "1:18: 'slack' is a length: '2' has no unit; write '2 m' or '2 mm' or '2 ft'",
    ),
    (
        "links: [{run: [a, b], owned: cords}]\n",
        "1:30: 'owned' of a link is true, false or 'runs', not 'cords'",
    ),
    (
        "links: [{run: [a, b], length: 3}]\n",
        "1:31: 'length' is a length: '3' has no unit; write '3 m' or '3 mm' or '3 ft'",
    ),
    (
        "stock: {cage-nut-set-m6: [2 m, 3 m]}\n",
        "1:26: 'cage-nut-set-m6' is counted, not measured: write how many there are, such as 20, not a list",
    ),
    (
        "stock: {cage-nut-set-m6: 20 m}\n",
        "1:26: how many of 'cage-nut-set-m6' are in stock is a whole number from 0 to 100,000, not '20 m'; write '20'",
    ),
    (
        "stock: {cord-cat6: 6}\n",
        "1:20: 'cord-cat6' in stock is said by length, such as {1 m: 6}, not '6'",
    ),
    (
        "stock: {cord-cat6: {2 m gren: 6}}\n",
        f"1:21: 'gren' is no colour of the list ({_LIST}); did you mean 'green'?",
    ),
    (
        "stock: {cat6-indoor: {60 m: 201}}\n",
        "1:29: how many of '60 m' are in stock is a whole number from 0 to 200, not '201'",
    ),
    (
        f"stock: {{cord-cat6: [{', '.join(['1 m'] * 201)}]}}\n",
        "1:20: 'cord-cat6' in stock is a list of 201; at most 200 are read: write {1 m: 201}",
    ),
    (
        "stock: {cord-cat6: {2 m: six}}\n",
        "1:26: how many of '2 m' are in stock is a whole number from 0 to 100,000, not 'six'; write '6'",
    ),
)


@pytest.mark.parametrize(("text", "said"), FAULTS, ids=[text.strip()[:40] for text, _ in FAULTS])
def test_fault_is_named_at_its_place(text: str, said: str) -> None:
    assert read(text)[1] == [said]


def test_colours() -> None:
    given = plan(
        "vlans: {guests: {id: 3, colour: green}, home: {id: 4}}\n"
        "links: [{run: [a, b], colour: red}, {run: [a, c]}]\n"
        "cabling: {colours: {cords: grey, tagged: blue}}\n"
    )
    assert [each.colour for each in given.vlans] == ["green", ""]
    assert [each.colour for each in given.links] == ["red", ""]
    assert given.cabling.colours == CordColours("grey", "blue", "")


@pytest.mark.parametrize(
    ("said", "spares"), [("", 10), ("spares: none", 0), ("spares: 1 in 4", 4), ("spares: 1 in 1", 1)]
)
def test_spares(said: str, spares: int) -> None:
    assert plan(f"cabling: {{{said}}}\n").cabling.spares == spares


@pytest.mark.parametrize("said", ["1.5 m", "1.5 m each end", "1.5 m at each end", "1500 mm each end"])
def test_slack_is_at_each_end(said: str) -> None:
    assert plan(f"cabling: {{slack: {said}}}\n").cabling.slack == 1.5


def test_what_of_a_link_is_there() -> None:
    given = plan(
        "links:\n"
        "  - {run: [a, b]}\n  - {run: [a, b], owned: true}\n  - {run: [a, b], owned: runs, length: 21.4 m}\n"
        "  - {run: [a, b], owned: false}\n"
    )
    assert [(each.owned, each.length) for each in given.links] == [
        ("", None),
        (ALL, None),
        (RUNS, 21.4),
        ("", None),
    ]


def test_stock() -> None:
    given = plan(
        "stock:\n  cord-cat6: {1 m: 6, 2 m green: 4, 50cm: 1}\n  cat6-indoor: [60 m, 72 ft]\n"
        "  cord-cat6a: 2 m\n  cage-nut-set-m6: 20\n"
    )
    assert {each.part: (each.count, each.lengths) for each in given.stock} == {
        "cord-cat6": (0, (StockLength(1, "", 6), StockLength(2, "green", 4), StockLength(0.5, "", 1))),
        "cat6-indoor": (0, (StockLength(60, "", 1), StockLength(21.9456, "", 1))),
        "cord-cat6a": (0, (StockLength(2, "", 1),)),
        "cage-nut-set-m6": (20, ()),
    }
