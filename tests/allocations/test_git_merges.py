"""Two branches that each add a device, merged by git itself: no conflict, and what both chose is settled by a stated rule."""

import os
import re
import shutil
import subprocess
from pathlib import Path

import pytest

from allocations.keeping import kept_after, lines, said
from firstfix.pipeline import Compiled, compile_plan

# Each branch writes its own part of the plan, so that only the kept choices meet.
PLAN = """\
include: [left.yaml, right.yaml]
sites: {home: {rooms: {study: {mains: 9}}}}
vlans: {house: {id: 10, subnet: 10.61.10.0/24}}
devices:
  core: {part: switch-16-poe, vlan: house, host: 2}
  gateway: {part: gateway-1u}
  store: {part: storage-2-bay, vlan: house}
  strip: {part: power-strip-1u-8}
links:
  - {run: [gateway/1, core/16]}
  - {run: [store, core]}
"""
NOTHING = "devices: {}\n"
UNION = "*.allocations.yaml merge=union\n"
WHO = {f"GIT_{who}_{what}": "n" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
# Devices that each of two branches adds; the digests of their lines decide whether they stand side by side.
PAIRS = [(f"{a}-cam", f"{b}-cam") for a, b in zip("abcdef", "pqrstu", strict=True)]


class Repository:
    def __init__(self, folder: Path) -> None:
        if shutil.which("git") is None:
            pytest.skip("there is no git")
        self.folder = folder
        self.git("init", "-q", "-b", "main")

    def git(self, *given: str) -> int:
        quiet = {"GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_SYSTEM": os.devnull}
        done = subprocess.run(
            ["git", *given],
            cwd=self.folder,
            env={**os.environ, **WHO, **quiet},
            capture_output=True,
            check=False,
        )
        return done.returncode

    def write(self, **files: str) -> None:
        for name, text in files.items():
            (self.folder / f"{name}.yaml").write_text(text)

    def compiled(self) -> Compiled:
        return compile_plan(self.folder / "plan.yaml", "plan.yaml")

    @property
    def kept(self) -> str:
        return (self.folder / "plan.allocations.yaml").read_text()

    def build(self) -> None:
        """What `firstfix build` does with the kept choices."""
        result = self.compiled()
        assert not result.report.has_errors
        (self.folder / "plan.allocations.yaml").write_text(kept_after(result))

    def commit(self, message: str) -> None:
        assert self.git("add", ".") == 0
        assert self.git("commit", "-q", "-m", message) == 0

    def branch_with(self, branch: str, file: str, device: str) -> None:
        self.git("checkout", "-q", "-b", branch, "main")
        self.write(**{file: with_camera(device)})
        self.build()
        self.commit(f"adds {device}")


def with_camera(name: str) -> str:
    """A camera, named so that its line and those of others are told apart."""
    return f"devices: {{{name}: {{part: camera, vlan: house}}}}\nlinks: [{{run: [{name}, core]}}]\n"


@pytest.fixture
def repository(tmp_path: Path) -> Repository:
    made = Repository(tmp_path)
    made.write(plan=PLAN, left=NOTHING, right=NOTHING)
    made.build()
    made.commit("begin")
    return made


def merged(repository: Repository, left: str, right: str) -> int:
    """Two branches with a device each, the second merged into the first. What git says."""
    repository.branch_with("one", "left", left)
    repository.branch_with("two", "right", right)
    repository.git("checkout", "-q", "one")
    return repository.git("merge", "-q", "--no-edit", "two")


def check_settled(repository: Repository, before: str, left: str, right: str) -> None:
    """Both chose the same jack and host number; the one that sorts first keeps them, and one build settles it."""
    result = repository.compiled()
    assert not result.report.has_errors
    runs = sorted("--".join(sorted(("core", each))) for each in (left, right))
    twice = {each.message for each in result.report.findings if each.rule == "kept-twice"}
    assert twice == {
        f"'core/1' is kept for '{runs[1]}' and for '{runs[0]}'; '{runs[0]}', which sorts first, stays",
        f"host 11 was kept for '{right}', and for '{left}'; '{left}', which sorts first, stays",
    }
    after = kept_after(result)
    assert lines(before) <= lines(after)
    assert jacks(after, runs[0]) == {"core/1"}
    assert jacks(after, runs[1]) == {"core/2"}
    assert f"- {{device: {left}, vlan: house, host: 11}}" in after
    assert f"- {{device: {right}, vlan: house, host: 12}}" in after
    repository.build()
    assert said(repository.compiled()) == []


def jacks(text: str, run: str) -> set[str]:
    """The core's jacks that one run has."""
    return {
        jack for line in lines(text) if f"run: {run}," in line for jack in re.findall(r"core/[0-9]+", line)
    }


@pytest.mark.parametrize(("left", "right"), PAIRS[:3])
def test_with_the_documented_line_no_merge_conflicts(repository: Repository, left: str, right: str) -> None:
    (repository.folder / ".gitattributes").write_text(UNION)
    repository.commit("how to merge what is kept")
    before = repository.kept
    assert merged(repository, left, right) == 0
    assert "<<<<" not in repository.kept
    check_settled(repository, before, left, right)


@pytest.mark.parametrize("style", ["merge", "diff3"])
@pytest.mark.parametrize(("left", "right"), PAIRS[:3])
def test_without_it_a_conflict_is_read_as_both_sides(
    repository: Repository, left: str, right: str, style: str
) -> None:
    before = repository.kept
    repository.git("config", "merge.conflictStyle", style)
    code = merged(repository, left, right)
    assert ("<<<<<<< " in repository.kept) == (code != 0)
    assert ("kept-merge" in said(repository.compiled())) == (code != 0)
    check_settled(repository, before, left, right)


def test_lines_are_spread_so_that_many_merges_need_no_help(tmp_path: Path) -> None:
    """Out of the pairs above, on a plan as small as this one; the more lines there are, the fewer meet."""
    clean = 0
    for number, (left, right) in enumerate(PAIRS):
        folder = tmp_path / str(number)
        folder.mkdir()
        made = Repository(folder)
        made.write(plan=PLAN, left=NOTHING, right=NOTHING)
        made.build()
        made.commit("begin")
        clean += merged(made, left, right) == 0
    assert 0 < clean < len(PAIRS)


def test_two_branches_that_both_begin_to_keep(tmp_path: Path) -> None:
    """No common file to begin from: what both have stands once."""
    made = Repository(tmp_path)
    made.write(plan=PLAN, left=NOTHING, right=NOTHING)
    (tmp_path / ".gitattributes").write_text(UNION)
    made.commit("begin")
    assert merged(made, "a-cam", "z-cam") == 0
    result = made.compiled()
    assert not result.report.has_errors
    assert {"kept-twice"} == set(said(result))
    made.build()
    assert said(made.compiled()) == []


def test_one_branch_takes_away_what_the_other_adds_to(repository: Repository) -> None:
    (repository.folder / ".gitattributes").write_text(UNION)
    repository.write(left=with_camera("a-cam"))
    repository.build()
    repository.commit("a camera, and how to merge what is kept")
    before = repository.kept
    repository.git("checkout", "-q", "-b", "less")
    repository.write(left=NOTHING)
    repository.build()
    repository.commit("no camera")
    repository.git("checkout", "-q", "main")
    repository.write(right=with_camera("z-cam"))
    repository.build()
    repository.commit("another camera")
    assert lines(before) <= lines(repository.kept)
    assert repository.git("merge", "-q", "--no-edit", "less") == 0
    result = repository.compiled()
    assert result.build is not None
    assert "device:a-cam" not in result.build.devices
    assert jacks(kept_after(result), "core--z-cam") == {"core/2"}
    assert lines(kept_after(result)) <= lines(repository.kept)
