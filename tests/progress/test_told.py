"""What is said when the record and the plan part ways."""

from pathlib import Path

import pytest

from firstfix.parts.facts import Fact
from firstfix.remaining.words import run_words, step_words
from firstfix.work.tasks import tasks
from progress.sample import PLAN, RUN, compiled, standing, told

PULL = f"pull:piece/{RUN}"


def words(folder: Path, step: str) -> str:
    build = compiled(folder).build
    assert build is not None
    return next(step_words(build, task) for task in tasks(build) if task.id == step)


def planned(folder: Path) -> tuple[float, float]:
    """The run's planned length, and its slack at both ends together."""
    build = compiled(folder).build
    assert build is not None
    length = build.pieces[f"piece:{RUN}"].length
    assert isinstance(length.figure, Fact)
    return length.figure.high, sum(term.value for term in length.terms if "slack" in term.what)


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("done: {fit:device/cor: }", "fit:device/cor"),
        ("bought: {cord-cat9/1m: {ordered: 2}}", "cord-cat9/1m"),
        ("labels: {cor: {serial: x}}", "cor"),
        ("measured: {core--gateway/1: {length: 2 m}}", "core--gateway/1"),
        ("measured: {core--nowhere/1: {length: 2 m}}", "core--nowhere/1"),
    ],
)
def test_what_matches_nothing_is_a_note(text: str, subject: str, tmp_path: Path) -> None:
    assert told(compiled(tmp_path, text)) == [("progress-unmatched", subject)]


def test_a_device_that_is_renamed_leaves_its_records_to_be_seen(tmp_path: Path) -> None:
    text = "done: {fit:device/gateway: }\nlabels: {gateway: {mac: 00:00:5e:00:53:01}}\n"
    assert told(compiled(tmp_path, text)) == []
    renamed = compiled(tmp_path, text, PLAN.replace("gateway:", "router:").replace("gateway/1", "router/1"))
    assert told(renamed) == [("progress-unmatched", "fit:device/gateway"), ("progress-unmatched", "gateway")]
    assert renamed.progress == compiled(tmp_path, text).progress


def test_a_renaming_that_the_plan_tells_of_carries_the_records_over(tmp_path: Path) -> None:
    build = compiled(tmp_path).build
    assert build is not None
    steps = {task.id: step_words(build, task) for task in tasks(build)}
    run = run_words(build, build.pieces[f"piece:{RUN}"])
    text = "done:\n" + "".join(f'  {id_}: {{as: "{as_}"}}\n' for id_, as_ in steps.items())
    text += (
        f'measured: {{{RUN}: {{length: 16 m, as: "{run}"}}}}\nlabels: {{core: {{mac: 00:00:5e:00:53:01}}}}\n'
    )
    for old in ("core", "ap-attic", "panel", "gateway", "riser"):
        plan = PLAN.replace(f"{old}:", "a-z:").replace(f": {old}\n", ": a-z\n").replace(f", {old}]", ", a-z]")
        plan = plan.replace(f"[{old}/", "[a-z/").replace(f", {old}/", ", a-z/")
        at = plan.index("a-z:")
        plan = plan[:at] + plan[at:].replace("{", f"{{was: {old}, ", 1)
        result = compiled(tmp_path, text, plan)
        assert told(result) == [], old
        assert len(standing(result).done) == len(steps)
        assert result.build is not None
        assert [device.name for device in result.build.devices.values() if device.mac] == [
            "a-z" if old == "core" else "core"
        ]
        assert sum(piece.length.reckoned is not None for piece in result.build.pieces.values()) == 1


@pytest.mark.parametrize(
    ("step", "old", "new"),
    [
        (PULL, "length: 11 m", "length: 13 m"),
        (PULL, "links:", "cabling: {indoor: cat6a-indoor}\nlinks:"),
        (PULL, "panel/1", "panel/7"),
        ("fit:device/core", "switch-16-poe", "switch-24-poe"),
        ("fit:device/core", "4: core", "3: core"),
        ("set-up:device/gateway", "gateway-desktop", "gateway-1u"),
        ("hang:cabinet/rack", "wall-cabinet-6u", "wall-cabinet-12u"),
    ],
)
def test_done_and_then_planned_otherwise_is_a_note(step: str, old: str, new: str, tmp_path: Path) -> None:
    text = f'done: {{{step}: {{as: "{words(tmp_path, step)}"}}}}'
    assert told(compiled(tmp_path, text)) == []
    changed = compiled(tmp_path, text, PLAN.replace(old, new))
    assert told(changed) == [("progress-outdated", step)]
    # By hand it may be left out, and then nothing can be compared.
    assert told(compiled(tmp_path, f"done: {{{step}: }}", PLAN.replace(old, new))) == []


