"""An entry made of what a data sheet says reads as a part, for every kind; what was not said is unknown in it."""

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from firstfix.finding.collector import Collector
from firstfix.parts.data_sheet import Asked, SheetFault, part_entry
from firstfix.parts.data_sheet_words import facts_given
from firstfix.parts.fact_forms import fact_form, facts_of
from firstfix.parts.facts import DATA_SHEET, TYPICAL, Fact, Unknown
from firstfix.parts.library_files import library
from firstfix.parts.needed_facts import missing_facts
from firstfix.parts.part import KINDS, Part
from firstfix.parts.read import read_parts
from firstfix.source.node import Mapping
from firstfix.source.reader import parse


def entry(kind: str, *pairs: str, like: str = "", name: str = "mine") -> str:
    return part_entry(Asked(kind, name, like, facts_given(kind, pairs)), {"draw": ("poe-class",)})


def read(text: str) -> Part:
    """The one part of an entry, which must be without fault."""
    faults = Collector()
    tree = parse(text.encode(), "parts", faults)
    assert isinstance(tree, Mapping)
    parts = tree.value("parts")
    assert parts is not None
    found = read_parts(parts, library(), faults, DATA_SHEET)
    assert faults.findings == []
    (part,) = found.values()
    return part


@pytest.mark.parametrize("kind", KINDS)
def test_a_form_reads_as_a_part_that_says_all_its_kind_needs(kind: str) -> None:
    part = read(entry(kind))
    assert part.kind == kind
    assert list(missing_facts(part)) == []


@pytest.mark.parametrize("kind", [kind for kind in KINDS if facts_of(kind)])
def test_a_form_invents_no_figure(kind: str) -> None:
    """Whatever may be unknown is: no draw, depth or price of some other part gets in."""
    text = entry(kind)
    part = read(text)
    for figure in (part.draw, part.weight, part.price, part.rack.depth if part.rack else part.draw):
        assert isinstance(figure, Unknown)
    lines = [line for line in text.splitlines() if not line.lstrip().startswith("#")]
    assert all(
        "unknown" in line or "check it" in line for line in lines[1:] if ": " in line and _is_fact(line)
    )


def _is_fact(line: str) -> bool:
    return line.split(":")[0].strip() not in ("kind", "basis")


@pytest.mark.parametrize("name", sorted(library()))
def test_a_part_like_any_of_the_library_reads(name: str) -> None:
    shipped = library()[name]
    part = read(entry(shipped.kind, "price=1", like=name))
    assert part.price == Fact(1, 1, 1, DATA_SHEET)
    assert (part.jacks, part.draw, part.said) == (
        shipped.jacks,
        shipped.draw,
        shipped.said | {"price", "like", "basis"},
    )


def test_figures_of_a_data_sheet_count_as_such_and_inherited_ones_as_typical() -> None:
    part = read(entry("camera", "draw=9 W", "poe-class=3", like="camera-outdoor"))
    assert part.draw == Fact(9, 9, 9, DATA_SHEET)
    assert part.takes_poe is not None
    assert part.takes_poe.poe_class == Fact(3, 3, 3, DATA_SHEET)
    assert isinstance(part.weight, Fact)
    assert part.weight.basis == TYPICAL


def test_words_of_a_data_sheet() -> None:
    pairs = (
        "ports=8",
        "rate=2.5 Gb/s",
        "poe-class=4",
        "poe-budget=65 W",
        "poe-ports=1-4",
        "depth=230 mm",
        "inlet=coupler",
    )
    part = read(entry("switch", *pairs))
    assert [jack.name for jack in part.jacks] == [str(number) for number in range(1, 9)]
    assert {jack.rate for jack in part.jacks} == {Fact(2500, 2500, 2500, DATA_SHEET)}
    assert part.gives_poe is not None
    assert part.gives_poe.budget == Fact(65, 65, 65, DATA_SHEET)
    assert part.gives_poe.jacks == ("1", "2", "3", "4")
    assert part.mains.inlet == "coupler"


def test_an_unknown_says_what_it_takes_gives_an_example_and_names_the_rule() -> None:
    (line,) = [line for line in entry("camera").splitlines() if line.strip().startswith("draw:")]
    assert (
        line.strip()
        == "draw: unknown  # a power, such as {least: 2 W, typical: 4 W, most: 6 W}; without it poe-class cannot tell"
    )


