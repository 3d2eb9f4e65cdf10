"""Order sheets as files: their sums read back as what is paid, whatever the plan's words are."""

import csv
import io
from decimal import Decimal
from pathlib import Path

import pytest
from markdown_it import MarkdownIt

from documents.hostile_texts import HOSTILE
from firstfix.documents.orders import order_files, overview_markdown, sheet_csv, sheet_markdown
from firstfix.documents.shopping_list import shopping_list_csv
from firstfix.pipeline import compile_plan, results
from firstfix.purchase.order import Parcel
from firstfix.purchase.ordered import as_ordered
from purchase.shopping import SHOPS, compiled, farm, ordered

READER = MarkdownIt("commonmark").enable("table")


def _parcels() -> list[Parcel]:
    return list(ordered(farm())[1].parcels)


def _cells(parcel: Parcel) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(sheet_csv(farm(), parcel), newline="")))


@pytest.mark.parametrize("parcel", _parcels(), ids=lambda parcel: parcel.shop.name)
def test_the_sums_of_a_sheet_are_what_is_paid(parcel: Parcel) -> None:
    rows = _cells(parcel)
    assert 100 * sum(Decimal(row["sum"]) for row in rows) == parcel.paid
    for row in rows[: len(parcel.lines)]:
        assert int(row["packs"]) * Decimal(row["price of a pack"]) == Decimal(row["sum"])


@pytest.mark.parametrize("parcel", _parcels(), ids=lambda parcel: parcel.shop.name)
def test_a_sheet_has_a_row_for_each_line_and_the_sum(parcel: Parcel) -> None:
    text = sheet_markdown(farm(), parcel)
    paid = f"{Decimal(parcel.paid) / 100:,.2f}".replace(",", " ")
    assert f"**{paid} EUR**" in text
    rows = sum(token.type == "tr_open" for token in READER.parse(text))
    assert rows == 1 + len(parcel.lines) + 1 + (4 if parcel.shop.tax.is_added else 3)


def test_the_overview_says_what_is_not_ordered_and_what_is_proven() -> None:
    text = overview_markdown(farm(), ordered(farm())[1])
    assert "wall-box: only 'market-stall' and 'over-the-border' offer it" in text
    assert "this is proven" in text


def test_what_is_bought_beyond_the_need_is_said() -> None:
    shops = SHOPS.replace("cord-cat6/2m: 3.4\n", "cord-cat6/2m: {price: 3.4, from: {6: 2.1}}\n")
    build = farm(shops=shops)
    assert "cord-cat6/2m: 6 are bought and 5 needed" in overview_markdown(build, ordered(build)[1])
    assert "More than needed" not in overview_markdown(farm(), ordered(farm())[1])


def test_a_dearer_aim_says_what_it_costs() -> None:
    build = farm("purchase: {aim: least-change, before: {gear-post: {surge-protector: 2}}}")
    _, found = ordered(build)
    more = Decimal(found.paid - found.least) / 100
    assert more > 0
    assert f"That costs {more:.2f} EUR more than the cheapest order" in overview_markdown(build, found)


def test_the_shopping_list_names_the_shop_and_its_price() -> None:
    to_buy, found = ordered(farm())
    text = shopping_list_csv(farm(), as_ordered(to_buy, found, {}))
    rows = {row["part"]: row for row in csv.DictReader(io.StringIO(text, newline=""))}
    assert (rows["gateway-1u"]["shop"], rows["gateway-1u"]["sum"]) == ("gear-post", "285.00")
    assert (rows["shelf-1u"]["shop"], rows["shelf-1u"]["price of a pack"]) == ("cabinet-works", "17.40")
    assert rows["wall-box"]["shop"] == ""


def test_build_writes_a_sheet_for_each_shop_that_something_is_ordered_from() -> None:
    files = results(compiled())
    sheets = {
        f"orders/{shop}.{kind}"
        for shop in ("cable-yard", "cabinet-works", "gear-post")
        for kind in ("md", "csv", "xlsx")
    }
    assert {"orders.md", "order-before.yaml", "costs.md"} | sheets <= set(files)
    assert not any("market-stall" in name for name in files)
    assert b"| gear-post |" in files["shopping-list.md"]


