"""`firstfix diff` on revisions: all that a plan is made of comes from that revision, and what git does not have is one sentence."""

import json
import os
import shutil
from pathlib import Path

import pytest

from cli.repository import committed, git, started
from cli.running import firstfix, is_one_sentence

ROOMS = "sites: {home: {rooms: {study: {mains: 4}, loft: {mains: 2}}}}\n"
PLAN = """\
include: more/rooms.yaml
ways: {riser: {between: [study, loft], length: 9 m, kind: riser}}
devices:
  core: {part: switch-8, room: study}
  desk: {part: computer-desktop, room: study, plugs-into: core}
"""
KEPT = "- {run: core--desk, jacks: [core/6, desk/1]}\n"
PROGRESS = "labels: {desk: {mac: 02:00:00:00:00:01}}\n"


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    """A plan with an include, kept choices and progress, committed once."""
    folder = started(tmp_path / "of plans")
    (folder / "nets" / "more").mkdir(parents=True)
    (folder / "nets" / "p.yaml").write_text(PLAN)
    (folder / "nets" / "more" / "rooms.yaml").write_text(ROOMS)
    (folder / "nets" / "p.allocations.yaml").write_text(KEPT)
    (folder / "nets" / "p.progress.yaml").write_text(PROGRESS)
    (folder / "nets" / "unrelated.bin").write_bytes(b"\x00" * 1000)
    (folder / "link.yaml").symlink_to("/etc/hostname")
    committed(folder, "first")
    return folder


@pytest.mark.parametrize(
    ("old", "new", "below"),
    [
        ("HEAD:nets/p.yaml", "nets/p.yaml", ""),
        ("HEAD:./p.yaml", "p.yaml", "nets"),
        ("HEAD:nets/p.yaml", "p.yaml", "nets"),
        ("main:nets/p.yaml", "../p.yaml", "nets/more"),
        ("HEAD:../p.yaml", "../p.yaml", "nets/more"),
    ],
)
def test_a_revision_is_compared_like_a_file(repository: Path, old: str, new: str, below: str) -> None:
    folder = repository / below
    same = firstfix("diff", old, new, cwd=folder)
    assert (same.code, same.out) == (0, "nothing changes\n")
    (folder / new).write_text((folder / new).read_text() + "  more: {part: switch-5, room: study}\n")
    run = firstfix("diff", old, new, cwd=folder)
    assert run.code == 1
    assert "device more" in run.out


def _changed(repository: Path) -> list[list[str]]:
    run = firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", "--format", "json", cwd=repository)
    return [[each["id"], each["old"], each["new"]] for each in json.loads(run.out)["changed"]]


def test_what_is_included_is_of_that_revision(repository: Path) -> None:
    rooms = repository / "nets" / "more" / "rooms.yaml"
    rooms.write_text(ROOMS.replace("mains: 2", "mains: 3"))
    assert _changed(repository) == [["room:home/loft", "2", "3"]]


def test_what_is_included_by_the_included_is_of_that_revision(repository: Path) -> None:
    more = repository / "nets" / "more"
    (more / "rooms.yaml").write_text("include: more/deep.yaml\n")
    (more / "deep.yaml").write_text(ROOMS)
    committed(repository, "deeper")
    shutil.rmtree(more)
    run = firstfix("diff", "HEAD:nets/p.yaml", "HEAD~1:nets/p.yaml", cwd=repository)
    assert (run.code, run.out, run.err) == (0, "nothing changes\n", "")


def test_kept_choices_are_of_that_revision(repository: Path) -> None:
    (repository / "nets" / "p.allocations.yaml").write_text(KEPT.replace("core/6", "core/7"))
    assert ["piece:core--desk/1", "core/6 – desk/1", "core/7 – desk/1"] in _changed(repository)


def test_kept_choices_and_progress_are_of_that_revision_even_where_an_archive_leaves_them_out(
    repository: Path,
) -> None:
    (repository / ".gitattributes").write_text(
        "*.allocations.yaml export-ignore\n*.progress.yaml export-ignore\n"
    )
    committed(repository, "not in archives")
    for name in ("p.allocations.yaml", "p.progress.yaml"):
        (repository / "nets" / name).unlink()
    run = firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", "--format", "json", cwd=repository)
    assert any(each["old"] == "core/6 – desk/1" for each in json.loads(run.out)["changed"])


def test_progress_is_of_that_revision(repository: Path) -> None:
    """What it says of a device that is not in the plan is a note; and it goes with the file."""
    progress = repository / "nets" / "p.progress.yaml"
    progress.write_text(PROGRESS + "done: {fit:nothing: {}}\n")
    committed(repository, "progress of nothing")
    progress.write_text(PROGRESS)
    data = json.loads(
        firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", "--format", "json", cwd=repository).out
    )
    assert [each["how"] for each in data["findings"]] == ["vanishes"]
    assert data["changed"] == []


