"""`firstfix diff --from-git` as git's own diff driver, in a real repository."""

import shlex
import sys
from pathlib import Path

import pytest

from cli.repository import committed, git, started
from cli.running import firstfix

PLAN = """\
sites: {home: {rooms: {study: {mains: 4}, loft: {mains: 2}}}}
ways: {riser: {between: [study, loft], length: 9 m, kind: riser}}
devices:
  core: {part: switch-8, room: study}
  desk: {part: computer-desktop, room: study, plugs-into: core}
"""
MORE = PLAN + "  more: {part: computer-desktop, room: loft, plugs-into: core}\n"
KEPT = "- {run: core--desk, jacks: [core/6, desk/1]}\n"


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    folder = started(tmp_path / "plans")
    (folder / ".gitattributes").write_text("*-net.yaml diff=firstfix\n")
    (folder / "sub dir").mkdir()
    (folder / "sub dir" / "home-net.yaml").write_text(PLAN)
    (folder / "sub dir" / "home-net.allocations.yaml").write_text(KEPT)
    committed(folder, "first")
    git(
        folder,
        "config",
        "diff.firstfix.command",
        f"{shlex.quote(sys.executable)} -m firstfix diff --from-git",
    )
    return folder


def _plan(repository: Path) -> Path:
    return repository / "sub dir" / "home-net.yaml"


def test_git_diff_says_what_changes(repository: Path) -> None:
    _plan(repository).write_text(MORE)
    said = git(repository, "diff")
    assert said.startswith("HEAD:sub dir/home-net.yaml → sub dir/home-net.yaml\n")
    assert "device more: computer-desktop in home/loft" in said
    assert "@@" not in said


def test_kept_choices_of_the_old_revision_are_found(repository: Path) -> None:
    """The cord of the desk stays where it was kept: nothing is patched."""
    _plan(repository).write_text(MORE)
    assert "Re-patched" not in git(repository, "diff", "HEAD")
    (repository / "sub dir" / "home-net.allocations.yaml").write_text(KEPT.replace("/6", "/7"))
    assert "core/6 – desk/1 → core/7 – desk/1" in git(repository, "diff", "HEAD", "--", "*-net.yaml")


def test_the_index_has_choices_of_its_own(repository: Path) -> None:
    _plan(repository).write_text(MORE)
    (repository / "sub dir" / "home-net.allocations.yaml").write_text(KEPT.replace("/6", "/7"))
    git(repository, "add", "-A")
    (repository / "sub dir" / "home-net.allocations.yaml").write_text(KEPT.replace("/6", "/8"))
    said = git(repository, "diff", "--cached", "--", "*-net.yaml")
    assert "→ index:sub dir/home-net.yaml" in said
    assert "core/6 – desk/1 → core/7 – desk/1" in said


def test_older_revisions_are_found_by_their_text(repository: Path) -> None:
    _plan(repository).write_text(MORE)
    (repository / "sub dir" / "home-net.allocations.yaml").write_text(KEPT.replace("/6", "/7"))
    committed(repository, "second")
    _plan(repository).write_text(PLAN.replace("switch-8", "switch-16"))
    committed(repository, "third")
    said = git(repository, "diff", "HEAD~2", "HEAD~1", "--", "*-net.yaml")
    assert "core/6 – desk/1 → core/7 – desk/1" in said
    assert said.count("is read as of that revision, the newest with this text") == 2


def test_log_and_show_go_on(repository: Path) -> None:
    for text in (MORE, "name: [unclosed\n", PLAN):
        _plan(repository).write_text(text)
        committed(repository, "next")
    said = git(repository, "log", "-p", "--ext-diff")
    assert said.count("cannot be read as a plan") == 2
    assert "is new; there is nothing to compare it with" in said
    assert "device more" in said
    assert said.count("\ncommit ") == 3


def test_a_rename_of_the_file_is_followed(repository: Path) -> None:
    git(repository, "mv", "--", "sub dir/home-net.yaml", "-net.yaml")
    (repository / "-net.yaml").write_text(MORE)
    said = git(repository, "diff", "HEAD", "-M10%")
    assert "HEAD:sub dir/home-net.yaml → -net.yaml" in said
    assert "device more" in said


def test_a_text_that_no_revision_holds_is_read_alone_and_that_is_said(
    repository: Path, tmp_path: Path
) -> None:
    (tmp_path / "one.yaml").write_text(PLAN)
    given = (
        "p.yaml",
        str(tmp_path / "one.yaml"),
        "1" * 40,
        "100644",
        str(tmp_path / "one.yaml"),
        "2" * 40,
        "100644",
    )
    run = firstfix("diff", "--from-git", *given, cwd=repository)
    assert run.code == 0
    assert run.out.count("is in no revision here, so it is read alone") == 2
    assert run.out.endswith("nothing changes\n")


@pytest.mark.parametrize("given", [(), ("p.yaml",), ("a", "b", "c")])
def test_other_arguments_stop_nothing(repository: Path, given: tuple[str, ...]) -> None:
    run = firstfix("diff", "--from-git", "--", *given, cwd=repository)
    assert run.code == 0
    assert run.out.count("\n") == 1
    assert "Traceback" not in run.err


def test_by_hand_and_with_no_repository_the_two_files_are_read_alone(tmp_path: Path) -> None:
    for name, text in (("one.yaml", PLAN), ("two.yaml", MORE)):
        (tmp_path / name).write_text(text)
    given = ("home.yaml", "one.yaml", "12", "100644", "two.yaml", "34", "100644")
    run = firstfix("diff", "--from-git", *given, cwd=tmp_path)
    assert (run.code, run.err) == (0, "")
    assert "is in no revision here" in run.out
    assert "added" in run.out
