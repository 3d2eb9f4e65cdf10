"""A comparison as JSON, Markdown and text: the published schema accepts it, and no name of a plan gets out of its place."""

import copy
import json
import random
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from markdown_it import MarkdownIt

from compare.comparing import compared
from compare.edits import edited
from firstfix.compare.categories import CATEGORIES
from firstfix.documents.changes import ComparedPlans
from firstfix.documents.changes_files import changes_files
from firstfix.documents.changes_json import changes_json
from firstfix.documents.changes_markdown import changes_markdown
from firstfix.documents.changes_text import NOTHING, changes_text
from firstfix.resources import schemas
from repo.editing import HONEY_FARM, PLANS, read
from resolve.planning import compiled

SCHEMA = json.loads((schemas() / "changes.schema.json").read_text(encoding="utf-8"))
VALIDATOR = Draft202012Validator(SCHEMA)
SMALL = [path for path in PLANS if path.stem in ("honey-farm", "rowing-club")]


def _pair(tmp_path: Path, old: Any, new: Any) -> ComparedPlans:
    return compared(compiled(tmp_path, old), compiled(tmp_path, new))


def test_the_schema_is_one_and_knows_every_sort_of_change() -> None:
    Draft202012Validator.check_schema(SCHEMA)
    assert tuple(SCHEMA["$defs"]["category"]["enum"]) == CATEGORIES


@pytest.mark.parametrize("path", SMALL, ids=lambda path: path.stem)
@pytest.mark.parametrize("seed", range(6))
def test_the_schema_accepts_what_is_written(path: Path, seed: int, tmp_path: Path) -> None:
    chance = random.Random(seed)  # noqa: S311 - repeatable
    found = _pair(tmp_path, read(path), edited(read(path), chance, 5))
    data = json.loads(changes_json(found))
    assert [fault.message for fault in VALIDATOR.iter_errors(data)] == []
    assert data["states"]


def test_the_schema_refuses_what_is_never_written(tmp_path: Path) -> None:
    data = json.loads(changes_json(_pair(tmp_path, read(SMALL[0]), read(SMALL[1]))))
    for key in data:
        assert not VALIDATOR.is_valid({name: value for name, value in data.items() if name != key}), key
    for key, value in (("format_version", 2), ("order", {}), ("added", ["core"]), ("extra", 1)):
        assert not VALIDATOR.is_valid({**data, key: value}), key


def test_the_same_twice_is_the_same_to_the_byte(tmp_path: Path) -> None:
    first, second = (changes_files(_pair(tmp_path, *map(read, SMALL)), {}) for _ in range(2))
    assert first == second
    assert set(first) == {"changes.md", "changes.json"}


def test_nothing_is_said_to_change_in_all_forms(tmp_path: Path) -> None:
    found = _pair(tmp_path, read(HONEY_FARM), read(HONEY_FARM))
    assert changes_text(found) == NOTHING
    assert changes_markdown(found).endswith("\n\nNothing changes.\n")


HOSTILE = "a|b <img src=x onerror=alert(1)> **[c](http://d.example)** `e` @f </summary>"


def test_what_a_plan_says_is_no_markup(tmp_path: Path) -> None:
    """An SSID and what units are kept free for are any text; so is a plan's file name."""
    old, new = read(HONEY_FARM), read(HONEY_FARM)
    new["wifi"]["house"]["ssid"] = HOSTILE[:31]
    new["cabinets"]["main"]["layout"]["10"]["keep-free"] = HOSTILE
    found = _pair(tmp_path, old, new)._replace(old=HOSTILE, notes=(HOSTILE,))
    tokens = MarkdownIt("commonmark").enable("table").parse(changes_markdown(found))
    inside = [each for token in tokens for each in (token.children or [])]
    assert not {each.type for each in inside} & {
        "html_inline",
        "link_open",
        "strong_open",
        "image",
        "code_inline",
    } - {"strong_open"}
    assert not [token.content for token in tokens if token.type == "html_block" and "img" in token.content]
    assert any(HOSTILE[:20] in each.content for each in inside if each.type == "text")


def test_a_long_list_is_folded_up_and_still_read(tmp_path: Path) -> None:
    page = changes_markdown(_pair(tmp_path, *map(read, SMALL)))
    tokens = MarkdownIt("commonmark").enable("table").parse(page)
    folds = [token.content.strip() for token in tokens if token.type == "html_block"]
    assert folds.count("</details>") == sum(fold.startswith("<details>") for fold in folds) > 0
    assert any(token.type == "bullet_list_open" for token in tokens)
    assert any(token.type == "table_open" for token in tokens)


def test_no_escape_reaches_a_terminal(tmp_path: Path) -> None:
    new = copy.deepcopy(read(HONEY_FARM))
    new["cabinets"]["main"]["layout"]["10"]["keep-free"] = "later \x1b[2J\u202e gone"
    text = changes_text(_pair(tmp_path, read(HONEY_FARM), new))
    assert "\x1b" not in text
    assert "\u202e" not in text


def test_further_files_are_led_to(tmp_path: Path) -> None:
    found = _pair(tmp_path, *map(read, SMALL))
    files = changes_files(found, {"change.svg": b"<svg/>"})
    assert files["change.svg"] == b"<svg/>"
    assert b"(change.svg)" in files["changes.md"]
