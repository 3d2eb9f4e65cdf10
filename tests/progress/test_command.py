"""`firstfix progress` as its user runs it: what it writes, what it refuses, and what a build makes of it afterwards."""

import json
from pathlib import Path

import pytest

from cli.running import Run, firstfix, is_one_sentence
from firstfix.cli.progress import run
from firstfix.cli.trouble import TroubleError
from progress.sample import PLAN, RUN, write

MAC = "00:00:5e:00:53:0a"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write(tmp_path)
    return tmp_path


def progress(folder: Path, *given: str) -> Run:
    return firstfix("progress", "shed.yaml", *given, cwd=folder)


def kept(folder: Path) -> str:
    return (folder / "shed.progress.yaml").read_text("utf-8")


def test_records_in_one_go(folder: Path) -> None:
    done = progress(
        folder, "--done", "fit:core", f"pull:{RUN}", "--arrived", "access-point", "cat6-indoor=50m",
        "--mac", f"core={MAC.upper()}", "--serial", "core=0123", "--length", "ap-attic--core=12.4 m",
        "--passed", RUN, "--on", "2027-03-14",
    )  # fmt: skip
    assert (done.code, done.out) == (0, "")
    assert is_one_sentence(done.err)
    assert (
        kept(folder)
        == f"""\
# What has been done so far for shed.yaml. firstfix progress writes here, and so may you.
done:
  fit:device/core: {{as: "switch-16-poe in rack, unit 4", on: 2027-03-14}}
  pull:piece/{RUN}: {{as: "cat6-indoor, 18.2 m, ap-attic/1 to panel/1", on: 2027-03-14}}
bought:
  access-point: {{arrived: 1, arrived-on: 2027-03-14}}
  cat6-indoor: {{arrived: 50 m, arrived-on: 2027-03-14}}
labels:
  core: {{mac: "{MAC}", part: "switch-16-poe", serial: "0123"}}
measured:
  {RUN}: {{length: 12.4 m, as: "cat6-indoor along riser from ap-attic to panel", on: 2027-03-14, test: pass}}
"""
    )


def test_a_step_that_comes_early_is_recorded_with_a_note(folder: Path) -> None:
    done = progress(folder, "--done", "fit:core")
    assert is_one_sentence(done.err)
    assert "note: 'fit:device/core' comes after 'hang:cabinet/rack'" in done.err
    assert "fit:device/core" in kept(folder)


def test_nothing_is_dated_unless_a_date_is_given(folder: Path) -> None:
    progress(folder, "--done", "fit:core")
    assert "on:" not in kept(folder)


def test_it_survives_a_change_of_the_plan(folder: Path) -> None:
    progress(folder, "--done", "fit:core", "fit:gateway", "--mac", f"gateway={MAC}")
    before = kept(folder)
    (folder / "shed.yaml").write_text(PLAN.replace("gateway:", "router:").replace("gateway/1", "router/1"))
    shown = progress(folder)
    assert shown.code == 0
    assert "no step 'fit:device/gateway' in the plan any more; the record is kept" in " ".join(
        shown.out.split()
    )
    firstfix("build", "shed.yaml", "-o", "out", cwd=folder)
    assert kept(folder) == before
    progress(folder, "--done", "fit:router")
    assert [
        line for line in kept(folder).splitlines() if "fit:device/router" not in line
    ] == before.splitlines()


def test_what_remains_shrinks_to_the_eye(folder: Path) -> None:
    before = json.loads(progress(folder, "--format", "json").out)
    progress(folder, "--done", "unpack:plan/all", "--ordered", "access-point", "--mac", f"core={MAC}")
    after = json.loads(progress(folder, "--format", "json").out)
    assert after["steps"] == before["steps"] == len(before["to_do"])
    assert after["done"] == ["unpack:plan/all"]
    assert set(before["mac_to_read"]) - set(after["mac_to_read"]) == {"core"}
    line = next(each for each in after["lines"] if each["id"] == "access-point")
    assert (line["to_order"], line["to_come"]) == (0, 1)
    assert progress(folder).out == progress(folder).out


def test_a_build_shows_it_everywhere(folder: Path) -> None:
    firstfix("build", "shed.yaml", "-o", "bare", cwd=folder)
    assert not (folder / "bare" / "what-remains.md").exists()
    progress(
        folder,
        "--done",
        "fit:core",
        "--mac",
        f"core={MAC}",
        "--serial",
        "core=S|1",
        "--length",
        f"{RUN}=12.4m",
    )
    built = firstfix("build", "shed.yaml", "-o", "out", cwd=folder)
    assert built.code == 0, built.err
    out = folder / "out"
    checklist = (out / "install-checklist.md").read_text("utf-8")
    assert [line for line in checklist.splitlines() if line.startswith("- [x]")] == [
        line for line in checklist.splitlines() if "· fit:device/core" in line
    ]
    remains = (out / "what-remains.md").read_text("utf-8")
    assert "fit:device/core" not in remains.replace("Waits for", "")
    assert "12.4 m" in remains
    page = (out / "report.html").read_text("utf-8")
    assert page.count("☑") == 1
    assert 'href="#remaining"' in page
    sheet = (out / "stubs" / "core" / "settings.md").read_text("utf-8")
    assert f"| MAC address | {MAC} |" in sheet
    assert "S\\|1" in sheet
    assert "Placeholder" not in sheet
    bridge = json.loads((out / "stubs" / "core" / "config.json").read_text("utf-8"))
    addresses = [each["address"] for each in bridge["ieee802-dot1q-bridge:bridges"]["bridge"]]
    assert addresses == [MAC.upper().replace(":", "-")]
    assert MAC in (out / "build.json").read_text("utf-8")


