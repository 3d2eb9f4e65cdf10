"""What each phase costs adds up to the whole list, whatever packs are shared between them."""

from pathlib import Path
from typing import Any

import pytest

from firstfix.build.model import Build
from firstfix.purchase.by_phase import costs_by_phase, phases_of
from firstfix.purchase.needs import needs, total
from purchase.test_difference import shed


def _phased(tmp_path: Path, name: str) -> Build:
    more: dict[str, Any] = {"defaults": {"access-point": {"phase": name}}} if name else {}
    return shed(tmp_path, 9, 2, phases={"now": {"budget": 100}, "spring": {}}, **more)


@pytest.mark.parametrize("name", ["", "now", "spring"])
def test_the_phases_add_up_to_the_list(tmp_path: Path, name: str) -> None:
    build = _phased(tmp_path, name)
    to_buy = needs(build)
    costs = costs_by_phase(build, to_buy)
    assert [each.name for each in costs] == ["now", "spring"]
    assert sum(each.paid for each in costs) == total(to_buy).known
    assert (costs[1].paid > 0) == (name == "spring")


def test_what_names_no_phase_is_bought_with_the_first(tmp_path: Path) -> None:
    build = _phased(tmp_path, "spring")
    served = {need.part: phases_of(build, need) for need in needs(build)}
    assert served["switch-16-poe"] == ("now",)
    assert served["access-point"] == ("spring",)


def test_without_phases_there_is_nothing_to_say(tmp_path: Path) -> None:
    build = shed(tmp_path, 9, 1)
    assert costs_by_phase(build, needs(build)) == ()