@pytest.mark.parametrize("hostile", HOSTILE)
def test_words_of_a_plan_stay_words(hostile: str) -> None:
    build = farm()
    _, found = ordered(build)
    parcel = found.parcels[0]
    line = parcel.lines[0]
    odd = line._replace(title=hostile, offer=line.offer._replace(note=hostile))
    hit = parcel._replace(lines=(odd, *parcel.lines[1:]))
    assert len(_tables(sheet_markdown(build, hit))) == len(_tables(sheet_markdown(build, parcel)))
    rows = list(csv.reader(io.StringIO(sheet_csv(build, hit), newline="")))
    assert {len(row) for row in rows} == {11}
    assert not any(cell.lstrip(" ")[:1] in ("=", "+", "@") for row in rows for cell in row)


def _tables(text: str) -> list[str]:
    tokens = READER.parse(text)
    assert not any(token.type in ("html_block", "html_inline", "link_open") for token in tokens)
    return [token.type for token in tokens if token.type == "tr_open"]


def test_what_another_part_costs_with_all_that_it_brings() -> None:
    shops = SHOPS.replace(
        "      switch-8-poe-fed: 109\n", "      switch-8-poe-fed: 109\n      switch-24-poe: 300\n"
    )
    made = compiled("purchase: {instead: {core: [switch-24-poe, switch-16-managed]}}", shops)
    text = results(made)["costs.md"].decode()
    assert "core as 'switch-24-poe' instead of 'switch-16-poe': 61.00 EUR more in all." in text
    assert (
        "switch-16-managed' instead of 'switch-16-poe': not settled, for switch-16-managed has no price"
        in text
    )
    assert "would be an error: 'ap-house' takes PoE only" in text


def test_what_is_tried_instead_is_known() -> None:
    made = compiled("purchase: {instead: {cor: switch-8, core: switch-9}}")
    messages = [each.message for each in made.report.findings]
    assert any("no device 'cor'; did you mean 'core'" in each for each in messages)
    assert any("no part 'switch-9'" in each for each in messages)
    assert "costs.md" in results(made)


def test_nothing_is_tried_instead_of_what_is_no_device(tmp_path: Path) -> None:
    """Its own part is unknown, which is said as an error; there is nothing to compare the other one with."""
    path = tmp_path / "plan.yaml"
    path.write_text(
        "sites: {home: {rooms: {den: {mains: 4}}}}\n"
        "devices: {core: {part: swtich-8, room: den}}\n"
        "purchase: {instead: {core: switch-8}}\n"
    )
    assert "costs.md" in results(compile_plan(path, "plan.yaml"))


def test_the_costs_say_what_energy_costs_or_that_it_is_not_known() -> None:
    costs = results(compiled())["costs.md"].decode()
    assert "kWh at 0.3 EUR each" in costs
    assert "All of it is taken to run day and night" in costs
    assert "| devices | what takes most | W | hours a day | kWh a year |" in costs
    some = results(compiled("purchase: {energy-price: 0.30, runs: {storage: 6 h}}"))["costs.md"].decode()
    assert "so many hours a day, all else day and night" in some


def test_the_costs_say_tools_apart_and_what_has_no_price_at_a_shop() -> None:
    costs = results(compiled())["costs.md"].decode()
    assert "## Tools, not in these sums" in costs
    assert "by the part library's stand-in prices, about" in costs


def test_without_a_price_of_energy_none_is_reckoned() -> None:
    without = results(compiled("purchase: {aim: soonest}"))["costs.md"].decode()
    assert "the plan says no 'energy-price'" in without


def test_every_file_is_text_with_a_name_of_its_own() -> None:
    build = farm()
    names = [name for name, _ in order_files(build, ordered(build)[1])]
    assert len(set(names)) == len(names)
