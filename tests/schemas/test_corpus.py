"""Snippets of plans, each tried by the typed reader and by the schema: corpus/*.cases.

`in TEXT` is what the cases below it stand in, at its `@`. Verdicts:
good    both take it;
bad     both refuse it;
beyond  only the reader refuses it: a bound in another unit, another entry, the part library, how a number is written;
quoted  only the schema refuses it: a number, or true and false, in quotes, which YAML takes for text and the reader does not mind.
"""

from collections.abc import Iterator
from pathlib import Path

import pytest

from schemas.judging import reader_says, says_of_text

# Verdict: whether the reader takes it, and whether the schema does.
VERDICTS = {"good": (True, True), "bad": (False, False), "beyond": (False, True), "quoted": (True, False)}


def _cases() -> Iterator[tuple[str, str, str]]:
    """Where it stands, verdict and plan of each case."""
    for path in sorted((Path(__file__).parent / "corpus").glob("*.cases")):
        around = "@"
        for number, line in enumerate(path.read_text("utf-8").splitlines(), 1):
            word, _, rest = line.partition(" ")
            if word == "in":
                around = rest.strip()
            elif word in VERDICTS and rest:
                yield f"{path.stem}:{number}", word, _placed(around, rest.strip())
            else:
                assert not line or word == "#", line


def _placed(around: str, case: str) -> str:
    """Several keys are written in braces of their own, which fall away where the place has braces."""
    has_braces = "@}" in around and case[0] + case[-1] == "{}"
    return around.replace("@", f"{case[1:-1]} " if has_braces else f"{case} ")


CASES = tuple(_cases())


@pytest.mark.parametrize(("verdict", "text"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_reader_and_schema_agree(verdict: str, text: str) -> None:
    reader, schema = reader_says(text), says_of_text(text)
    assert (not reader, not schema) == VERDICTS[verdict], f"{text}\nreader: {reader}\nschema: {schema}"


def test_there_are_plenty() -> None:
    count = {word: sum(case[1] == word for case in CASES) for word in VERDICTS}
    assert count["good"] >= 150
    assert count["bad"] >= 300