def test_lines_and_devices_that_move_change_no_record(tmp_path: Path) -> None:
    build = compiled(tmp_path).build
    assert build is not None
    steps = {task.id: step_words(build, task) for task in tasks(build)}
    text = "done:\n" + "".join(f'  {id_}: {{as: "{as_}"}}\n' for id_, as_ in steps.items())
    head, _, rest = PLAN.partition("devices:\n")
    devices, _, links = rest.partition("links:\n")
    moved = (
        f"# moved\n{head}\nlinks:\n  - {{run: [core/16, desk]}}\n{links}devices:\n"
        + "  desk: {part: end-device, room: study, owned: true}\n"
        + "\n".join(reversed(devices.splitlines()))
        + "\n"
    )
    # But that one more jack of the switch is set.
    assert told(compiled(tmp_path, text, moved)) == [("progress-outdated", "set-up:device/core")]
    assert told(compiled(tmp_path, text, moved.replace("  - {run: [core/16, desk]}\n", ""))) == []


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("bought: {access-point: {arrived: 1}}", None),
        ("bought: {access-point: {arrived: 2}}", "progress-outdated"),
        ("bought: {access-point: {ordered: 2, arrived: 1}}", "progress-outdated"),
        ("bought: {access-point: {ordered: 1 m}}", "progress-outdated"),
        ("bought: {cat6-indoor: {ordered: 1}}", "progress-outdated"),
        ("labels: {core: {mac: 00:00:5e:00:53:01, part: switch-16-poe}}", None),
        ("labels: {core: {mac: 00:00:5e:00:53:01, part: switch-8}}", "progress-outdated"),
        (f"measured: {{{RUN}: {{test: fail}}}}", "run-failed-test"),
        ("bought: {access-point: {ordered-on: 2027-03-14, arrived-on: 2027-03-14}}", None),
        ("bought: {access-point: {ordered-on: 2027-03-15, arrived-on: 2027-03-14}}", "progress-out-of-time"),
        ("done: {unbox:device/core: 2027-03-14, set-up:device/core: 2027-03-14, fit:device/core: }", None),
        ("done: {unbox:device/core: 2027-03-15, set-up:device/core: 2027-03-14}", "progress-out-of-time"),
    ],
)
def test_other_things_that_no_longer_fit(text: str, rule: str | None, tmp_path: Path) -> None:
    assert [found for found, _ in told(compiled(tmp_path, text))] == ([rule] if rule else [])


def test_a_label_that_says_otherwise_than_the_plan_stands(tmp_path: Path) -> None:
    plan = PLAN.replace("{part: switch-16-poe}", "{part: switch-16-poe, mac: 00:00:5e:00:53:02}")
    result = compiled(tmp_path, "labels: {core: {mac: 00:00:5e:00:53:01}}", plan)
    assert told(result) == [("progress-outdated", "core")]
    assert result.build is not None
    assert result.build.devices["device:core"].mac == "00:00:5e:00:53:01"
    assert told(compiled(tmp_path, "labels: {core: {mac: 00-00-5E-00-53-02}}", plan)) == []


def test_measured_at_both_edges(tmp_path: Path) -> None:
    """Longer than planned with slack, or shorter than planned without slack, less a tester's 10 %, is a note."""
    most, slack = planned(tmp_path)
    least = round((most - slack) * 0.9, 3)
    for length, is_told in ((most, False), (most + 0.001, True), (least, False), (least - 0.002, True)):
        text = f"measured: {{{RUN}: {{length: {length:.3f} m}}}}"
        expected = [("length-measured", f"piece:{RUN}")] if is_told else []
        assert told(compiled(tmp_path, text)) == expected, length


def test_a_limit_is_judged_by_the_measured_length(tmp_path: Path) -> None:
    """98 m of permanent link are beyond 90 m (ISO/IEC 11801-1), whatever the plan reckons; and the other way round."""

    def lengths(text: str, plan: str = PLAN) -> list[float]:
        report = compiled(tmp_path, text, plan).report
        found = [
            each for each in report.findings if each.level.value == "error" and each.measurement is not None
        ]
        return [each.measurement.figure for each in found if each.measurement is not None]

    assert lengths("") == []
    assert any(figure >= 98 for figure in lengths(f"measured: {{{RUN}: {{length: 98 m}}}}"))
    too_long = PLAN.replace("length: 11 m", "length: 98 m")
    assert any(figure >= 98 for figure in lengths("", too_long))
    assert lengths(f"measured: {{{RUN}: {{length: 80 m}}}}", too_long) == []


def test_what_was_measured_of_another_run_does_not_count(tmp_path: Path) -> None:
    build = compiled(tmp_path).build
    assert build is not None
    as_ = run_words(build, build.pieces[f"piece:{RUN}"])
    text = f'measured: {{{RUN}: {{length: 98 m, as: "{as_}"}}}}'
    rerouted = PLAN.replace("links:", "cabling: {indoor: cat6a-indoor}\nlinks:")
    assert told(compiled(tmp_path, text)) == [("length-measured", f"piece:{RUN}")]
    result = compiled(tmp_path, text, rerouted)
    assert told(result) == [("progress-outdated", RUN)]
    assert result.build is not None
    assert result.build.pieces[f"piece:{RUN}"].length.reckoned is None
