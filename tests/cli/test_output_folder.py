"""The folder of documents is the new one or the old one, whatever fails; nothing of the user's is lost."""

import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from firstfix.documents.output_folder import MARKER, CannotWriteError, UnsafeNameError, write_folder

FIRST = {"shopping-list.md": b"first\n", "drawings/network.svg": b"<svg/>"}
SECOND = {"shopping-list.md": b"second\n", "stubs/core/settings.md": b"core\n"}


def contents(folder: Path) -> dict[str, bytes]:
    """Every file below `folder` but the marker."""
    files = (path for path in folder.rglob("*") if path.is_file())
    found = {path.relative_to(folder).as_posix(): path.read_bytes() for path in files}
    return {name: content for name, content in found.items() if name != MARKER}


def nothing_else_in(parent: Path, *names: str) -> bool:
    return sorted(path.name for path in parent.iterdir()) == sorted(names)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """A folder that was written once, alone in its parent."""
    write_folder(tmp_path / "out", FIRST)
    return tmp_path / "out"


def test_a_new_folder_holds_exactly_the_documents(out: Path) -> None:
    assert contents(out) == FIRST
    assert nothing_else_in(out.parent, "out")


def test_an_empty_folder_is_filled(tmp_path: Path) -> None:
    (tmp_path / "out").mkdir(mode=0o750)
    write_folder(tmp_path / "out", FIRST)
    assert contents(tmp_path / "out") == FIRST
    assert (tmp_path / "out").stat().st_mode & 0o777 == 0o750


def test_writing_again_replaces_the_whole(out: Path) -> None:
    written = write_folder(out, SECOND)
    assert contents(out) == SECOND
    assert written.files == tuple(sorted(SECOND))
    assert written.kept == ()
    assert nothing_else_in(out.parent, "out")


def test_files_of_the_user_stay(out: Path) -> None:
    (out / "photos").mkdir()
    (out / "photos" / "cabinet.jpg").write_bytes(b"mine")
    (out / "drawings" / "sketch.txt").write_bytes(b"mine too")
    (out / "empty").mkdir()
    (out / "elsewhere").symlink_to("/no/such/place")
    write_folder(out, SECOND)
    mine = {"photos/cabinet.jpg": b"mine", "drawings/sketch.txt": b"mine too"}
    assert contents(out) == {**SECOND, **mine}
    assert (out / "empty").is_dir()
    assert (out / "elsewhere").readlink() == Path("/no/such/place")


def test_files_of_the_user_stay_where_links_cannot_be_made(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object, **__: object) -> None:
        raise OSError("no links here")

    (out / "mine.txt").write_bytes(b"mine")
    monkeypatch.setattr(os, "link", no_links)
    write_folder(out, SECOND)
    assert contents(out) == {**SECOND, "mine.txt": b"mine"}


def test_a_document_changed_by_hand_is_kept_beside_the_new_one(out: Path) -> None:
    (out / "shopping-list.md").write_bytes(b"ticked off\n")
    first = write_folder(out, SECOND)
    (out / "shopping-list.md").write_bytes(b"ticked again\n")
    second = write_folder(out, SECOND)
    assert first.kept == (("shopping-list.md", "shopping-list.md.yours"),)
    assert second.kept == (("shopping-list.md", "shopping-list.md.yours-2"),)
    yours = {"shopping-list.md.yours": b"ticked off\n", "shopping-list.md.yours-2": b"ticked again\n"}
    assert contents(out) == {**SECOND, **yours}


def test_a_file_of_the_user_is_not_written_over(out: Path) -> None:
    (out / "stubs" / "core").mkdir(parents=True)
    (out / "stubs" / "core" / "settings.md").write_bytes(b"mine")
    with pytest.raises(CannotWriteError, match="is yours"):
        write_folder(out, SECOND)
    assert contents(out) == {**FIRST, "stubs/core/settings.md": b"mine"}


def a_file(path: Path) -> None:
    path.write_text("mine")


def a_folder_of_somebody(path: Path) -> None:
    path.mkdir()
    (path / "thesis.txt").write_text("mine")


def a_link(path: Path) -> None:
    (path.parent / "real").mkdir()
    path.symlink_to("real")


def a_foreign_marker(path: Path) -> None:
    path.mkdir()
    (path / MARKER).write_text("something else\n")


def a_marker_that_is_a_link(path: Path) -> None:
    write_folder(path.parent / "real", {})
    path.mkdir()
    (path / MARKER).symlink_to(path.parent / "real" / MARKER)


@pytest.mark.parametrize(
    "make", [a_file, a_folder_of_somebody, a_link, a_foreign_marker, a_marker_that_is_a_link]
)
def test_what_is_not_ours_is_refused_and_left_alone(tmp_path: Path, make: Callable[[Path], None]) -> None:
    make(tmp_path / "out")
    before = sorted(path.as_posix() for path in tmp_path.rglob("*"))
    with pytest.raises(CannotWriteError, match="out"):
        write_folder(tmp_path / "out", FIRST)
    assert sorted(path.as_posix() for path in tmp_path.rglob("*")) == before


