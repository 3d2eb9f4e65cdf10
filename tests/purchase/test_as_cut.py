"""Boxes that are cut into are cut: the worked example is a club whose two boxes of 50 m were used for four runs."""

from dataclasses import replace

from firstfix.algorithms.cutting import Run, cut
from firstfix.purchase.as_cut import needs_as_cut
from firstfix.purchase.needs import Need, needs
from purchase.sample import sample

SOLD = (50.0, 100.0)


def _need(lengths: dict[str, float]) -> Need:
    """The sample's own cable, with runs of our own; bought as the list would have it."""
    need = next(each for each in needs(sample()) if each.amount.cutting.coils)
    cutting = cut([Run(id_, length) for id_, length in lengths.items()], SOLD)
    packs = tuple(need.amount.packs[0]._replace(number=1, size=coil.length) for coil in cutting.coils)
    return replace(need, amount=need.amount._replace(cutting=cutting, packs=packs))


def _as_cut(lengths: dict[str, float], pulled: set[str], had: float) -> Need:
    build, need = sample(), _need(lengths)
    part = build.library[need.part]
    assert part.cable is not None
    library = {**build.library, need.part: replace(part, cable=part.cable._replace(lengths=SOLD))}
    (found,) = needs_as_cut(replace(build, library=library), (need,), pulled, {need.id: had})
    return found


def test_a_run_longer_than_any_rest_takes_a_new_box() -> None:
    pulled = {"a": 28.36, "b": 20.0, "c": 28.36, "d": 0.5}
    # Two boxes of 50 m, of which 21.64 m and less are left; together they would do, as one box of 100 m would.
    assert _need(pulled).amount.bought == 100.0
    new = _need({**pulled, "e": 22.5})
    assert new.amount.bought == 100.0
    found = _as_cut({**pulled, "e": 22.5}, set(pulled), 100.0)
    assert found.amount.bought == 150.0
    ends = [{run.id for run in coil.runs} for coil in found.amount.cutting.coils]
    assert {"e"} in ends


def test_a_run_that_a_rest_holds_takes_none() -> None:
    pulled = {"a": 30.0, "b": 30.0}
    found = _as_cut({**pulled, "e": 19.5}, set(pulled), 100.0)
    assert found.amount.bought == 100.0
    assert sum(len(coil.runs) for coil in found.amount.cutting.coils) == 3


def test_whole_boxes_that_are_here_are_taken_first() -> None:
    assert _as_cut({"a": 45.0, "b": 45.0, "c": 40.0}, {"a"}, 100.0).amount.bought == 150.0


def test_a_list_that_is_being_worked_off_stays() -> None:
    lengths = {"a": 45.0, "b": 45.0, "c": 40.0}
    bought = _need(lengths).amount.bought
    for pulled in ({"a"}, {"a", "b"}, set(lengths)):
        assert _as_cut(lengths, pulled, bought) == _need(lengths)
    # What is recorded as here is less than what lies: nothing can be told from that.
    assert _as_cut(lengths, {"a", "b"}, 50.0) == _need(lengths)
