"""The library is read a part at a time, gives the same parts in whatever order, and tells its own faults by file and line."""

from pathlib import Path

import pytest

from firstfix.parts import library_files
from firstfix.parts.layers import laid_over, parts_of_kind
from firstfix.parts.library_files import LibraryError, library
from parts.reading import one

TOOL = "{kind: tool, price: 1}"


def test_only_what_is_asked_for_is_read() -> None:
    shelf = library.__wrapped__()
    assert (shelf.count_fetched, "switch-8-managed" in shelf, len(shelf) == len(list(shelf))) == (
        0,
        True,
        True,
    )
    assert shelf["switch-8-managed"].like == "switch-8"
    # With what it is like: switch-8, which is like switch-5.
    assert shelf.count_fetched == 3


def test_order_of_asking_does_not_matter() -> None:
    forth, back = library.__wrapped__(), library.__wrapped__()
    names = list(forth)
    found = {name: back[name] for name in reversed(names)}
    for name in names:
        assert forth[name] == found[name]
        assert forth[name].said == found[name].said


def test_kinds_are_known_without_reading() -> None:
    shelf = library.__wrapped__()
    kinds = {name: shelf.kind_of(name) for name in shelf}
    assert shelf.count_fetched == 0
    assert kinds == {name: part.kind for name, part in shelf.items()}


def test_parts_of_a_kind() -> None:
    shelf = library.__wrapped__()
    own = {"tool-plug": one("tool-plug: {kind: tie}"), "mine": one(f"mine: {TOOL}")}
    wanted = [part for part in library().values() if part.kind == "tool"]
    assert list(parts_of_kind(laid_over({}, shelf), "tool")) == wanted
    assert shelf.count_fetched == len(wanted)
    assert list(parts_of_kind(dict(shelf), "tool")) == wanted
    names = [part.name for part in wanted if part.name != "tool-plug"]
    assert [part.name for part in parts_of_kind(laid_over(own, shelf), "tool")] == [*names, "mine"]


def test_unknown_name() -> None:
    assert library().get("no-such-part") is None
    with pytest.raises(KeyError):
        library()["no-such-part"]


def test_own_parts_lie_over_those_of_the_library() -> None:
    own = {"tool-plug": one(f"tool-plug: {TOOL}"), "mine": one(f"mine: {TOOL}")}
    both = laid_over(own, library())
    assert (both["tool-plug"], both["mine"], both["switch-8"]) == (*own.values(), library()["switch-8"])
    assert list(both) == [*library(), "mine"]
    assert dict(both) == {**library(), **own}
    assert len(both) == len(library()) + 1
    assert "mine" in both
    assert "no-such-part" not in both
    assert both == {**library(), **own}
    assert both != {}
    with pytest.raises(KeyError):
        both["no-such-part"]
    assert laid_over({}, library()) is library()


@pytest.mark.parametrize(
    ("files", "message"),
    [
        ({"a.yaml": "p: {kind: swich}"}, "a.yaml:1:11: 'kind' is one of"),
        ({"a.yaml": f"# One.\np: {TOOL}\n\nq: {{kind: swich}}"}, "a.yaml:4:11: 'kind' is one of"),
        ({"a.yaml": "- p"}, "a.yaml:1:1: 'parts' is written as a table of keys and values, not as a list"),
        ({"a.yaml": ""}, "a.yaml:1:1: the file is empty"),
        ({"a.yaml": "p: {like: q}"}, "a.yaml:1:11: there is no part 'q' to be like"),
        ({"a.yaml": "p: {like: p}"}, "a.yaml: the part 'p' is like itself"),
        ({"a.yaml": "p: {like: q}", "b.yaml": "q: {like: p}"}, "a.yaml: the part 'p' is like itself"),
        ({"a.yaml": "p: {kind: tie}"}, "a.yaml:1:1: the part 'p' of kind 'tie' does not say 'price', "),
        ({"a.yaml": f"p: {TOOL}", "b.yaml": f"p: {TOOL}"}, "b.yaml: there is a part 'p' already"),
        ({"a.yaml": f"p: {TOOL}\np: {TOOL}"}, "a.yaml: there is a part 'p' already"),
    ],
)
def test_faulty_library(
    files: dict[str, str], message: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name, text in files.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    monkeypatch.setattr(library_files, "_FOLDER", tmp_path)
    with pytest.raises(LibraryError) as fault:
        list(library.__wrapped__().values())
    assert str(fault.value).startswith(message)
