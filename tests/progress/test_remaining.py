"""What remains after each thing that is recorded, down to nothing."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from firstfix.parts.part import ACTIVE_KINDS
from firstfix.progress.change import Change, changed
from firstfix.purchase.lines import METRES
from firstfix.remaining.reckon import run_id
from progress.sample import PLAN, RUN, compiled, standing


def all_records(folder: Path) -> list[Change]:
    """Everything that can be recorded of the sample."""
    bare = compiled(folder)
    left = standing(bare)
    assert bare.build is not None
    bought = [
        Change("bought", line.id, {"arrived": f"{line.wanted:g}{' m' if line.unit == METRES else ''}"})
        for line in left.lines
    ]
    labels = [
        Change("labels", name, {"mac": f"00:00:5e:00:53:{number:02x}"})
        for number, name in enumerate(left.unread)
    ]
    return [*bought, *labels, *(Change("done", step.id, {}) for step in left.steps)]


def test_without_a_file_everything_remains(tmp_path: Path) -> None:
    result = compiled(tmp_path)
    left = standing(result)
    assert result.build is not None
    assert left.done == frozenset()
    assert len(left.steps) == left.all_steps > 20
    assert all(line.to_order == line.wanted > 0 and line.to_come == 0 for line in left.lines)
    active = {device.name for device in result.build.devices.values() if device.part.kind in ACTIVE_KINDS}
    assert set(left.unread) == active == {"core", "gateway", "ap-attic"}
    assert [run.run for run in left.runs] == [RUN]


def test_all_recorded_leaves_nothing(tmp_path: Path) -> None:
    result = compiled(tmp_path, changed("", all_records(tmp_path)))
    left = standing(result)
    assert left.is_nothing
    assert (left.steps, left.unread) == ((), ())
    assert result.report.findings == compiled(tmp_path, "").report.findings


@settings(
    derandomize=True,
    deadline=None,
    max_examples=25,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(chosen=st.sets(st.integers(0, 70)))
def test_what_remains_is_what_is_not_recorded(chosen: set[int], tmp_path: Path) -> None:
    records = all_records(tmp_path)
    recorded = {(each.section, each.name) for number, each in enumerate(records) if number in chosen}
    left = standing(
        compiled(tmp_path, changed("", [each for each in records if (each.section, each.name) in recorded]))
    )
    open_ = {
        *(("done", step.id) for step in left.steps),
        *(("bought", line.id) for line in left.lines if not line.is_here),
        *(("labels", name) for name in left.unread),
    }
    assert open_ == {(each.section, each.name) for each in records} - recorded
    done = {name for section, name in recorded if section == "done"}
    assert left.done == done
    for step in left.steps:
        assert done.isdisjoint(step.waits_for)


def test_steps_in_their_order_never_wait(tmp_path: Path) -> None:
    """Whoever works down the list always finds its next step ready."""
    steps = standing(compiled(tmp_path)).steps
    for count in range(0, len(steps), 7):
        text = changed("", [Change("done", step.id, {}) for step in steps[:count]])
        left = standing(compiled(tmp_path, text))
        assert [step.id for step in left.steps] == [step.id for step in steps[count:]]
        assert left.steps[0].waits_for == ()


@pytest.mark.parametrize(
    ("amounts", "to_order", "to_come"),
    [
        ("{}", 2, 0),
        ("{ordered: 1}", 1, 1),
        ("{ordered: 2}", 0, 2),
        ("{ordered: 2, arrived: 1}", 0, 1),
        ("{arrived: 1}", 1, 0),
        ("{arrived: 2}", 0, 0),
        ("{ordered: 3, arrived: 2}", 0, 0),
        ("{ordered: 3}", 0, 2),
        ("{ordered: 2 m}", 2, 0),
    ],
)
def test_a_line_step_by_step(amounts: str, to_order: int, to_come: int, tmp_path: Path) -> None:
    """Two of one kind are wanted."""
    two = PLAN.replace("links:", "  ap-eaves: {part: access-point, room: attic, plugs-into: core}\nlinks:")
    left = standing(compiled(tmp_path, f"bought: {{access-point: {amounts}}}", two))
    found = next(each for each in left.lines if each.id == "access-point")
    assert found.wanted == 2
    assert (found.to_order, found.to_come) == (to_order, to_come)


@pytest.mark.parametrize(
    ("text", "is_done"),
    [
        (f"measured: {{{RUN}: {{test: pass}}}}", True),
        (f"measured: {{{RUN}: {{test: fail}}}}", False),
        (f"measured: {{{RUN}: {{length: 12 m}}}}", False),
        (f"done: {{test:piece/{RUN}: }}\nmeasured: {{{RUN}: {{test: fail}}}}", False),
        (f"done: {{test:piece/{RUN}: }}", True),
    ],
)
def test_a_verdict_decides_on_the_step(text: str, is_done: bool, tmp_path: Path) -> None:
    assert (f"test:piece/{RUN}" in standing(compiled(tmp_path, text)).done) == is_done


def test_what_was_measured_is_in_the_build_and_not_in_the_purchase(tmp_path: Path) -> None:
    bare, measured = compiled(tmp_path), compiled(tmp_path, f"measured: {{{RUN}: {{length: 12.4 m}}}}")
    assert bare.build is not None
    assert measured.build is not None
    piece = measured.build.pieces[f"piece:{RUN}"]
    assert run_id(piece) == RUN
    assert piece.length.figure == (12.4, 12.4, 12.4, "measured")
    assert piece.length.as_planned == bare.build.pieces[piece.id].length
    assert measured.build.items == bare.build.items
    assert standing(measured).lines == standing(bare).lines
