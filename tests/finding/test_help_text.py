"""Help is taken out of its docstring's layout without losing or moving a word."""

import pytest

from finding.sample import POE_BUDGET
from firstfix.finding.help_text import help_paragraphs, help_text
from firstfix.finding.kinds import Kind, error
from firstfix.rules.all_kinds import all_kinds


@pytest.mark.parametrize("kind", all_kinds(), ids=lambda kind: kind.id)
def test_no_word_is_lost_and_each_heading_begins_a_line(kind: Kind) -> None:
    assert help_text(kind).split() == [*kind.help.split(), "Basis:", *str(kind.basis).split()]
    assert all(not line.startswith(" ") for line in help_paragraphs(kind))


def test_an_example_keeps_its_lines() -> None:
    kind = error(
        "x", "What.\n\n    Because: it\n        breaks.\n    Example:\n        a:\n          - b\n    "
    )
    assert help_paragraphs(kind)[1:3] == ["Because: it breaks.", "Example:\n    a:\n      - b"]


def test_the_basis_comes_last() -> None:
    assert help_paragraphs(POE_BUDGET)[-1] == "Basis: IEEE 802.3-2022, 33.2.7"
