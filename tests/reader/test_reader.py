"""The questions put to somebody who sees only the sheets: there are twenty for each plan, their answers are true, and stand on the sheets.

That a person finds them there is tried by a person; this makes sure that what is asked can't go stale.
"""

import re
from collections import Counter
from fnmatch import fnmatchcase
from functools import cache
from pathlib import Path

import pytest

from documents.drawing.plans_drawn import example
from firstfix.documents.drawing.set import sheets
from proof.reading import Written, read
from reader.questions import NAMES, Question, questions
from reader.truths import TRUTHS

ALL = [each for name in NAMES for each in questions(name)]
# Beginnings of the names of the groups of sheets; a cabinet's rear is a sheet of its own kind.
GROUPS = ("network", "cabinet", "rear", "ways", "mains", "poe", "vlan", "tree", "addresses")

each_question = pytest.mark.parametrize("question", ALL, ids=lambda each: each.id)


# A bare number is read in the row of something with a name; a row of two lines is about this high [pt].
ROW = 12.0


@cache
def texts(plan: str) -> dict[str, tuple[Written, ...]]:
    """What each sheet of a plan says, text by text."""
    return {drawing.name: read(drawing.svg).texts for drawing in sheets(example(plan))}


def says(text: str, words: str) -> bool:
    """Whether they stand in it, not as a part of longer words or figures."""
    return bool(re.search(rf"(?<![\w.-]){re.escape(words)}(?![\w-]|\.\d)", text, re.IGNORECASE))


def tells(written: tuple[Written, ...], about: str, reads: tuple[str, ...]) -> bool:
    """Whether all stand on a sheet, and each bare number beside another of them."""
    at = {words: [each for each in written if says(each.words, words)] for words in (about, *reads)}
    bare = [words for words in reads if words.isdigit()]
    return all(at.values()) and all(
        any(
            abs(number.box.top + number.box.bottom - other.box.top - other.box.bottom) / 2 < ROW
            for number in at[words]
            for name, found in at.items()
            for other in found
            if name != words
        )
        for words in bare
    )


def group(name: str) -> str:
    return "rear" if "-rear" in name else next(each for each in GROUPS if name.startswith(each))


@pytest.mark.parametrize("name", NAMES)
def test_there_are_twenty_for_each_plan(name: str) -> None:
    assert len(questions(name)) == 20


@pytest.mark.parametrize("name", NAMES)
def test_no_two_ask_the_same_and_answers_differ(name: str) -> None:
    """Who has found one answer can't use it for a third question."""
    asked = questions(name)
    assert len({each.ask for each in asked}) == 20
    assert max(Counter(each.answer for each in asked).values()) <= 2


@pytest.mark.parametrize("name", NAMES)
def test_every_group_of_sheets_is_asked_about(name: str) -> None:
    assert {group(pattern) for each in questions(name) for pattern in each.sheets} == set(GROUPS)


def test_most_things_that_can_be_asked_are_asked() -> None:
    """And no function is kept for nothing."""
    assert {each.truth for each in ALL} == set(TRUTHS)


@each_question
def test_the_answer_is_true(question: Question) -> None:
    """By the build, and by no drawing."""
    assert TRUTHS[question.truth](example(question.plan), *question.given) == question.answer


@each_question
def test_the_answer_stands_on_the_sheets(question: Question) -> None:
    """On each kind of sheet that is named there is one with the whole answer, and with what is asked about."""
    for pattern in question.sheets:
        named = {name: each for name, each in texts(question.plan).items() if fnmatchcase(name, pattern)}
        assert named, f"no sheet is called {pattern}"
        found = [name for name, each in named.items() if tells(each, question.about, question.reads)]
        assert found, f"{question.reads} and {question.about} stand together on none of {', '.join(named)}"


@each_question
def test_the_question_does_not_tell(question: Question) -> None:
    """Neither the answer nor another wording of it is in the question, nor all that is to be read."""
    assert not any(says(question.ask, words) for words in (question.answer, *question.also))
    assert not all(says(question.ask, words) for words in question.reads)


@pytest.mark.parametrize(
    ("text", "words", "is_said"),
    [
        ("core/11", "core/11", True),
        ("core/11", "core", True),
        ("core/11", "core/1", False),
        ("cost 20 000 to the root", "20 000", True),
        ("10.61.20.12", "10.61.20", False),
        ("10.61.20.125", "10.61.20.12", False),
        ("ap-barn", "ap", False),
        ("12.5 W", "5 W", False),
    ],
)
def test_words_are_whole_ones(text: str, words: str, is_said: bool) -> None:
    assert says(text, words) is is_said


def test_a_number_in_another_row_tells_nothing() -> None:
    sheet = texts("rowing-club")["poe"]
    assert tells(sheet, "cam-gate", ("7",))
    assert not tells(sheet, "cam-gate", ("1",))


@pytest.mark.parametrize("name", NAMES)
def test_a_reader_has_answered_these_very_questions(name: str) -> None:
    """Who changes a question asks a reader anew, who sees nothing but the PNGs."""
    page = (Path(__file__).parent / "ANSWERS.md").read_text("utf-8")
    rows = re.findall(
        r"^\| (\d+) \| (.+?) \|", page.partition(f"## {name}: ")[2].partition("\n## ")[0], re.MULTILINE
    )
    asked = [(str(number), " ".join(each.ask.split())) for number, each in enumerate(questions(name), 1)]
    assert rows == asked
