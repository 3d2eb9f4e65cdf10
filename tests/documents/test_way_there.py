"""The way there as text, Markdown and data: all of it is there, and what is dangerous or costs something catches the eye."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from changeover.edits import base, edited
from changeover.networks import switched, way
from firstfix.changeover.model import Act, Interruption, Lost, Step, Way
from firstfix.documents.way_there import way_data, way_files, way_markdown, way_text

MANY = ("far switch replaced", "till moves", "another place")
NOTHING = Way((), "", (), (), (), True, 0, (), 0, ())


def step(number: int, name: str, **more: tuple[str, ...]) -> Step:
    act = Act(f"TURN:device:{name}", f"Turn {name}", "den", "turn it back")
    names = ("down", "still_down", "unmanaged", "checks", "cautions")
    down, still_down, unmanaged, checks, cautions = (more.get(each, ()) for each in names)
    broken, locked, on_site = (more.get(each, ()) for each in ("broken", "locked", "on_site"))
    return Step(number, (act,), 5, down, still_down, unmanaged, checks, cautions, broken, locked, on_site)


def a_way(*steps: Step, is_proven: bool = True, least: int = 0) -> Way:
    return Way(
        steps, "gateway", (Lost("pc", 5),), (), (Interruption(1, 1, 5, ("pc",)),), is_proven, least, (), 0, ()
    )


def test_each_step_says_where_what_what_it_costs_what_to_check_and_how_to_go_back(tmp_path: Path) -> None:
    found = way(tmp_path, base(), edited(MANY))
    text = way_markdown(found, "from last year")
    assert text.startswith("# The way there: from last year\n")
    sections = text.split("\n### ")[1:]
    assert len(sections) == len(found.steps)
    for section, each in zip(sections, found.steps, strict=True):
        assert section.startswith(f"{each.number}. ")
        assert f"{each.minutes} min" in section.splitlines()[0]
        assert section.count("- [ ] ") == len(each.acts)
        assert section.count("- Caution. ") == len(each.cautions)
        assert section.count("- Before the next step: ") == len(each.checks)
        assert section.count("- To go back: ") == 1
        assert ("**disconnects" in section) == bool(each.down)


def test_the_data_says_the_same_and_adds_up(tmp_path: Path) -> None:
    found = way(tmp_path, base(), edited(MANY))
    data = json.loads(way_files(found)["way-there.json"])
    assert data == json.loads(json.dumps(way_data(found)))
    total: dict[str, int] = {}
    for each in data["steps"]:
        for device in each["disconnects"]:
            total[device] = total.get(device, 0) + each["minutes"]
    assert total == data["service-minutes"] == {each.device: each.minutes for each in found.service}
    assert sum(each["minutes"] for each in data["steps"]) == data["minutes"]


def test_where_nothing_is_to_be_done_nothing_is_written() -> None:
    assert way_files(NOTHING) == {}
    assert way_text(NOTHING) == ""
    assert "Nothing is to be done." in way_markdown(NOTHING)


@pytest.mark.parametrize(
    ("more", "said"),
    [
        (
            {"broken": ("the PoE budget of core",)},
            "breaks the PoE budget of core; no order was found that does not",
        ),
        ({"on_site": ("shed",)}, "do it at the device itself"),
        ({"locked": ("shed",)}, "afterwards shed is out of reach and still has settings to be made"),
        ({"unmanaged": ("shed",)}, "shed cannot be managed meanwhile"),
    ],
)
def test_what_is_wrong_with_a_step_stands_at_the_step(more: dict[str, tuple[str, ...]], said: str) -> None:
    found = a_way(step(1, "core", **more))
    assert said in way_text(found)
    assert f"- **{said}" in way_markdown(found)


def test_what_is_not_proved_is_not_claimed() -> None:
    assert "no other order of the steps costs less: proved" in way_text(a_way(step(1, "core")))
    short = way_text(a_way(step(1, "core"), is_proven=False, least=3))
    assert "each costs at least 3 min without service: proved" in short
    assert "not proved" in way_text(a_way(step(1, "core"), is_proven=False))


def test_a_name_is_no_markup() -> None:
    text = way_markdown(a_way(step(1, "<b>*core*</b>|", down=("<i>",))))
    assert "<b>" not in text
    assert "**disconnects \\<i\\>**" in text


def test_a_long_way_is_cut_short_on_the_terminal_only() -> None:
    long = a_way(*(step(number, f"s{number}") for number in range(1, 61)))
    assert "and 10 more: `-o DIR` writes them" in way_text(long)
    assert way_markdown(long).count("\n### ") == 60


def test_all_of_a_way_of_usual_length_stands_on_the_terminal() -> None:
    usual = a_way(*(step(number, f"s{number}") for number in range(1, 41)))
    assert "40. Turn s40" in way_text(usual)
    assert "-o DIR" not in way_text(usual)


def test_where_a_phase_begins_it_is_said_once() -> None:
    phases = ("", "spring", "spring", "autumn")
    steps = [replace(step(number, "core"), phase=phase) for number, phase in enumerate(phases, 1)]
    found = a_way(*steps)
    assert [line for line in way_text(found).splitlines() if line.startswith("  phase ")] == [
        "  phase spring",
        "  phase autumn",
    ]
    assert [line for line in way_markdown(found).splitlines() if line.startswith("## Steps")] == [
        "## Steps",
        "## Steps, phase spring",
        "## Steps, phase autumn",
    ]
    assert [each["phase"] for each in way_data(found)["steps"]] == list(phases)


def test_too_much_at_once_is_said_and_not_guessed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("firstfix.changeover.way.MOST_JOBS", 2)
    found = way(tmp_path, switched(), edited(MANY))
    assert not found.is_proven
    assert "cannot tell" in way_text(found)
    assert "Cannot tell" in way_markdown(found)
