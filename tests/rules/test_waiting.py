"""What only waits for a reported fault is marked, and a fact that nobody wrote never is."""

from pathlib import Path

import pytest

from firstfix.pipeline import compile_plan

_PLAN = """\
sites: {home: {rooms: {study: {mains: 4}, attic: {}}}}
ways: {riser: {between: [study, attic]%(riser)s, kind: riser}}
devices:
  core: {part: switch-8-poe, room: %(room)s}
  ap: {part: access-point, room: attic, plugs-into: core%(host)s}
"""


def _told(
    folder: Path, riser: str = ", length: 8 m", room: str = "study", host: str = ""
) -> list[tuple[str, bool]]:
    path = folder / "plan.yaml"
    path.write_text(_PLAN % {"riser": riser, "room": room, "host": host}, encoding="utf-8")
    report = compile_plan(path, "plan.yaml").report
    return sorted({(each.rule, each.waits) for each in report.undetermined})


def test_nothing_is_open_in_the_sound_plan(tmp_path: Path) -> None:
    assert _told(tmp_path) == []


def test_a_refused_length_is_waited_for(tmp_path: Path) -> None:
    told = _told(tmp_path, riser=", length: 8")
    assert ("channel-length", True) in told
    assert all(waits for _, waits in told)


@pytest.mark.parametrize("host", ["", ", host: nonsense, vlan: nowhere"])
def test_a_length_that_nobody_wrote_is_missing_whatever_else_is_wrong(tmp_path: Path, host: str) -> None:
    told = _told(tmp_path, riser="", host=host)
    assert ("channel-length", False) in told


def test_an_unknown_room_is_waited_for(tmp_path: Path) -> None:
    told = _told(tmp_path, room="studdy")
    assert ("channel-length", True) in told
    assert all(waits for _, waits in told)
