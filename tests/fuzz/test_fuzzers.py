"""The fuzzers at work: a few hundred damaged plans of a fixed seed, thousands in the long tier, and a proof that coverage guides."""

from pathlib import Path

import pytest

from fuzz import reader
from fuzz.judge import judge
from fuzz.mutants import failures, numbered, plans
from fuzz.reader import Fuzzer


def _survive(count: int, seed: int, folder: Path) -> None:
    bad = next(failures(count, seed, folder), None)
    assert bad is None, f"mutant {bad.number} of seed {seed}: {bad.why}\n{bad.text!r}"


def test_300_mutants(tmp_path: Path) -> None:
    _survive(300, 20_270_301, tmp_path)


@pytest.mark.long
def test_20000_mutants(tmp_path: Path, request: pytest.FixtureRequest) -> None:
    if "long" not in request.config.getoption("-m"):
        pytest.skip("takes minutes; run with `-m long`")
    _survive(20_000, 4_711, tmp_path)


def test_a_mutant_is_the_same_whenever_it_is_made() -> None:
    texts = plans()
    once = [numbered(number, 5, texts) for number in range(40)]
    assert once == [numbered(number, 5, texts) for number in range(40)]
    assert len(set(once)) > 35


def test_the_judge_tells_a_trace_and_markup(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sound = plans()[0]
    assert judge(sound, tmp_path) == ""
    monkeypatch.setattr("fuzz.judge.results", lambda _: {"report.html": b"<p><script>alert(1)</script>"})
    assert "markup" in judge(sound, tmp_path, with_documents=True)
    monkeypatch.setattr("fuzz.judge.render_text", lambda *_: 1 / 0)
    assert "ZeroDivisionError" in judge(sound, tmp_path)


def test_the_judge_tells_a_hang(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def hang(path: Path, shown_as: str) -> None:
        while True:
            pass

    monkeypatch.setattr("fuzz.judge.MOST_SECONDS", 0.1)
    monkeypatch.setattr("fuzz.judge.compile_plan", hang)
    assert judge(b"", tmp_path).startswith("takes too long")


def seeded(text: bytes) -> None:
    """A fault behind three conditions, each a line of its own: blind damage would have to meet them all at once."""
    if b"0x1f" not in text:
        return
    if b"1e999" not in text:
        return
    if b"furlong" in text:
        raise ZeroDivisionError


def _inputs_until_found(watched: tuple[str, ...], most: int) -> int:
    fuzzer = Fuzzer([b"a: b\nc: {d: e}\n"], 3, seeded, watched)
    for number in range(most):
        if fuzzer.crashes:
            return number
        fuzzer.step()
    return most


def test_coverage_leads_to_a_seeded_fault_that_chance_does_not_find() -> None:
    most = 20_000
    assert _inputs_until_found((__file__,), most) < most
    assert _inputs_until_found(("nowhere",), most) == most


def test_the_reader_survives_a_few_hundred_guided_inputs() -> None:
    small = [text for text in plans() if len(text) < 1_000]
    fuzzer = Fuzzer(small, 1, reader.read)
    before = len(fuzzer.coverage.known)
    for _ in range(150):
        fuzzer.step()
    assert fuzzer.crashes == []
    assert len(fuzzer.coverage.known) > before
    assert len(fuzzer.corpus) > len(small)
