"""What is chosen for identifiers by ANSI/TIA-606 stays when the plan grows, and what is written comes first."""

from pathlib import Path
from typing import Any

from allocations.keeping import compiled, kept_after, said
from firstfix.pipeline import Compiled

PLAN: dict[str, Any] = {
    "labels": {"scheme": "tia-606"},
    "sites": {"home": {"rooms": {"study": {}, "workroom": {}}}},
    "cabinets": {"m": {"part": "wall-cabinet-6u", "room": "study"}},
    "devices": {"one": {"part": "camera", "room": "workroom"}},
}
GROWN: dict[str, Any] = {
    **PLAN,
    "sites": {"home": {"rooms": {"attic": {}, "study": {}, "workroom": {}}}},
    "cabinets": {"a": {"part": "wall-cabinet-6u", "room": "study"}, **PLAN["cabinets"]},
    "devices": {**PLAN["devices"], "two": {"part": "camera", "room": "attic"}},
}


def _own(result: Compiled) -> dict[str, str]:
    assert result.build is not None
    return dict(result.build.administration.own)


def test_a_room_or_cabinet_added_renumbers_nothing(tmp_path: Path) -> None:
    first = compiled(tmp_path, PLAN)
    assert _own(first) == {
        "building:home/home": "H", "cabinet:m": "A01", "room:home/study": "0A", "room:home/workroom": "0B", "site:home": "H",
    }  # fmt: skip
    grown = compiled(tmp_path, GROWN, kept_after(first))
    assert _own(first).items() < _own(grown).items()
    assert _own(grown)["room:home/attic"] == "0C"
    assert _own(grown)["cabinet:a"] == "A02"
    assert said(grown) == []
    assert _own(compiled(tmp_path, GROWN))["room:home/attic"] == "0A", "nothing kept, so by name"


def test_what_is_kept_follows_a_new_name(tmp_path: Path) -> None:
    first = compiled(tmp_path, GROWN)
    renamed = {**GROWN, "sites": {"home": {"rooms": {"loft": {"was": "attic"}, "study": {}, "workroom": {}}}}}
    renamed["devices"] = {**GROWN["devices"], "two": {"part": "camera", "room": "loft"}}
    result = compiled(tmp_path, renamed, kept_after(first))
    assert _own(result)["room:home/loft"] == "0A"


def test_what_is_written_comes_before_what_is_kept(tmp_path: Path) -> None:
    kept = kept_after(compiled(tmp_path, PLAN))
    written = {**PLAN, "sites": {"home": {"rooms": {"study": {}, "workroom": {"label": "0a"}}}}}
    result = compiled(tmp_path, written, kept)
    assert _own(result)["room:home/workroom"] == "0A"
    assert _own(result)["room:home/study"] == "0B"
    assert "kept-impossible" in said(result)


def test_the_simple_scheme_keeps_nothing(tmp_path: Path) -> None:
    assert "label:" not in kept_after(compiled(tmp_path, {**PLAN, "labels": {}}))


def test_i_and_o_are_no_letters_of_spaces(tmp_path: Path) -> None:
    rooms: dict[str, Any] = {f"r{number:02}": {} for number in range(30)}
    devices = {f"d{number:02}": {"part": "camera", "room": f"r{number:02}"} for number in range(30)}
    own = _own(
        compiled(tmp_path, {**PLAN, "cabinets": {}, "sites": {"home": {"rooms": rooms}}, "devices": devices})
    )
    letters = [own[f"room:home/r{number:02}"] for number in range(30)]
    assert letters[:9] == ["0A", "0B", "0C", "0D", "0E", "0F", "0G", "0H", "0J"]
    assert letters[23:26] == ["0Z", "0AA", "0AB"]