def test_what_a_fact_takes_is_the_readers_own_word() -> None:
    assert fact_form("camera", "takes-poe.class").takes == "a whole number from 0 to 8"
    assert fact_form("switch", "bridges").takes == "true or false"
    assert fact_form("camera", "cooling.by").takes == "one of 'passive', 'fan'"


def test_examples_are_what_the_reader_takes() -> None:
    for kind in KINDS:
        for fact in facts_of(kind):
            key, _, below = fact.partition(".")
            form = fact_form(kind, fact)
            assert form.example, (kind, fact)
            assert key in library()[_first(kind, fact)].said
            assert below == "" or fact in library()[_first(kind, fact)].said


def _first(kind: str, fact: str) -> str:
    return next(part.name for part in library().values() if part.kind == kind and fact in part.said)


@pytest.mark.parametrize(
    ("pairs", "says"),
    [
        (("draw=9",), "write '9 W'"),
        (("draw=",), "is no FACT=VALUE"),
        (("=9 W",), "is no FACT=VALUE"),
        (("draw",), "is no FACT=VALUE"),
        (("drew=9 W",), "did you mean 'draw'?"),
        (("draw=9 W", "draw=8 W"), "given twice"),
        (("draw=9 W\nnote: x",), "no single line"),
        (("draw=" + "9" * 600,), "no single line"),
        (("ports=0",), "whole number from 1 to 512"),
        (("ports=\N{SUPERSCRIPT TWO}",), "whole number from 1 to 512"),
        (("ports=8", "rate=fast",), "'rate' is a data rate"),
        (("ports=2", "jacks={1: rj45}"), "say the same"),
        (("jacks={1: rj45",), "is not YAML"),
        (("jacks=8",), "a table with a name before each colon"),
        (("takes-poe.jacks=7",), "no jack '7'"),
        (("poe-class=9",), "whole number from 0 to 8"),
    ],
)  # fmt: skip
def test_a_slip_is_one_sentence(pairs: tuple[str, ...], says: str) -> None:
    with pytest.raises(SheetFault) as caught:
        entry("camera", *pairs)
    assert says in str(caught.value)


@given(st.sampled_from(["weight", "thread", "category", "jacks", "note"]), st.text(max_size=60))
@example("weight", "1 kg # a")
@example("category", "6\nother: {kind: tool}")
@example("jacks", "{1: rj45}, x: {}")
@example("category", '"6", price: 0')
@example("category", "{6}")
@example("category", "*a")
@settings(derandomize=True, deadline=None, max_examples=150)
def test_no_value_breaks_out_of_its_place(fact: str, value: str) -> None:
    try:
        text = entry("panel", f"{fact}={value}")
    except SheetFault:
        return
    part = read(text)
    assert part.kind == "panel"
    assert part.name == "mine"
    if fact == "category":
        assert part.category == value.strip()


def test_the_same_words_make_the_same_entry() -> None:
    assert entry("switch", "draw=9 W", "depth=1 m") == entry("switch", "draw=9 W", "depth=1 m")


@pytest.mark.parametrize(
    ("pair", "figure"),
    [
        ("draw=2 W to 8 W", (2, 8, 8)),
        ("draw=2 W to 8 W, typically 4 W", (2, 4, 8)),
        ("draw=2 W to 8 W, typically 4 W (typical of its kind)", (2, 4, 8)),
    ],
)
def test_a_spread_goes_in_as_the_parts_are_printed(pair: str, figure: tuple[float, float, float]) -> None:
    draw = read(entry("camera", pair)).draw
    assert isinstance(draw, Fact)
    assert (draw.low, draw.typical, draw.high) == figure


def test_words_of_a_data_sheet_that_stand_alone() -> None:
    """A rate where the kind has one jack; a height in millimetres, which no thing on rails has; the title is asked for."""
    part = read(entry("camera", "rate=100 Mb/s", "height=80 mm"))
    assert [(each.name, getattr(each.rate, "typical", None)) for each in part.jacks] == [("1", 100)]
    assert part.size is not None
    assert isinstance(part.size.height, Fact)
    assert part.size.height.typical == 0.08
    with pytest.raises(SheetFault, match="goes with 'ports'"):
        facts_given("switch", ["rate=1 Gb/s"])
    assert "# title: What lists call it; left out, it is 'kiln cam'" in entry("camera", name="kiln-cam")
    assert read(entry("camera", "title=Camera for the kiln")).title == "Camera for the kiln"
