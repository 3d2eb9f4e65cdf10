"""The report page: complete, offline, accessible, and deaf to what a plan's text would like it to do."""

import re
from collections import Counter
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from pathlib import Path

import pytest
from lxml import html  # type: ignore[import-untyped]

from documents.drawing.sample_build import estate, farm
from documents.report_reading import Page
from finding import sample
from firstfix import resources
from firstfix.build.logical import WirelessNetwork
from firstfix.build.model import Build
from firstfix.documents.drawing.set import sheets
from firstfix.documents.report.findings import SIGNS
from firstfix.documents.report.made import make
from firstfix.documents.report.page import report_page
from firstfix.documents.report.power import power_tables
from firstfix.finding.model import COMMON_PRACTICE, Finding, Level, Report, report
from firstfix.parts.facts import Unknown, exactly
from firstfix.pipeline import compile_plan

HONEY_FARM = Path(__file__).parents[2] / "plans" / "honey-farm.yaml"
HOSTILE = "<script>alert(1)</script>\"'><img src=x onerror=y>{{7*7}}{% raw %}&amp;\u202e\x1b"


@lru_cache(maxsize=1)
def _honey_farm() -> tuple[Build, Report]:
    compiled = compile_plan(HONEY_FARM, "honey-farm.yaml")
    assert compiled.build is not None
    return compiled.build, compiled.report


def _page(build: Build, given: Report) -> str:
    return report_page(make(build, given))


@lru_cache(maxsize=1)
def _source() -> str:
    """The honey farm with one finding of each sort: what most tests look at."""
    return _page(_honey_farm()[0], sample.REPORT)


@lru_cache(maxsize=1)
def _read() -> Page:
    return Page(_source())


def test_every_device_has_a_row_of_its_own() -> None:
    names = {th.text for th in html.fromstring(_source()).xpath("//h2[@id='devices']/..//tbody//th")}
    assert names == {device.name for device in _honey_farm()[0].devices.values()}


def test_every_finding_is_told_in_full() -> None:
    by_id = {each.get("id"): each for each in html.fromstring(_source()).xpath("//article")}
    for number, finding in enumerate(sample.REPORT.findings, 1):
        words = " ".join(by_id[f"finding-{number}"].text_content().split())
        assert finding.rule in words
        assert finding.level.value.capitalize() in words
        assert str(finding.basis) in words
        assert all(cure.title.split()[0] in words for cure in finding.cures)
        assert words.count("place ") >= sum(label.text.startswith("place ") for label in finding.related)


def test_a_finding_names_figure_limit_margin_and_terms() -> None:
    text = _read().text
    assert "PoE reserved: 77 W, at most 65 W (12 W too much)" in text
    for term in ("15.4 W cam-1 (class 3)", "30 W ap-hall (class 4)", "+ 1.6 W switch's own lamp"):
        assert term in text
    assert "take the switch with 120 W (needs review)" in text
    assert "feed the camera by an injector (needs review)" not in text


def test_what_could_not_be_told_says_what_is_missing() -> None:
    entry = html.fromstring(_source()).xpath("//article[@id='open-1']")[0].text_content()
    assert all(label.text in entry for label in sample.UNKNOWN.missing)


def test_levels_differ_by_word_and_by_sign() -> None:
    assert len(set(SIGNS.values())) == len(SIGNS)
    shown = {
        each.strip()
        for each in html.fromstring(_source()).xpath("//span[contains(@class,'level')]/span/text()")
    }
    assert shown == set(SIGNS.values())


def test_an_error_makes_the_page_a_draft() -> None:
    assert "Draft: the plan has" in _read().text
    assert "Draft:" not in Page(_page(*_honey_farm())).text


def test_a_clean_report_claims_no_more_than_was_examined() -> None:
    text = Page(_page(_honey_farm()[0], report([], [], {}))).text
    assert "No rule was run." in text
    assert "and for nothing else" in text


def test_nothing_runs_and_nothing_is_fetched() -> None:
    page = _read()
    assert not {"script", "link", "iframe", "object", "embed", "form", "base", "img", "use"} & {
        tag for tag, _ in page.tags
    }
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on")]
    assert not list(page.attributes("src"))
    for target in page.attributes("href"):
        assert re.fullmatch(r"#[a-z0-9-]+|[a-z0-9_./-]+", target), target
        assert not target.startswith(("/", "."))
    assert "@import" not in _source()
    assert not re.search(r"url\((?!#)", _source())


def test_the_policy_forbids_all_but_style_and_data() -> None:
    policy = next(a["content"] for tag, a in _read().tags if a.get("http-equiv") == "Content-Security-Policy")
    assert policy.startswith("default-src 'none';")
    assert "script-src" not in policy
    assert "connect-src" not in policy


def test_ids_are_unique_and_every_anchor_leads_somewhere() -> None:
    counted = Counter(_read().attributes("id"))
    assert [id_ for id_, count in counted.items() if count > 1] == []
    for target in _read().attributes("href"):
        assert not target.startswith("#") or target[1:] in counted
    for labels in _read().attributes("aria-labelledby"):
        assert all(label in counted for label in labels.split())


def test_headings_start_at_one_and_skip_no_level() -> None:
    levels = [level for level, _ in _read().headings]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))
    assert all(words.strip() for _, words in _read().headings)


def test_table_heads_have_a_scope_and_the_page_a_language() -> None:
    assert all(attributes.get("scope") for tag, attributes in _read().tags if tag == "th")
    assert ("html", {"lang": "en"}) in _read().tags
    # Cells that a row lacks would be read out under the wrong head.
    for table in html.fromstring(_source()).xpath("//table"):
        widths = {sum(int(cell.get("colspan", "1")) for cell in row) for row in table.iter("tr")}
        assert len(widths) == 1