OUTSIDE = "lies outside the repository"


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ("HEAD:nothing.yaml", "the revision does not hold it"),
        ("HEAD:nets/gone/p.yaml", "the revision does not hold it"),
        ("NOWHERE:nets/p.yaml", "git knows no revision NOWHERE"),
        ("deadbeefdeadbeefdeadbeefdeadbeefdeadbeef:nets/p.yaml", "git knows no revision"),
        ("HEAD:link.yaml", "is a symbolic link"),
        ("HEAD:../../p.yaml", OUTSIDE),
        ("HEAD:nets", "is not an ordinary file|does not hold it"),
        ("HEAD:nets/a\nb.yaml", "does not hold it"),
        ("--output=x:nets/p.yaml", "required|no file of a revision"),
        ("missing.yaml", "there is no file missing.yaml"),
    ],
)
def test_what_git_does_not_have_is_one_sentence(repository: Path, other: str, said: str) -> None:
    run = firstfix("diff", other, "nets/p.yaml", cwd=repository)
    assert (run.code, run.out) == (2, "")
    assert is_one_sentence(run.err)
    assert any(each in run.err for each in said.split("|")), run.err


@pytest.mark.parametrize(
    "name", ["with space.yaml", "-dash.yaml", "two\nlines.yaml", "qu'ote\".yaml", "ünï.yaml", "co:lon.yaml"]
)
def test_strange_names_are_only_names(repository: Path, name: str) -> None:
    (repository / name).write_text(PLAN.replace("include: more/rooms.yaml\n", ROOMS))
    committed(repository, "strange")
    assert firstfix("diff", f"HEAD:{name}", "--", f"./{name}", cwd=repository).out == "nothing changes\n"


def test_a_shallow_clone_says_that_it_is_one(repository: Path, tmp_path: Path) -> None:
    committed(repository, "second")
    git(tmp_path, "clone", "-q", "--depth", "1", repository.as_uri(), "shallow")
    run = firstfix("diff", "HEAD~1:nets/p.yaml", "nets/p.yaml", cwd=tmp_path / "shallow")
    assert run.code == 2
    assert is_one_sentence(run.err)
    assert "this clone is shallow" in run.err
    assert "git fetch --unshallow" in run.err
    assert firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", cwd=tmp_path / "shallow").code == 0


def test_a_bare_repository_has_revisions_all_the_same(repository: Path, tmp_path: Path) -> None:
    committed(repository, "second")
    git(tmp_path, "clone", "-q", "--bare", str(repository), "bare.git")
    run = firstfix("diff", "HEAD~1:nets/p.yaml", "HEAD:nets/p.yaml", cwd=tmp_path / "bare.git")
    assert (run.code, run.out) == (0, "nothing changes\n")


def test_without_a_repository_it_is_said(tmp_path: Path) -> None:
    (tmp_path / "p.yaml").write_text(ROOMS)
    run = firstfix(
        "diff", "HEAD:p.yaml", "p.yaml", cwd=tmp_path, env={"GIT_CEILING_DIRECTORIES": str(tmp_path.parent)}
    )
    assert run.code == 2
    assert is_one_sentence(run.err)
    assert "no git repository here" in run.err


def test_without_git_it_is_said(repository: Path) -> None:
    run = firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", cwd=repository, env={"PATH": str(repository)})
    assert run.code == 2
    assert is_one_sentence(run.err)
    assert "there is no git here" in run.err


def test_an_old_plan_that_is_none_any_more(repository: Path) -> None:
    plan = repository / "nets" / "p.yaml"
    plan.write_text("name: [unclosed\n")
    committed(repository, "broken")
    plan.write_text(PLAN)
    run = firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", cwd=repository)
    assert (run.code, run.out) == (2, "")
    assert "NEW, nets/p.yaml, was checked by itself" in run.err
    assert run.err.endswith("firstfix: HEAD:nets/p.yaml cannot be read as a plan\n")


def test_nothing_is_run_that_a_repository_configures(repository: Path, tmp_path: Path) -> None:
    """Hooks, filters and text converters could be anybody's programs."""
    trap = tmp_path / "trap.sh"
    trap.write_text(f"#!/bin/sh\ntouch '{tmp_path}/sprung'\ncat\n")
    trap.chmod(0o755)
    (repository / ".gitattributes").write_text("* filter=trap diff=trap\n")
    committed(repository, "trap")
    for key in (
        "filter.trap.smudge",
        "filter.trap.clean",
        "diff.trap.textconv",
        "core.fsmonitor",
        "tar.tar.command",
    ):
        git(repository, "config", key, str(trap))
    run = firstfix("diff", "HEAD:nets/p.yaml", "nets/p.yaml", cwd=repository)
    assert run.code == 0
    assert not os.path.lexists(tmp_path / "sprung")
