"""Every name exchanged, every table in another order: nothing is bought, nothing costs anything, and no run is another one."""

import json
import random
from pathlib import Path

import pytest

from allocations.keeping import compiled, kept_after
from compare.renaming import exchange, renamed
from firstfix.build.model import Build
from firstfix.compare.changes import Changes, compare
from firstfix.compare.verdicts import verdict_changes
from firstfix.pipeline import Compiled
from firstfix.purchase.difference import purchases
from repo.editing import PLANS, read

TWO = [path for path in PLANS if path.stem in ("honey-farm", "rowing-club")]


def _build(result: Compiled) -> Build:
    assert result.build is not None
    return result.build


def _old(path: Path, folder: Path) -> tuple[Compiled, str]:
    text = path.with_name(f"{path.stem}.allocations.yaml").read_text("utf-8")
    return compiled(folder, read(path), text), text


def _is_nothing_but_names(old: Compiled, new: Compiled) -> Changes:
    changes = compare(_build(old), _build(new))
    assert not changes.added
    assert not changes.removed
    assert not changes.changed
    assert not changes.to_buy
    assert not changes.no_longer_needed
    bought = purchases(_build(old), _build(new), changes.delta.names)
    assert not any(bought.free)
    assert bought.order is None
    assert bought.to_buy == bought.left_over == ()
    assert verdict_changes(old.report, new.report, changes.delta.names) == ()
    return changes


@pytest.mark.parametrize("path", TWO, ids=lambda path: path.stem)
@pytest.mark.parametrize("seed", range(3))
def test_every_name_with_was_and_without(path: Path, seed: int, tmp_path: Path) -> None:
    old, text = _old(path, tmp_path)
    names = exchange(read(path), random.Random(seed))  # noqa: S311 - repeatable
    chance = random.Random(seed)  # noqa: S311 - repeatable
    told = compiled(tmp_path, renamed(read(path), names, chance, with_was=True), text)
    said = _is_nothing_but_names(old, told)
    assert not any(each.is_guess for each in said.renamed)

    untold = compiled(tmp_path, renamed(read(path), names, chance, with_was=False), kept_after(told))
    guessed = _is_nothing_but_names(old, untold)
    assert all(each.is_guess for each in guessed.renamed)
    assert {each[:2] for each in guessed.renamed} == {each[:2] for each in said.renamed}


@pytest.mark.parametrize("path", TWO, ids=lambda path: path.stem)
def test_the_order_of_tables_and_the_form_of_the_text(path: Path, tmp_path: Path) -> None:
    old, text = _old(path, tmp_path)
    same = {name: name for name in exchange(read(path), random.Random(1)).names}  # noqa: S311 - repeatable
    chance = random.Random(2)  # noqa: S311 - repeatable
    plan = renamed(read(path), type(exchange(read(path), chance))(same), chance, with_was=False)
    assert json.dumps(plan) != json.dumps(read(path))
    assert _is_nothing_but_names(old, compiled(tmp_path, plan, text)).is_empty


@pytest.mark.parametrize("path", TWO, ids=lambda path: path.stem)
def test_every_name_without_was_and_one_camera_more(path: Path, tmp_path: Path) -> None:
    """What is new stands out, although nothing has its old name."""
    old, text = _old(path, tmp_path)
    names = exchange(read(path), random.Random(4))  # noqa: S311 - repeatable
    chance = random.Random(4)  # noqa: S311 - repeatable
    told = compiled(tmp_path, renamed(read(path), names, chance, with_was=True), text)
    plan = renamed(read(path), names, chance, with_was=False)
    switch = next(each for each in read(path)["devices"] if each in ("barn-switch", "boat-switch"))
    room = next(
        each["room"] for each in plan["devices"].values() if each["part"] in ("access-point", "yard-camera")
    )
    plan["devices"]["extra"] = {"part": "camera", "room": room, "plugs-into": [names.names[switch]]}
    changes = compare(_build(old), _build(compiled(tmp_path, plan, kept_after(told))))
    assert changes.removed == ()
    assert [each for each in changes.added if each.startswith("device:")] == ["device:extra"]
    assert {each[:2] for each in changes.renamed} == {
        each[:2] for each in compare(_build(old), _build(told)).renamed
    }