@pytest.mark.parametrize(
    ("given", "word"),
    [
        (("--done", "fit:coer"), "did you mean 'fit:core'"),
        (("--done", ""), "no step"),
        (("--done", "4"), "numbers change with the plan"),
        (("--done", "hang:panel"), "'fit:panel'"),
        (("--done", "fit:core", "--passed", RUN, "--length", f"{RUN}=12"), "(nothing is recorded)"),
        (("--done", "fit:coer", "--mac", "core"), "for 2 things are wrong: (1) there is no step"),
        (("--length", "panel=12 m"), f"runs there are '{RUN}'"),
        (("--length", f"{RUN}=12 m", "ap-attic--core=13 m"), "given twice, as '12 m' and '13 m'"),
        (("--passed", RUN, "--failed", RUN), "given twice, as 'pass' and 'fail'"),
        (("--serial", "core=1", "core=2"), "given twice"),
        (("--arrived", "cat6-indoor=5m", "cat6-indoor=6m"), "given twice"),
        (("--done", "\x1b[2J"), "no step"),
        (("--not-done", "fit:core"), "not recorded"),
        (("--done", "fit:core", "--not-done", "fit:core"), "not recorded"),
        (("--arrived", "access-pint"), "did you mean 'access-point'"),
        (("--arrived", "access-point=two"), "whole number"),
        (("--arrived", "access-point="), "whole number"),
        (("--arrived", "access-point=9999999999"), "whole number"),
        (("--ordered", "cat6-indoor=50"), "no unit"),
        (("--mac", "core"), "no value"),
        (("--mac", f"cor={MAC}"), "did you mean 'core'"),
        (("--mac", "core=01:00:5e:00:53:0a"), "first pair even"),
        (("--mac", f"core={MAC}", f"gateway={MAC}"), "MAC address of core already"),
        (("--serial", "core=" + "x" * 3000), "at most 2,000"),
        (("--length", f"{RUN}=12"), "no unit"),
        (("--length", f"{RUN}=0 m"), "beyond"),
        (("--length", "core=12 m"), "no installed run"),
        (("--passed", "core--gateway/1"), "no installed run"),
        (("--done", "fit:core", "--on", "14.3.2027"), "such as 2027-03-14"),
        (("--on", "2027-03-14"), "nothing to record"),
        (("--done",), "argument"),
    ],
)
def test_what_cannot_be_recorded_is_one_sentence(
    given: tuple[str, ...],
    word: str,
    folder: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """In this process, which is quicker; TroubleError is exit code 2 (tests/cli/test_exit_codes.py)."""
    monkeypatch.chdir(folder)
    with pytest.raises(TroubleError, match=r".") as trouble:
        run(["shed.yaml", *given])
    assert word in str(trouble.value)
    assert "\n" not in str(trouble.value)
    assert capsys.readouterr() == ("", "")
    assert not (folder / "shed.progress.yaml").exists()


@pytest.mark.parametrize(
    "text", ["done: [", "done: {a: yes}\n", "{done: {a: true}}\n", "labels: {core: {mac: nonsense}}\n"]
)
def test_a_file_that_cannot_be_changed_stays_as_it_is(text: str, folder: Path) -> None:
    path = folder / "shed.progress.yaml"
    path.write_text(text)
    done = firstfix("progress", "./shed.yaml", "--mac", f"gateway={MAC}", cwd=folder)
    assert done.code == 2
    assert is_one_sentence(done.err)
    assert kept(folder) == text
    assert sorted(each.name for each in folder.iterdir()) == ["shed.progress.yaml", "shed.yaml"]


def test_a_mark_at_the_start_and_line_ends_stay(folder: Path) -> None:
    path = folder / "shed.progress.yaml"
    path.write_bytes(b"\xef\xbb\xbfdone:\r\n  fit:device/core: # heavy\r\n")
    progress(folder, "--done", "unpack:plan/all")
    assert (
        path.read_bytes() == b"\xef\xbb\xbfdone:\r\n  fit:device/core: # heavy\r\n  unpack:plan/all: true\r\n"
    )


def test_a_link_is_not_written_through(folder: Path) -> None:
    (folder / "elsewhere.yaml").write_text("done:\n")
    (folder / "shed.progress.yaml").symlink_to(folder / "elsewhere.yaml")
    done = progress(folder, "--done", "fit:core")
    assert done.code == 2
    assert (folder / "elsewhere.yaml").read_text() == "done:\n"


def test_what_was_found_on_site_is_no_difference_between_plans(folder: Path) -> None:
    (folder / "new.yaml").write_text(PLAN)
    progress(folder, "--mac", f"core={MAC}", "--length", f"{RUN}=16 m", "--done", "fit:core")
    done = firstfix("diff", "shed.yaml", "new.yaml", cwd=folder)
    assert (done.code, done.out) == (0, "nothing changes\n")


def test_a_record_is_taken_out(folder: Path) -> None:
    progress(folder, "--done", "fit:core", "fit:gateway")
    progress(folder, "--not-done", "fit:core")
    assert "fit:device/core" not in kept(folder)
    assert "fit:device/gateway" in kept(folder)
