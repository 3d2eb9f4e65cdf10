"""A plan from a stranger: no text of it leaves its line, its cell, its JSON string or its folder."""

import json
import re
import string
import unicodedata
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown_it import MarkdownIt

from documents.stubs.sample import mill
from documents.stubs.yang_oracles import yanglint_complaint
from firstfix.build.model import Build
from firstfix.documents.stubs.files import stub_files
from firstfix.documents.stubs.text import folder_name, markdown, printed, visible

HOSTILE = (
    "two\nlines\n\n# heading",
    "a | b | c",
    "<script>alert(1)</script>",
    "[link](http://example.test) ![](x) www.example.test",
    "`code` **bold** _it_ ~~out~~ &lt;",
    "\\| \\",
    "{{ 7 * 7 }} {% include 'stubs/settings.md.jinja' %}",
    "\x1b[31mred\x00\x07",
    "right\u202eto left\u2066 \u2028 \u0085 \ufeff \ud800",
    '", "enabled": false, "x": "',
    "=cmd()",
)
_ANY_TEXT = st.text(st.characters(exclude_categories=()), max_size=60)


def hostile(text: str) -> Build:
    """The mill, with `text` wherever a plan is free to say what it likes, and at names that a broken reader
    might let through.
    """
    build = mill()
    core = build.devices["device:core"]
    devices = {
        **build.devices,
        "device:core": core._replace(note=text, phase=text, part=replace(core.part, title=text, name=text)),
        "device:till": build.devices["device:till"]._replace(name=text),
    }
    return replace(
        build,
        name=text,
        devices=devices,
        wireless=tuple(network._replace(ssid=text) for network in build.wireless),
        vlans={key: vlan._replace(name=text, reaches=(text, "names")) for key, vlan in build.vlans.items()},
        name_service=build.name_service._replace(domain=text),
        gaps=tuple(gap._replace(why=text) for gap in build.gaps),
    )


def rendered(sheet: str) -> list[Any]:
    return MarkdownIt("commonmark").enable(["table", "strikethrough"]).parse(sheet)


def shape(sheet: str) -> list[str]:
    """The sheet's blocks, and within lines only what is not plain text."""
    inner = [part.type for token in rendered(sheet) for part in token.children or ()]
    blocks = [token.type for token in rendered(sheet)]
    return blocks + [each for each in inner if each not in ("text", "text_special")]


@pytest.mark.parametrize("text", HOSTILE)
def test_sheets_keep_their_shape(text: str) -> None:
    """The same headings, rows, cells and marks as with a harmless word."""
    calm = {path: body.decode() for path, body in stub_files(hostile("calm")).items() if path.endswith(".md")}
    wild = {path: body.decode() for path, body in stub_files(hostile(text)).items() if path.endswith(".md")}
    named = {path.replace(folder_name(text), "calm"): body for path, body in wild.items()}
    assert named.keys() == calm.keys()
    for path, body in named.items():
        assert shape(body) == shape(calm[path]), path


@pytest.mark.parametrize("text", HOSTILE)
def test_instance_data_keeps_its_shape(text: str, tmp_path: Path) -> None:
    def keys(value: Any) -> Any:
        if isinstance(value, dict):
            return {key: keys(each) for key, each in value.items() if key not in ("search", "hostname")}
        return [keys(each) for each in value] if isinstance(value, list) else type(value)

    files = stub_files(hostile(text))
    calm = json.loads(stub_files(hostile("calm"))["stubs/hall-switch/config.json"])
    wild = json.loads(files["stubs/hall-switch/config.json"])
    assert keys(wild) == keys(calm)
    assert yanglint_complaint(wild, tmp_path) == ""


@pytest.mark.parametrize("text", HOSTILE)
def test_paths_are_plain(text: str) -> None:
    for path in stub_files(hostile(text)):
        assert re.fullmatch(r"stubs/[a-z0-9_-]{1,80}/(settings\.md|config\.json)", path)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(_ANY_TEXT)
def test_markdown_shows_the_text_itself(text: str) -> None:
    """Read back by an independent reader of Markdown, in a cell of a table."""
    cells = [each for each in rendered(f"| a |\n| --- |\n| x{markdown(text)} |\n") if each.type == "inline"]
    shown = "".join(part.content for part in cells[1].children or ())
    assert len(cells) == 2
    assert shown.split() == f"x{visible(text)}".split()


@settings(derandomize=True, deadline=None, max_examples=200)
@given(_ANY_TEXT)
def test_visible_text_is_one_line_of_signs(text: str) -> None:
    shown = visible(text)
    assert len(shown.splitlines()) <= 1
    assert not any(unicodedata.category(sign).startswith("C") for sign in shown)
    shown.encode()


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.one_of(_ANY_TEXT, st.text(string.ascii_lowercase + string.digits + "-./", max_size=70)))
def test_folder_is_the_name_or_a_hash(text: str) -> None:
    folder = folder_name(text)
    assert re.fullmatch(r"[a-z0-9-]{1,63}|unnamed_[0-9a-f]{16}", folder)
    assert folder.startswith("unnamed_") or folder == text


@pytest.mark.parametrize("name", ["..", "../x", "a/b", "Core", "con", "com1", "", "a" * 64, "core\n", "a.b"])
def test_names_that_mean_something_to_a_file_system_are_hashed(name: str) -> None:
    assert folder_name(name).startswith("unnamed_")


def test_every_text_of_a_sheet_is_reached() -> None:
    assert printed((("a|b",), 3, None, True)) == (("a\\|b",), 3, None, True)