def test_a_folder_in_a_file_or_in_nothing_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    for parent in ("file", "nothing"):
        with pytest.raises(CannotWriteError, match="there is no folder"):
            write_folder(tmp_path / parent / "out", FIRST)
    assert nothing_else_in(tmp_path, "file")


def test_the_folder_one_is_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "here").mkdir()
    monkeypatch.chdir(tmp_path / "here")
    for target in (".", "..", "../here"):
        with pytest.raises(CannotWriteError, match="the folder you are in"):
            write_folder(Path(target), FIRST)


@pytest.mark.parametrize(
    "name",
    [
        "../evil", "/etc/evil", "a/../../evil", "a//b", "", ".", "a/", "a/.", "nul\0", "line\nbreak", "tab\t",
        "c:evil", "a\\b", ".firstfix", ".FirstFix", "x" * 300, "dot.", " blank", "turn\u202e", ".firstfix/x",
    ],
)  # fmt: skip
def test_names_that_lead_elsewhere_are_refused(out: Path, name: str) -> None:
    with pytest.raises(UnsafeNameError):
        write_folder(out, {**SECOND, name: b"x"})
    assert contents(out) == FIRST
    assert nothing_else_in(out.parent, "out")


def test_names_that_clash_are_refused(out: Path) -> None:
    for names in (("Core.md", "core.md"), ("a", "a/b"), ("a/b", "A")):
        with pytest.raises(UnsafeNameError):
            write_folder(out, dict.fromkeys(names, b"x"))


def test_a_marker_from_a_stranger_deletes_nothing_elsewhere(out: Path) -> None:
    (out.parent / "precious").write_text("mine")
    marker = out / MARKER
    marker.write_bytes(marker.read_bytes() + b"0" * 64 + b"  ../precious\n")
    write_folder(out, SECOND)
    assert (out.parent / "precious").read_text() == "mine"
    assert contents(out) == SECOND


class FailsAtCall:
    """Stands in for a function of the system, and raises `fault` the `at`-th time it is called."""

    def __init__(self, real: Callable[..., object], at: int, fault: BaseException) -> None:
        self.real, self.left, self.fault = real, at, fault

    def __call__(self, *given: object, **named: object) -> object:
        self.left -= 1
        if self.left == 0:
            raise self.fault
        return self.real(*given, **named)


FAULTS = [OSError(28, "No space left on device"), OSError(30, "Read-only file system"), KeyboardInterrupt()]
STEPS = [
    (Path, "write_bytes", 1), (Path, "write_bytes", 2), (Path, "write_bytes", 3), (Path, "mkdir", 1),
    (Path, "mkdir", 2), (Path, "rename", 1), (Path, "rename", 2), (tempfile, "mkdtemp", 1),
    (shutil, "copy2", 1),
]  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS, ids=str)
@pytest.mark.parametrize(("owner", "step", "at"), STEPS)
def test_whatever_fails_the_old_documents_stay(
    out: Path, monkeypatch: pytest.MonkeyPatch, owner: object, step: str, at: int, fault: BaseException
) -> None:
    (out / "mine.txt").write_bytes(b"mine")
    with monkeypatch.context() as patch:
        patch.setattr(os, "link", FailsAtCall(os.link, 1, OSError("no links here")))
        stand_in = FailsAtCall(getattr(owner, step), at, fault)
        patch.setattr(owner, step, lambda *given, **named: stand_in(*given, **named))
        with pytest.raises(KeyboardInterrupt if isinstance(fault, KeyboardInterrupt) else CannotWriteError):
            write_folder(out, SECOND)
        assert stand_in.left <= 0
    assert contents(out) == {**FIRST, "mine.txt": b"mine"}
    assert nothing_else_in(out.parent, "out")


def test_an_old_folder_that_cannot_go_back_is_not_thrown_away(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.rename
    calls: list[Path] = []

    def only_the_first(self: Path, aside: Path) -> Path:
        calls.append(self)
        if len(calls) > 1:
            raise OSError(5, "Input/output error")
        return real(self, aside)

    monkeypatch.setattr(Path, "rename", only_the_first)
    with pytest.raises(CannotWriteError, match="what stood there is now in"):
        write_folder(out, SECOND)
    (aside,) = out.parent.iterdir()
    assert contents(aside / "old") == FIRST


def test_an_old_folder_that_cannot_be_deleted_does_not_spoil_the_new_one(
    out: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shutil, "rmtree", lambda *_, **__: None)
    write_folder(out, SECOND)
    assert contents(out) == SECOND


names = st.text("abc.-_é", min_size=1, max_size=6)
trees = st.dictionaries(
    st.lists(names, min_size=1, max_size=3).map("/".join), st.binary(max_size=5), max_size=6
)


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.lists(trees, min_size=1, max_size=3))
def test_the_last_accepted_tree_is_what_stands_there(
    tmp_path_factory: pytest.TempPathFactory, given_trees: list[dict[str, bytes]]
) -> None:
    target = tmp_path_factory.mktemp("law") / "out"
    accepted: dict[str, bytes] = {}
    for tree in given_trees:
        try:
            write_folder(target, tree)
        except UnsafeNameError:
            continue
        accepted = tree
    assert (contents(target) if target.exists() else {}) == accepted