def test_each_drawing_is_inline_with_its_words() -> None:
    build = _honey_farm()[0]
    figures = html.fromstring(_source()).xpath("//figure")
    assert len(figures) == len(sheets(build))
    for figure in figures:
        assert figure.xpath(".//*[local-name()='svg'][@role='img']")
        assert len(figure.xpath(".//figcaption//p")[0].text_content()) > 40


def _luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("name", ["ink", "quiet", "error", "warning", "note", "open"])
@pytest.mark.parametrize("under", ["#ffffff", "field"])
def test_text_stands_out(name: str, under: str) -> None:
    """WCAG 2.2, success criterion 1.4.3: 4.5:1."""
    style = (resources.templates() / "report" / "style.css.jinja").read_text("utf-8")
    colours = dict(re.findall(r"--([a-z]+): (#[0-9a-f]{6});", style))
    dark, light = sorted((_luminance(colours[name]), _luminance(colours.get(under, under))))
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_tables_hold_the_cabling_the_power_and_the_addresses() -> None:
    build, text = _honey_farm()[0], _read().text
    for claim in build.addresses:
        assert f"{claim.address}/{claim.prefix}" in text
    for vlan in build.vlans.values():
        assert vlan.subnet in text
    assert "yard-duct" in text
    runs = html.fromstring(_source()).xpath("//div[@aria-label='Installed runs']//tbody/tr")
    assert len(runs) == sum(piece.kind == "installed run" for piece in build.pieces.values())


def test_terms_of_a_run_add_up_to_its_length() -> None:
    for cell in html.fromstring(_source()).xpath("//td[@class='terms-of']"):
        terms = [float(each.text_content().split()[0]) for each in cell.xpath("span")]
        assert sum(terms) == pytest.approx(float(cell.xpath("strong")[0].text.split()[0]), abs=0.006)


def test_power_left_is_budget_less_reserved() -> None:
    for table in power_tables(_honey_farm()[0]):
        budget, reserved, left = (
            float(each.removesuffix(" W")) for each in (table.budget, table.reserved, table.left)
        )
        assert left == pytest.approx(budget - reserved, abs=0.011)


def test_power_with_an_unknown_in_it_is_not_told() -> None:
    build = _honey_farm()[0]
    id_, source = next(iter(build.power_sources.items()))
    unsure = source._replace(taken=Unknown("no draw given"))
    unknown = replace(build, power_sources={**build.power_sources, id_: unsure})
    table = next(each for each in power_tables(unknown) if each.name == id_.removeprefix("device:"))
    assert table.reserved.startswith("cannot tell")
    assert table.left.startswith("cannot tell")
    assert table.left_share.startswith("cannot tell")
    assert "cannot tell" not in "".join(table.left for table in power_tables(build))


def test_power_left_is_told_as_a_share_too() -> None:
    build = _honey_farm()[0]
    id_, source = next(iter(build.power_sources.items()))
    half = source._replace(budget=exactly(60, "test"), taken=exactly(45, "test"))
    known = replace(build, power_sources={**build.power_sources, id_: half})
    table = next(each for each in power_tables(known) if each.name == id_.removeprefix("device:"))
    assert (table.left, table.left_share) == ("15 W", "25%")


def test_every_step_has_a_square_that_prints() -> None:
    made = make(*_honey_farm())
    assert _source().count("☐") == len(made.work) > 0


def _hostile(build: Build) -> Build:
    """Every name that a plan can choose, replaced by one that would like to do harm."""
    return replace(
        build,
        name=HOSTILE,
        currency="<b>",
        start=HOSTILE,
        devices={id_: each._replace(name=each.name + HOSTILE, note=HOSTILE, phase=HOSTILE) for id_, each in build.devices.items()},
        rooms={id_: each._replace(name=HOSTILE) for id_, each in build.rooms.items()},
        ways={id_: each._replace(name=HOSTILE) for id_, each in build.ways.items()},
        cabinets={id_: each._replace(name=HOSTILE) for id_, each in build.cabinets.items()},
        vlans={id_: each._replace(name=HOSTILE, subnet=HOSTILE, reaches=(HOSTILE,)) for id_, each in build.vlans.items()},
        name_service=build.name_service._replace(domain=HOSTILE),
        wireless=(WirelessNetwork(HOSTILE, HOSTILE, "vlan:x"),),
    )  # fmt: skip


def test_hostile_names_stay_text() -> None:
    bad = Finding("x", Level.ERROR, HOSTILE, HOSTILE, None, COMMON_PRACTICE)
    source = _page(_hostile(_honey_farm()[0]), report([bad], [], {HOSTILE: 1}))
    page = Page(source)
    assert not {"script", "img"} & {tag for tag, _ in page.tags}
    assert not [name for _, attributes in page.tags for name in attributes if name.startswith("on")]
    assert "{{7*7}}" in source
    assert "49{%" not in source
    assert "<script>alert(1)</script>" in page.text
    assert "\u202e" not in source
    assert "\x1b" not in source
    assert [id_ for id_, count in Counter(page.attributes("id")).items() if count > 1] == []
    assert all(re.fullmatch(r"#[a-z0-9-]+|[a-z0-9_./-]+", target) for target in page.attributes("href"))


@pytest.mark.parametrize("build", [farm(), estate()], ids=["farm", "estate"])
def test_other_builds_make_a_page_too(build: Build) -> None:
    text = Page(_page(build, sample.EMPTY)).text
    assert all(device.name in text for device in build.devices.values())


def test_the_same_build_gives_the_same_bytes() -> None:
    assert _page(_honey_farm()[0], sample.REPORT) == _source()
